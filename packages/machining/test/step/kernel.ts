import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Face, type Shape3D, getOC, importSTEP, measureVolume, setOC } from 'replicad';

const require = createRequire(import.meta.url);
let started: Promise<void> | null = null;

const start = async (): Promise<void> => {
  const { default: open } = (await import('replicad-opencascadejs')) as unknown as {
    default: (o: object) => Promise<Parameters<typeof setOC>[0]>;
  };
  setOC(await open({ wasmBinary: readFileSync(require.resolve('replicad-opencascadejs/wasm')) }));
};

export interface Cylinder {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

export interface KernelSolid {
  readonly volume: number;
  /** The kernel's own check of every edge, face and the closed shell. */
  readonly valid: boolean;
  readonly kind: string;
  readonly box: readonly (readonly number[])[];
  readonly cylinders: readonly Cylinder[];
  readonly cones: number;
}

const known = new Map<string, Promise<KernelSolid>>();

/**
 * Reads a STEP text with a general geometry kernel (Open CASCADE, through replicad), started once for a file of tests;
 * the same text is read once.
 */
export const readSolid = (text: string): Promise<KernelSolid> => {
  const read = known.get(text) ?? readAnew(text);
  known.set(text, read);
  return read;
};

const readAnew = async (text: string): Promise<KernelSolid> => {
  await (started ??= start());
  const solid = (await importSTEP(new Blob([text]))) as Shape3D;
  const oc = getOC();
  return {
    volume: measureVolume(solid),
    valid: new oc.BRepCheck_Analyzer(solid.wrapped, true, false).IsValid(),
    kind: solid.constructor.name,
    box: solid.boundingBox.bounds,
    cylinders: solid.faces.filter((f) => f.geomType === 'CYLINDRE').map(cylinderOf),
    cones: solid.faces.filter((f) => f.geomType === 'CONE').length,
  };
};

const cylinderOf = (face: Face): Cylinder => {
  const oc = getOC();
  const cylinder = new oc.BRepAdaptor_Surface(face.wrapped, true).Cylinder();
  const at = cylinder.Axis().Location();
  return { x: at.X(), y: at.Y(), radius: cylinder.Radius() };
};
