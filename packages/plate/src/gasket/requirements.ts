import {
  type Motion,
  type Path,
  type Point,
  type Requirement,
  type Speech,
  distance,
  flatten,
  notKnown,
  say,
} from '@fayplate/core';
import type { Face, GasketSpec, Job } from '@fayplate/job';
import { standsOut } from '../bores/registers.js';
import { borePath, boreRadius, boreSpine } from '../bores/shape.js';
import { type Placed, placedOf } from '../desk.js';
import { depthInside } from '../outline/inside.js';
import { type Spine, signedToSpine, spanOf, spineDistance } from '../solids/cut.js';
import { holeSpine } from '../solids/of-plate.js';
import { standsThere } from '../treat/holes.js';
import type { MatedFace, Plate, PlateBore } from '../types.js';
import { type Gasket, drawGasket, gasketEase } from './draw.js';

/**
 * Least width of a gasket between two openings, or between one and its rim, mm. Source: common practice, thin sheet.
 */
const LAND = 1;

const THROUGH = 'common practice: a gasket clears what stands through it, and leaves ports and bores open';
const SEALS = 'common practice: a gasket goes whole round every port, hole and bore that it seals';

/** How far what is asked of a gasket is met, mm, with the words for each case. */
interface Asked {
  readonly title: string;
  readonly value: number;
  readonly limit: number;
  readonly fails: string;
  readonly cure: string;
  /** The same without words of the job file, where it names one. */
  readonly cureAtBench?: string;
  readonly source: string;
}

const requirementOf = ({ title, value, limit, fails, cure, cureAtBench, source }: Asked): Requirement => {
  const holds = value >= limit - 1e-9;
  return {
    id: 'gasket',
    title,
    state: holds ? 'holds' : 'fails',
    value,
    limit,
    margin: value - limit,
    unit: 'mm',
    source,
    because: holds ? title : fails,
    cure: holds ? null : cure,
    ...(holds || cureAtBench === undefined ? {} : { cureAtBench }),
  };
};

/**
 * All places within `radius` of a spine, by its name: an opening of a gasket, or what it has to let by or leave open.
 */
interface Area {
  readonly name: string;
  /** Its middle. */
  readonly centre: Point;
  readonly spine: Spine;
  readonly radius: number;
}

const round = (name: string, at: Point, diameter: number): Area => ({
  name,
  centre: at,
  spine: [at, at],
  radius: diameter / 2,
});

const openingsOf = ({ bore, holes }: Gasket): readonly Area[] => [
  ...(bore === null ? [] : [round('its bore', bore, bore.diameter)]),
  ...holes.map((h) => ({ name: h.id, centre: h, spine: h.spine ?? ([h, h] as const), radius: h.diameter / 2 })),
];

/** The least width of an area, mm. */
const widthOf = ({ spine: [a, b, c], radius }: Area): number =>
  2 * radius + (c === undefined ? 0 : Math.min(distance(a, b), distance(b, c)));

/**
 * How far within another area the whole of one lies, mm; below zero where part of it is outside. Exact: both are
 * convex.
 */
const roomIn = (inner: Area, outer: Area): number =>
  outer.radius - inner.radius - Math.max(...inner.spine.map((p) => signedToSpine(p, outer.spine)));

/** By how much the opening that lets it by best does so, on the diameter, mm; minus its width where none is near. */
const clearOf = (r: Area, openings: readonly Area[]): number =>
  Math.max(-widthOf(r), ...openings.map((o) => 2 * roomIn(r, o)));

/** How far inside a closed path the whole of an area lies, mm; below zero where part of it reaches out. */
const depthWithin = ({ spine, radius }: Area, path: Path): number => {
  const corners = Math.min(...spine.map((p) => depthInside(p, path)));
  if (corners < 0 || spanOf(spine) < 1e-9) return corners - radius;
  const points = flatten(path, 0.001);
  const near = points.map((p, i) => spineDistance(spine, [p, points[(i + 1) % points.length] ?? p]));
  return Math.min(corners, ...near) - radius;
};

/**
 * How far the whole of it lies inside both the gasket and the plate, mm; below zero where part of it reaches out of
 * either.
 */
const depthOf = (r: Area, { gasket, plate }: Laid): number =>
  Math.min(depthWithin(r, gasket.outline), depthWithin(r, plate.outline.path));

interface Laid {
  readonly plate: Plate;
  readonly gasket: Gasket;
  readonly openings: readonly Area[];
  /** `the gasket of pump`. */
  readonly called: string;
  readonly mm: (v: number) => string;
}

