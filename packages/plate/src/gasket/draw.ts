import { type Motion, type Path, distance, flatten } from '@fayplate/core';
import type { GasketSpec, Job } from '@fayplate/job';
import { borePath, boreRadius, boreSpine } from '../bores/shape.js';
import { hullOfCircles } from '../outline/hull.js';
import { biteOf, bitten } from '../outline/notch.js';
import { rimOutline } from '../outline/rim.js';
import { type Spine, aboutSpine, spanOf } from '../solids/cut.js';
import { holeSpine } from '../solids/of-plate.js';
import type { MatedFace, Plate, PlateBore } from '../types.js';

/** Ease of a gasket's bore over the spigot that passes it, on the diameter, mm. Source: common practice. */
export const gasketEase = 0.5;

/** A hole of a gasket, eased, plate frame, mm. */
export interface GasketHole {
  /** The hole of the plate, or the name of what is left open. */
  readonly id: string;
  readonly feature: string | null;
  /** Its middle. */
  readonly x: number;
  readonly y: number;
  /** Of a round hole; of a slot its width, of straight sides twice the radius of their corners. */
  readonly diameter: number;
  /** Of a slot the centres of its ends, of straight sides those of their corners; left out: round. */
  readonly spine?: Spine;
}

/** The wall of a gasket's hole, counter-clockwise, plate frame, mm. */
export const gasketHolePath = (hole: GasketHole): Path => aboutSpine(hole.spine ?? [hole, hole], hole.diameter / 2);

/**
 * Over all sizes of a hole that is not round, mm, the longer first, with the radius of its corners; null for a round
 * one.
 */
export const gasketHoleSize = ({
  spine,
  diameter,
}: GasketHole): { readonly length: number; readonly width: number; readonly corner: number } | null => {
  if (spine === undefined) return null;
  const [a, b, c] = spine;
  const sides = [distance(a, b), c === undefined ? 0 : distance(b, c)].map((v) => v + diameter);
  return { length: Math.max(...sides), width: Math.min(...sides), corner: diameter / 2 };
};

/** One gasket, plate frame, mm: what is cut out of the sheet. */
export interface Gasket {
  /** The face that it lies on. */
  readonly face: string;
  /** Its edge, with the notches that it leaves open. */
  readonly outline: Path;
  readonly holes: readonly GasketHole[];
  readonly bore: { readonly x: number; readonly y: number; readonly diameter: number } | null;
}

/** What gaskets are drawn from. */
interface GasketInput {
  readonly job: Pick<Job, 'gaskets' | 'faces'>;
  readonly plate: Pick<Plate, 'holes' | 'bores' | 'outline'>;
  readonly mated: readonly MatedFace[];
  /** Face → from the bench frame of its `rim` points into its own. */
  readonly benches: ReadonlyMap<string, Motion>;
}

/** Every gasket of the job, or why one cannot be drawn. */
type GasketsRead =
  | { readonly ok: true; readonly gaskets: readonly Gasket[] }
  | { readonly ok: false; readonly faults: readonly string[] };

/** A gasket, or why there is none. */
type Drawn = { readonly ok: true; readonly gasket: Gasket } | { readonly ok: false; readonly fault: string };

/**
 * Land about a hole or bore where the outline follows them, in hole diameters: common practice, as for the edge of a
 * plate.
 */
const LAND = 1;

/** A hole in the shape of its spine: round where both ends lie in one place. */
const shaped = (spine: Spine): { readonly spine?: Spine } => (spanOf(spine) < 1e-9 ? {} : { spine });

const isNotch = (b: PlateBore): boolean => b.box?.notch === true;

/** Features of the part and cuts of the plate that the job says stay open, each in its own shape; notches apart. */
const openOf = (input: GasketInput, spec: GasketSpec, mated: MatedFace): Gasket['holes'] => {
  const face = input.job.faces.find((f) => f.name === spec.face);
  return (spec.open ?? []).flatMap((name): Gasket['holes'] => {
    const own = { id: name, feature: null };
    const hole = input.plate.holes.find((c) => c.cut?.name === name);
    if (hole !== undefined)
      return [
        { ...own, x: hole.x, y: hole.y, diameter: hole.diameter + spec.holeClearance, ...shaped(holeSpine(hole)) },
      ];
    const bore = input.plate.bores.find((c) => c.cut?.name === name);
    if (bore !== undefined)
      return isNotch(bore)
        ? []
        : [
            {
              ...own,
              x: bore.x,
              y: bore.y,
              diameter: 2 * boreRadius(bore) + spec.holeClearance,
              ...shaped(boreSpine(bore)),
            },
          ];
    const i = mated.pattern.ids.indexOf(name);
    const at = mated.pattern.points[i];
    const stated = face?.features?.find((f) => f.id === name)?.diameter?.value ?? null;
    const radius = mated.pattern.radii[i] ?? (stated === null ? null : stated / 2);
    return at === undefined || radius === null
      ? []
      : [{ id: name, feature: `${spec.face}.${name}`, ...at, diameter: 2 * radius + spec.holeClearance }];
  });
};

/**
 * The outline less the notches that the job says stay open, each eased all round; one that takes nothing of it is gone.
 */
const notched = (input: GasketInput, spec: GasketSpec, outline: Path): Path | string => {
  let path = outline;
  for (const name of spec.open ?? []) {
    const notch = input.plate.bores.find((b) => b.cut?.name === name && isNotch(b));
    if (notch?.box === undefined) continue;
    // The plate has lost this already.
    if (notch.depth === null && spec.outline === 'plate') continue;
    const ease = spec.holeClearance / 2;
    const { box } = notch;
    const beyond = Math.max(...flatten(outline, 1).map((p) => 2 * distance(p, notch)));
    const area = borePath({
      ...notch,
      box: {
        ...box,
        length: box.length + beyond + 2 * ease,
        width: box.width + 2 * ease,
        behind: box.behind + ease,
        corner: box.corner + ease,
      },
    });
    const bite = biteOf(path, area);
    if (typeof bite !== 'number') path = bitten(bite);
    else if (bite > 0) return `the notch ${name} crosses its edge ${bite} times, where a notch crosses it twice`;
  }
  return path;
};

