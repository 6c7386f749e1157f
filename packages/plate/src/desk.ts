import { oldThickness } from './stack/old.js';
import type { Motion, Point } from '@fayplate/core';
import { largerEigenvalue } from '@fayplate/core';
import type { Face, Feature, Job, PlateSpec } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import { type Material, material } from '@fayplate/handbook';
import { mate, matedFaces } from './mate/mate.js';
import type { MatedFace, PartFeature, Side, StackResult } from './types.js';

/** One feature of either part where it lies on the plate. */
export interface Placed {
  readonly face: Face;
  readonly feature: Feature;
  /** `pump.P1`. */
  readonly name: string;
  readonly side: Side;
  readonly at: Point;
  /** Measured or stated diameter, mm; null where neither. */
  readonly diameter: number | null;
  /** ± of the diameter (k = 2), mm: as typed, else as its `dia` readings leave it; 0 where it is exact. */
  readonly diameterPlusMinus: number;
  /** Greatest standard deviation of its place, mm. */
  readonly sigma: number;
}

/** Which feature of which part it is. */
export const partOf = (p: Placed): PartFeature => ({ face: p.face.name, feature: p.feature.id });

/** ± of a feature's diameter, wherever it was measured, mm; 0 where it is exact. */
export const diameterPlusMinus = (p: Placed): number => p.diameterPlusMinus;

/**
 * All that a plate is drawn from, on one desk: the job, the thickness, and both parts' features laid in the plate's
 * frame.
 */
export interface Desk {
  readonly job: Job;
  readonly spec: PlateSpec;
  readonly faces: readonly [Face, Face];
  readonly mated: readonly [MatedFace, MatedFace];
  readonly placed: readonly Placed[];
  readonly clocking: number;
  /** What the second face turns about, plate frame, mm. */
  readonly pivot: Point;
  readonly thickness: number;
  /** Shims that lie with the plate, mm in all: they lengthen what a stud has to reach through. */
  readonly shims: number;
  readonly material: Material | null;
  readonly stack: StackResult | null;
  /** Face → from the bench frame of its `rim` points into its own; a face without one has its rim in its own frame. */
  readonly benches: ReadonlyMap<string, Motion | null>;
  /** New dowels are set where there is room at this clocking; left out while clockings are compared. */
  readonly setNewDowels: boolean;
}

type DeskLaid = { readonly ok: true; readonly desk: Desk } | { readonly ok: false; readonly faults: readonly string[] };

export const otherSide = (side: Side): Side => (side === 'A' ? 'B' : 'A');

/** The greater standard deviation of a place, from its 2 × 2 covariance. */
const sigmaOf = (xx: number, xy: number, yy: number): number => Math.sqrt(largerEigenvalue(xx, xy, yy));

/** A face's features where they lie on the plate. */
export const placedOf = (face: Face, mated: MatedFace): readonly Placed[] =>
  face.features.flatMap((feature) => {
    const i = mated.pattern.ids.indexOf(feature.id);
    const at = mated.pattern.points[i];
    if (at === undefined) return [];
    const radius = mated.pattern.radii[i] ?? null;
    const c = mated.pattern.covariance;
    const diameter = radius === null ? (feature.diameter?.value ?? null) : 2 * radius;
    const sigma = sigmaOf(c[2 * i]?.[2 * i] ?? 0, c[2 * i]?.[2 * i + 1] ?? 0, c[2 * i + 1]?.[2 * i + 1] ?? 0);
    const plusMinus = feature.diameter?.plusMinus ?? 4 * (mated.radiusSigmas.get(feature.id) ?? 0);
    return [
      {
        face,
        feature,
        name: `${face.name}.${feature.id}`,
        side: mated.side,
        at,
        diameter,
        diameterPlusMinus: plusMinus,
        sigma,
      },
    ];
  });

/** The second shaft's axis where the shafts are laid by each other, else the first face's origin. */
const pivotOf = (spec: PlateSpec, [first, second]: readonly [MatedFace, MatedFace]): Point =>
  (spec.meet === 'shafts' || spec.shafts !== null) && first.axis !== null && second.axis !== null
    ? second.axis.at
    : { x: 0, y: 0 };

/**
 * Lays both parts at a clocking (radians clockwise; else the stated one). What stands in the way comes back in words.
 */
export const layDesk = (
  job: Job,
  used: ReadonlyMap<string, UsedPattern>,
  options: {
    readonly stack: StackResult | null;
    readonly clocking: number;
    readonly benches?: ReadonlyMap<string, Motion | null>;
    readonly setNewDowels?: boolean;
  },
): DeskLaid => {
  const spec = job.plate;
  if (spec === null) return { ok: false, faults: ['the job has no `plate` section: say which two faces it joins'] };
  const faults: string[] = [];
  for (const name of spec.between) {
    if (!job.faces.some((f) => f.name === name)) faults.push(`the plate joins ${name}, but the job has no such face`);
    else if (!used.has(name))
      faults.push(`the centres of ${name} are not known yet: its readings have to fix them first`);
  }
  const thickness =
    spec.thickness === 'from stack'
      ? (options.stack?.chosen ?? null)
      : spec.thickness === 'from old'
        ? job.old === null
          ? null
          : oldThickness(job.old).chosen
        : spec.thickness;
  if (thickness === null) {
    faults.push(
      spec.thickness === 'from old'
        ? 'the thickness is to come from the old plate, but the job has no `old` section: add one, or give a thickness'
        : options.stack === null
          ? 'the thickness is to come from the stack, but the job has no `stack` section: add one, or give a thickness'
          : 'the thickness is to come from the stack, but no thickness meets all its limits',
    );
  }
  if (faults.length > 0 || thickness === null) return { ok: false, faults };
  const faces = matedFaces(job);
  const toward = spec.shafts?.toward ?? { clockwise: 0 };
  if ('feature' in toward && used.get(faces[0].name)?.pattern.ids.includes(toward.feature) !== true)
    return { ok: false, faults: [`the second shaft lies toward ${toward.feature}, which no reading places`] };
  const mated = mate(job, used, options.clocking);
  const unknown = mated.filter((m) => m.axis === null).map((m) => m.face);
  if (spec.shafts !== null && unknown.length > 0)
    return {
      ok: false,
      faults: unknown.map(
        (face) =>
          `the shafts are to be apart, but where the shaft of ${face} ` +
          `runs is not known: give its \`shaft\` or its \`centre\``,
      ),
    };
  return {
    ok: true,
    desk: {
      job,
      spec,
      faces,
      mated,
      placed: [...placedOf(faces[0], mated[0]), ...placedOf(faces[1], mated[1])],
      clocking: options.clocking,
      pivot: pivotOf(spec, mated),
      thickness,
      shims:
        spec.thickness === 'from stack'
          ? [...(options.stack?.shims ?? []), options.stack?.spacer ?? 0].reduce((a, b) => a + b, 0)
          : 0,
      material: spec.material === null ? null : material(spec.material),
      stack: options.stack,
      benches: options.benches ?? new Map(),
      setNewDowels: options.setNewDowels ?? true,
    },
  };
};