/** What stands through the gasket, with the ease that it needs; off the gasket altogether nothing is asked. */
const clears = ({ gasket, openings, called, mm }: Laid, r: Area, ease: number): readonly Asked[] => {
  if (depthInside(r.centre, gasket.outline) + r.radius <= 0) return [];
  const clear = clearOf(r, openings);
  const about = gasket.bore !== null && distance(gasket.bore, r.centre) < 0.5;
  return [
    {
      title: `${called} clears ${r.name}`,
      value: clear,
      limit: ease,
      source: THROUGH,
      fails:
        clear < 0
          ? `${called} covers ${r.name}, which stands through it: its opening there is ${mm(-clear)} too small`
          : `${about ? `the bore of ${called}` : called} has only ${mm(clear)} over ${r.name}, where ${mm(ease)} of ` +
            'clearance is needed',
      cure: about
        ? `make its bore ${mm(2 * r.radius + ease)} or more`
        : `add ${r.name.split('.').at(-1) ?? ''} to its \`open\``,
      ...(about ? {} : { cureAtBench: `leave ${r.name.split('.').at(-1) ?? ''} open` }),
    },
  ];
};

/** What must stay open, and be gone round: `open` is how much of it, on the diameter, mm. */
const leavesOpen = (laid: Laid, r: Area, open: number, isCut = false): readonly Asked[] => {
  const { gasket, openings, called, mm } = laid;
  const depth = depthOf(r, laid);
  const own = r.name.split('.').at(-1) ?? '';
  const about = gasket.bore !== null && distance(gasket.bore, r.centre) < 0.5;
  const reach = r.radius + Math.max(...r.spine.map((p) => distance(p, r.centre)));
  if (depth < 0)
    return [
      {
        title: `${called} goes round ${r.name}`,
        value: depth,
        limit: 0,
        source: SEALS,
        fails:
          `${called} misses ${r.name}, which ` +
          `${depth + widthOf(r) <= 0 ? 'lies outside it or the plate' : 'its outline or that of the plate cuts'}: ` +
          'nothing seals round it',
        cure: `give it an outline that goes round ${own}${isCut ? '' : `, or mark ${own} \`vacant\` where nothing passes`}`,
        cureAtBench: `give it an outline that goes round ${own}${isCut ? '' : ', unless nothing passes there'}`,
      },
    ];
  const clear = clearOf(r, openings) + widthOf(r);
  return [
    {
      title: `${called} leaves ${r.name} open`,
      value: clear,
      limit: open,
      source: THROUGH,
      fails:
        `${called} covers ${r.name}: ` +
        (clear <= 0 ? 'it has no hole there' : `its opening leaves only ${mm(clear)} of it`),
      cure: about
        ? `make its bore ${mm(open - widthOf(r) + 2 * reach)} or more`
        : `add ${own} to its \`open\`${isCut ? '' : ', or mark it `vacant` where the gasket may close it'}`,
      ...(about ? {} : { cureAtBench: `leave ${own} open${isCut ? '' : ', unless the gasket may close it'}` }),
    },
  ];
};

/** A notch of the plate that the gasket does not lie over. */
const leavesNotch = ({ gasket, called, mm }: Laid, notch: PlateBore): readonly Asked[] => {
  const name = notch.cut?.name ?? notch.id;
  const over = Math.max(0, ...flatten(borePath(notch), 0.1).map((p) => depthInside(p, gasket.outline)));
  return [
    {
      title: `${called} leaves ${name} open`,
      value: over < 1e-6 ? 0 : -over,
      limit: 0,
      source: THROUGH,
      fails: `${called} covers ${name}: it reaches ${mm(over)} over its edge`,
      cure: `add ${name} to its \`open\``,
      cureAtBench: `leave ${name} open`,
    },
  ];
};

/** The gasket is whole: no opening breaks into another or through the rim, and what is left between them seals. */
const land = ({ gasket, openings, called, mm }: Laid): readonly Asked[] => {
  const within = (a: Area, b: Area): boolean => roomIn(a, b) >= -1e-6;
  const own = openings.filter((o, i) => !openings.some((b, j) => i !== j && within(o, b) && (j < i || !within(b, o))));
  const said = (a: string, b: string, value: number): Asked => ({
    title: `${called} between ${a} and ${b}`,
    value,
    limit: LAND,
    source: SEALS,
    fails:
      value <= 0
        ? `${called} does not seal: ${a} breaks into ${b}`
        : `${called} is only ${mm(value)} wide between ${a} and ${b}, where ${mm(LAND)} is needed to seal`,
    cure: 'make the bore or the holes smaller, or give it another outline',
  });
  const all = own.flatMap((a, i) => [
    ...own.slice(i + 1).map((b) => said(a.name, b.name, spineDistance(a.spine, b.spine) - a.radius - b.radius)),
    said(a.name, 'its rim', depthWithin(a, gasket.outline)),
  ]);
  const least = Math.min(...all.map((a) => a.value));
  return all.filter((a) => a.value < LAND || a.value === least);
};

