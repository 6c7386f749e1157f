import { type Requirement, type Speech, distance, say, sayMeasure } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import {
  type MatedFace,
  type Plate,
  type PlateBore,
  gasketUnder,
  solveStack,
  stackRequirements,
} from '@fayplate/plate';
import { inRegister } from './registers.js';
import { tried } from './tried.js';

const places = (speech: Speech): number => (speech.unit === 'in' ? 4 : 3);

/** General tolerance of a length, mm. Source: ISO 2768-1, class m, from memory. */
const general = (mm: number): number => (mm <= 6 ? 0.1 : mm <= 30 ? 0.2 : mm <= 120 ? 0.3 : 0.5);

/** How thick the plate came out: the chain along the shaft with that thickness, else a general tolerance. */
const ofThickness = (job: Job, plate: Plate, speech: Speech): readonly Requirement[] => {
  const measured = job.drilledSizes?.thickness ?? null;
  if (measured === null) return [];
  const within = job.drilledSizes?.thicknessWithin ?? 0;
  const measure = (v: number, by: number): string =>
    by > 0 ? sayMeasure(v, by, speech, places(speech)) : say(v, speech, places(speech));
  if (job.stack !== null) {
    const asMeasured =
      job.plate === null ? job : { ...job, plate: { ...job.plate, thickness: measured, thicknessWithin: 0 } };
    const shims = job.plate?.thickness === 'from stack' ? solveStack(job.stack).shims.reduce((a, b) => a + b, 0) : 0;
    const { stack } = job;
    // Every limit at the end of the ± where it is met worse.
    const [thin, thick] = [-within, within].map((by) =>
      stackRequirements(asMeasured, solveStack(stack), measured + by + shims, speech).filter(
        (r) => r.id === 'stack-limit',
      ),
    );
    return (thin ?? []).map((r, i) => {
      const other = thick?.[i];
      const worse = other !== undefined && (other.margin ?? Infinity) < (r.margin ?? Infinity) ? other : r;
      return { ...worse, id: 'drilled-thickness', title: `${r.title}, as drilled` };
    });
  }
  const off = Math.abs(measured - plate.thickness);
  return [
    tried({
      id: 'drilled-thickness',
      title: 'thickness as drilled',
      ok: off - within <= (plate.thicknessWithin ?? general(plate.thickness)) + 1e-9,
      value: measured,
      limit: plate.thickness,
      because:
        `the plate is ${measure(measured, within)} thick, and was to be ` +
        measure(plate.thickness, plate.thicknessWithin ?? 0),
    }),
  ];
};

/** Depths that were measured: the faces must meet before the register bottoms. */
const ofDepths = (job: Job, plate: Plate, mated: readonly MatedFace[], speech: Speech): readonly Requirement[] =>
  [...(job.drilledSizes?.depths ?? [])].flatMap(([id, depth]): readonly Requirement[] => {
    const pocket = plate.bores.find((b) => b.id === id && (b.kind === 'relief' || b.kind === 'bore'));
    if (pocket !== undefined) return ofPocket(job, pocket, depth, speech);
    const met = inRegister(plate, mated, id);
    const feature = job.faces
      .find((f) => f.name === met?.own.face)
      ?.features.find((f) => f.id === met?.bore.part?.feature);
    const known = feature?.height ?? feature?.stands ?? feature?.deep ?? null;
    if (met === null || feature === undefined) return [];
    const mm = (v: number): string => say(v, speech, places(speech));
    const drawn = met.bore.depth ?? depth;
    // A gasket lifts the part by as much.
    const gasket = gasketUnder(job, met.own.face) ?? 0;
    const clear =
      known === null
        ? general(drawn) - Math.abs(depth - drawn)
        : met.bore.kind === 'recess'
          ? depth + gasket - known
          : known + gasket - depth;
    return [
      tried({
        id: 'drilled-depth',
        title: `depth of ${id} as drilled`,
        ok: clear >= -1e-9,
        value: clear,
        limit: 0,
        because:
          known === null
            ? `${id} is ${mm(depth)} ${met.bore.kind === 'recess' ? 'deep' : 'high'}, and was to be ${mm(drawn)}`
            : clear >= 0
              ? `${id} is ${mm(depth)} ` +
                `${met.bore.kind === 'recess' ? 'deep' : 'high'}: the faces meet before it bottoms`
              : `${id} is ${mm(depth)} ${met.bore.kind === 'recess' ? 'deep' : 'high'}, ${mm(-clear)} too ` +
                `${met.bore.kind === 'recess' ? 'little' : 'much'} for ` +
                `${met.bore.feature ?? ''}: it bottoms before the faces meet`,
      }),
    ];
  });

/** Share of a floor's least thickness that is let pass once it is cut. Source: common practice. */
const THIN = 0.75;

/**
 * Metal that a depth as cut leaves below it, over a cut from the other side as well, against what is asked of a floor.
 */