/**
 * Holes of the plate that a fastener or dowel of this face passes through or into, and what is left open; screws that
 * press or lift pass no gasket.
 */
const holesOf = (input: GasketInput, spec: GasketSpec, mated: MatedFace): Gasket['holes'] => [
  ...input.plate.holes
    .filter((h) => h.part?.face === spec.face)
    .map((h) => {
      // What passes is the fastener at its largest; a tapped hole takes a bolt as large as its thread.
      const passes = h.fastener ?? h.thread?.major ?? h.diameter;
      return { id: h.id, feature: h.feature, x: h.x, y: h.y, diameter: passes + spec.holeClearance };
    }),
  ...openOf(input, spec, mated),
];

/** The stated bore, else room for all that is cut or stands about the face's centre on its side. */
const boreOf = (input: GasketInput, spec: GasketSpec, face: MatedFace): Gasket['bore'] => {
  const at = face.centre;
  const about = input.plate.bores.filter(
    (b) => distance(b, at) < 0.5 && (b.side === 'through' || b.side === face.side),
  );
  const diameter = spec.bore ?? Math.max(0, ...about.map((b) => b.diameter + (b.kind === 'bore' ? 0 : gasketEase)));
  return diameter > 0 ? { x: at.x, y: at.y, diameter } : null;
};

/** A register, or what a pocket is for, comes through the gasket: its bore must let that by. */
const fouls = (input: GasketInput, face: MatedFace, bore: Gasket['bore']): string | null => {
  const through = input.plate.bores.filter(
    (b) => b.kind !== 'bore' && b.side === face.side && distance(b, face.centre) < 0.5,
  );
  const widest = through.toSorted((a, b) => b.diameter - a.diameter)[0];
  if (bore === null || widest === undefined || bore.diameter >= widest.diameter) return null;
  return (
    `its bore is smaller than ${widest.id}, and what that is for comes through it there: give it a larger \`bore\`, ` +
    `or none, and it takes the size of ${widest.id}`
  );
};

const outlineOf = (
  input: GasketInput,
  spec: GasketSpec,
  holes: Gasket['holes'],
  bore: Gasket['bore'],
): Path | string => {
  if (spec.outline === 'plate') return input.plate.outline.path;
  if (spec.outline === 'follow') {
    const least = Math.max(...holes.map((h) => h.diameter), 0);
    const fastened = Math.max(...holes.filter((h) => h.feature !== null).map((h) => h.diameter), 0);
    const lands = [
      ...holes.flatMap((h) => {
        const corners = h.spine ?? [{ x: h.x, y: h.y }];
        // A port with small corners wants as much about it as the bolts have.
        const land = h.spine === undefined ? h.diameter : Math.max(h.diameter, fastened);
        return corners.map((centre) => ({ centre, radius: h.diameter / 2 + land * LAND }));
      }),
      ...(bore === null ? [] : [{ centre: bore, radius: bore.diameter / 2 + least * LAND }]),
    ];
    return lands.length === 0 ? 'it has neither a hole nor a bore to draw an outline round' : hullOfCircles(lands);
  }
  const { like } = spec.outline;
  const face = input.job.faces.find((f) => f.name === like);
  const mated = input.mated.find((m) => m.face === like);
  if (face === undefined || mated === undefined) return `the plate does not join ${like}, whose outline it is to have`;
  const rim = rimOutline(face, mated, input.benches.get(like) ?? null, 0);
  return rim.ok ? rim.path : rim.fault;
};

/** One gasket as the job asks for it, whether or not what comes through it passes; else why it cannot be drawn. */
export const drawGasket = (input: GasketInput, spec: GasketSpec): Drawn => {
  const face = input.mated.find((m) => m.face === spec.face);
  if (face === undefined) return { ok: false, fault: `the gasket for ${spec.face}: the plate does not join that face` };
  const holes = holesOf(input, spec, face);
  const bore = boreOf(input, spec, face);
  const whole = outlineOf(input, spec, holes, bore);
  const outline = typeof whole === 'string' ? whole : notched(input, spec, whole);
  if (typeof outline === 'string') return { ok: false, fault: `the gasket for ${spec.face}: ${outline}` };
  return { ok: true, gasket: { face: spec.face, outline, holes, bore } };
};

/** One that what comes through it passes as well. */
const drawPassed = (input: GasketInput, spec: GasketSpec): Drawn => {
  const drawn = drawGasket(input, spec);
  const face = input.mated.find((m) => m.face === spec.face);
  const fault = !drawn.ok || face === undefined ? null : fouls(input, face, drawn.gasket.bore);
  return fault === null ? drawn : { ok: false, fault: `the gasket for ${spec.face}: ${fault}` };
};

/**
 * The job's gaskets in the plate's frame: holes eased by the stated clearance, bore, outline from the plate, from its
 * own holes or from a part's rim.
 */
export const gasketsOf = (input: GasketInput): GasketsRead => {
  const drawn = input.job.gaskets.map((spec) => drawPassed(input, spec));
  const faults = drawn.flatMap((d) => (d.ok ? [] : [d.fault]));
  return faults.length > 0
    ? { ok: false, faults }
    : { ok: true, gaskets: drawn.flatMap((d) => (d.ok ? [d.gasket] : [])) };
};