const roundOf = (p: Placed): Area | null =>
  p.diameter === null || p.feature.vacant ? null : round(p.name, p.at, p.diameter);

/**
 * What stands through the gasket: bosses, spigots, bores that are said to stand out, and studs that the plate has no
 * hole for.
 */
const standsThrough = (p: Placed, job: Job): boolean =>
  p.feature.kind === 'boss' ||
  p.feature.kind === 'spigot' ||
  (p.feature.kind === 'bore' && (p.feature.stands ?? p.feature.height ?? 0) > 0) ||
  (job.plate !== null && standsThere(job.plate, p));

/** What must stay open: bores of the part, and plain holes that no fastener takes. */
const isPort = (p: Placed, plate: Plate): boolean =>
  p.feature.kind === 'bore' ||
  (p.feature.kind === 'hole' && p.feature.thread === null && !plate.holes.some((h) => h.feature === p.name));

/** Cuts of the job that open on the gasket's side, and spigots that the plate raises there. */
const ofPlate = (laid: Laid, plate: Plate, side: MatedFace['side']): readonly Asked[] => [
  ...plate.bores
    .filter((b) => b.kind === 'spigot' && b.side === side)
    .flatMap((b) => clears(laid, round(b.id, b, b.diameter), gasketEase)),
  ...plate.bores
    .filter((b) => b.cut !== undefined && b.box?.notch !== true && (b.side === 'through' || b.side === side))
    .flatMap((b) => {
      const cut = { name: b.cut?.name ?? b.id, centre: b, spine: boreSpine(b), radius: boreRadius(b) };
      return leavesOpen(laid, cut, widthOf(cut), true);
    }),
  ...plate.bores
    .filter((b) => b.cut !== undefined && b.box?.notch === true && (b.side === 'through' || b.side === side))
    .flatMap((b) => leavesNotch(laid, b)),
  ...plate.holes
    .filter((h) => h.as === 'cut' && (h.depth === null || h.from === side))
    .flatMap((h) => {
      const cut = { name: h.cut?.name ?? h.id, centre: h, spine: holeSpine(h), radius: h.diameter / 2 };
      return leavesOpen(laid, cut, h.diameter, true);
    }),
];

const ofPart = (laid: Laid, job: Job, plate: Plate, own: readonly Placed[]): readonly Asked[] =>
  own.flatMap((p): readonly Asked[] => {
    const round = roundOf(p);
    if (round === null) return [];
    if (standsThrough(p, job)) return clears(laid, round, p.feature.kind === 'spigot' ? gasketEase : 0);
    if (!isPort(p, plate) || standsOut(p) === 0) return [];
    // Where the plate itself covers part of a bore, the gasket may do so too.
    const over = plate.bores.filter((b) => b.kind === 'bore' && distance(b, p.at) < 0.5).map((b) => b.diameter);
    return leavesOpen(laid, round, Math.min(2 * round.radius, ...over));
  });

const oneGasket = (
  spec: GasketSpec,
  { job, plate, mated, benches, speech }: GasketQuestion,
  own: MatedFace,
  face: Face,
): readonly Requirement[] => {
  const called = `the gasket of ${spec.face}`;
  const drawn = drawGasket({ job, plate, mated, benches }, spec);
  if (!drawn.ok) return [notKnown('gasket-cover', 'gasket', drawn.fault, null)];
  const { gasket } = drawn;
  const mm = (v: number): string => say(v, speech, speech.unit === 'in' ? 3 : 2);
  const laid: Laid = { plate, gasket, openings: openingsOf(gasket), called, mm };
  return [...ofPart(laid, job, plate, placedOf(face, own)), ...ofPlate(laid, plate, own.side), ...land(laid)].map(
    requirementOf,
  );
};

/** What the gaskets of a job are judged by. */
interface GasketQuestion {
  readonly job: Job;
  readonly plate: Plate;
  readonly mated: readonly MatedFace[];
  /** Face → from the bench frame of its `rim` points into its own. */
  readonly benches: ReadonlyMap<string, Motion>;
  readonly speech: Speech;
}

/**
 * What each gasket must clear, leave open and go round on its own part and on the plate, by name, by the gasket's own
 * outline and all its openings; nothing for a job without gaskets.
 */
export const gasketRequirements = (question: GasketQuestion): readonly Requirement[] =>
  question.job.gaskets.flatMap((spec) => {
    const own = question.mated.find((m) => m.face === spec.face);
    const face = question.job.faces.find((f) => f.name === spec.face);
    return own === undefined || face === undefined ? [] : oneGasket(spec, question, own, face);
  });