const ofFloors = (job: Job, plate: Plate, speech: Speech): readonly Requirement[] => {
  const depths = job.drilledSizes?.depths ?? new Map<string, number>();
  const thickness = job.drilledSizes?.thickness ?? plate.thickness;
  const mm = (v: number): string => say(v, speech, places(speech));
  return [...depths].flatMap(([id, depth]): readonly Requirement[] => {
    const own = plate.bores.find((b) => b.id === id && b.kind !== 'spigot');
    if (own === undefined || own.depth === null) return [];
    const over = plate.bores.filter((b) => b !== own && b.kind !== 'spigot');
    const open = over.some(
      (b) => b.depth === null && distance(b, own) + own.diameter / 2 <= b.diameter / 2 + 1e-9 && b.box === undefined,
    );
    const behind = over.filter(
      (b) => b.depth !== null && b.side !== own.side && distance(b, own) < (b.diameter + own.diameter) / 2,
    );
    const deepest = (of: (b: PlateBore) => number): number => Math.max(0, ...behind.map(of));
    const drawn = plate.thickness - own.depth - deepest((b) => b.depth ?? 0);
    const left = thickness - depth - deepest((b) => depths.get(b.id) ?? b.depth ?? 0);
    // What was to meet has no floor to lose.
    if (open || drawn <= 1e-9) return [];
    const least = Math.min(drawn, job.plate?.limits.web ?? 3);
    return [
      tried({
        id: 'drilled-floor',
        title: `floor of ${id} as drilled`,
        ok: left >= THIN * least,
        value: left,
        limit: least,
        because:
          left <= 0
            ? `${id} is ${mm(depth)} deep and comes through`
            : `${id} is ${mm(depth)} deep and leaves ${mm(left)} of floor, where ${mm(least)} is needed`,
      }),
    ];
  });
};

/** A pocket must clear what it is for; one that is for nothing, and a blind bore, must be as deep as drawn. */
const ofPocket = (job: Job, pocket: PlateBore, depth: number, speech: Speech): readonly Requirement[] => {
  if (pocket.depth === null) return [];
  const mm = (v: number): string => say(v, speech, places(speech));
  const feature = job.faces
    .find((f) => f.name === pocket.part?.face)
    ?.features.find((f) => f.id === pocket.part?.feature);
  const height = feature?.height ?? feature?.stands ?? feature?.deep ?? null;
  const clear = height === null ? general(pocket.depth) - Math.abs(depth - pocket.depth) : depth - height;
  return [
    tried({
      id: 'drilled-depth',
      title: `depth of ${pocket.id} as drilled`,
      ok: clear >= -1e-9,
      value: clear,
      limit: 0,
      because:
        height === null
          ? `${pocket.id} is ${mm(depth)} deep, and was to be ${mm(pocket.depth)}`
          : clear >= 0
            ? `${pocket.id} is ${mm(depth)} deep and clears ${pocket.feature ?? ''}`
            : `${pocket.id} is ${mm(depth)} deep, ${mm(-clear)} too little for ${pocket.feature ?? ''}, which stands ` +
              `${mm(height)} out`,
    }),
  ];
};

/** How large the plate is over all, by a general tolerance. */
const ofOutline = (job: Job, plate: Plate, speech: Speech): readonly Requirement[] => {
  const measured = job.drilledSizes?.outline ?? null;
  if (measured === null) return [];
  const mm = (v: number): string => say(v, speech, places(speech));
  const { width, height } = plate.outline.blank;
  const asked: readonly (readonly [string, number, number])[] =
    'diameter' in measured
      ? [['across', measured.diameter, Math.max(width, height)]]
      : [
          ['wide', measured.width, width],
          ['high', measured.height, height],
        ];
  return asked.map(([what, is, drawn]) =>
    tried({
      id: 'drilled-outline',
      title: `outline as made, ${what}`,
      ok: Math.abs(is - drawn) <= general(drawn) + 1e-9,
      value: is,
      limit: drawn,
      because: `the plate is ${mm(is)} ${what}, and was to be ${mm(drawn)}`,
    }),
  );
};

/** Slots: as wide as their pin asks, and no shorter than drawn. */
const ofSlots = (job: Job, plate: Plate, speech: Speech): readonly Requirement[] =>
  [...(job.drilledSizes?.slots ?? [])].flatMap(([id, { width, length }]): readonly Requirement[] => {
    const hole = plate.holes.find((h) => h.id === id);
    if (hole?.slot == null) return [];
    const mm = (v: number): string => say(v, speech, places(speech));
    const [least, most] = hole.limits ?? [
      hole.diameter - general(hole.diameter),
      hole.diameter + general(hole.diameter),
    ];
    const short = hole.slot.length - general(hole.slot.length);
    return [
      ...(width === null
        ? []
        : [
            tried({
              id: 'drilled-slot',
              title: `width of ${id} as drilled`,
              ok: width >= least - 1e-9 && width <= most + 1e-9,
              value: width,
              limit: width < least ? least : most,
              because: `the slot ${id} is ${mm(width)} wide, and was to be ${mm(least)} to ${mm(most)}`,
            }),
          ]),
      ...(length === null
        ? []
        : [
            tried({
              id: 'drilled-slot',
              title: `length of ${id} as drilled`,
              ok: length >= short - 1e-9,
              value: length,
              limit: hole.slot.length,
              because: `the slot ${id} is ${mm(length)} long between its ends' centres, and was to be ${mm(hole.slot.length)}`,
            }),
          ]),
    ];
  });

/**
 * What was measured of the finished plate beside its hole pattern: thickness, depths, outline and slots; nothing where
 * nothing was.
 */
export const sizeRequirements = (
  job: Job,
  plate: Plate,
  mated: readonly MatedFace[],
  speech: Speech,
): readonly Requirement[] => [
  ...ofThickness(job, plate, speech),
  ...ofDepths(job, plate, mated, speech),
  ...ofFloors(job, plate, speech),
  ...ofOutline(job, plate, speech),
  ...ofSlots(job, plate, speech),
];
