import { type Motion, type Requirement, type Speech, distance, notKnown, say } from '@fayplate/core';
import type { Face, GasketSpec, Job } from '@fayplate/job';
import { standsOut } from '../bores/registers.js';
import { boreRadius, boreSpine } from '../bores/shape.js';
import { type Placed, placedOf } from '../desk.js';
import { spineDistance } from '../solids/cut.js';
import { holeSpine } from '../solids/of-plate.js';
import { standsThere } from '../treat/holes.js';
import type { MatedFace, Plate } from '../types.js';
import { type Area, type Laid, depthWithin, openingsOf, roomIn, round, widthOf } from './area.js';
import { drawGasket, gasketEase } from './draw.js';
import { type Asked, SEALS, clears, leavesNotch, leavesOpen } from './openings.js';

/**
 * Least width of a gasket between two openings, or between one and its rim, mm. Source: common practice, thin sheet.
 */
const LAND = 1;

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
  p.diameter === null || p.feature.vacant ? null : { ...round(p.name, p.at, p.diameter), own: p.feature.id };

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
