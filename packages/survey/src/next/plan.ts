import { type Point, distance, polar } from '@fayplate/core';
import type { Reading, ReadingKind, Use } from '@fayplate/job';
import { datumOf } from '../frame/datum.js';
import { ellipse95 } from '../frame/ellipse.js';
import { type Placed, placeIn, rowOfAxis } from '../frame/placed.js';
import { type Network, networkOf } from '../network/network.js';
import type { Observation } from '../network/observation.js';
import type { Matrix2, NextReading, Survey } from '../types.js';
import { type Rough, anglesFor, canBeRead, candidatesFor } from './candidates.js';
import { type Tool, toolsOf } from './tools.js';

/** Before any reading a centre may be this far from where it is thought to be, and a radius from its guess, mm (one standard uncertainty). */
const VAGUE = { place: 1000, radius: 100 } as const;
/** Below this 95 % radius a feature counts as fixed, mm: far below the vagueness, far above what any reading leaves. */
const FIXED = 50;
/** Gains nearer than this are alike, and what is handier to take decides: nats. */
const ALIKE = 0.7;
/** Larger faces are planned feature by feature by hand: the work grows with the fourth power. */
const MOST_FEATURES = 80;

export interface PlanOptions {
  /** Where the features are thought to be, mm; those not given stand at their clocks on one circle. */
  readonly places?: ReadonlyMap<string, Point>;
  /** Readings wanted beyond the fewest that fix every feature: they check the others. */
  readonly spare?: number;
  /** No more readings than this. */
  readonly most?: number;
  /** Uses of instruments that are not asked for, such as places read on a bench. */
  readonly without?: readonly Use[];
  /** Kinds of reading that are not asked for. */
  readonly leaving?: readonly ReadingKind[];
}

/** About where everything is: as told, else at the clock (or anywhere, apart) on a circle about the middle. */
const roughOf = ({ face }: Survey, places: ReadonlyMap<string, Point>): readonly Rough[] => {
  const known = [...places.values()];
  const middle = places.get(face.centre ?? '') ?? { x: 0, y: 0 };
  const centreRadius = (face.features.find((f) => f.id === face.centre)?.diameter?.value ?? 0) / 2;
  const reach =
    known.length > 1 ? Math.max(...known.map((p) => distance(p, middle))) : Math.max(60, 1.5 * centreRadius);
  return face.features.map((feature, i) => {
    const at =
      places.get(feature.id) ??
      (feature.id === face.centre
        ? middle
        : {
            x: middle.x + polar(reach, feature.clock ?? 2.4 * i).x,
            y: middle.y + polar(reach, feature.clock ?? 2.4 * i).y,
          });
    return { feature, at, radius: feature.diameter === null ? 5 : feature.diameter.value / 2 };
  });
};

const everyCandidate = (
  { face }: Survey,
  rough: readonly Rough[],
  tools: ReadonlyMap<Use, Tool>,
): readonly Reading[] => {
  const readable = rough.filter((r) => canBeRead(r.feature));
  return [
    // A measured diameter would push out the thread's limits, which are held here from the first.
    ...readable.filter((a) => a.feature.diameterFrom !== 'thread').flatMap((a) => candidatesFor(face, a, null, tools)),
    ...readable.flatMap((a, i) =>
      readable.slice(i + 1).flatMap((b) => [...candidatesFor(face, a, b, tools), ...anglesFor(face, a, b, tools)]),
    ),
  ];
};

type Square = readonly Float64Array[];

/** A weighted sum of few unknowns. */
interface Sum {
  readonly unknowns: readonly number[];
  readonly weights: Float64Array;
}

const sumOf = (row: Float64Array): Sum => {
  const unknowns = [...row.keys()].filter((u) => row[u] !== 0);
  return { unknowns, weights: Float64Array.from(unknowns, (u) => row[u] as number) };
};

/** C − c cᵀ / (σ² + a C a), in place. */
const learn = (c: Square, { unknowns, weights }: Sum, variance: number): void => {
  const column = Float64Array.from(c, (row) =>
    unknowns.reduce((sum, u, k) => sum + (row[u] as number) * (weights[k] as number), 0),
  );
  const s = variance + unknowns.reduce((sum, u, k) => sum + (column[u] as number) * (weights[k] as number), 0);
  for (const [i, row] of c.entries()) {
    const k = (column[i] as number) / s;
    if (k !== 0) for (let j = 0; j < row.length; j++) row[j] = (row[j] as number) - k * (column[j] as number);
  }
};

/** Covariance of two weighted sums of unknowns. */
const together = (c: Square, a: Sum, b: Sum): number => {
  let sum = 0;
  for (let k = 0; k < a.unknowns.length; k++) {
    const row = c[a.unknowns[k] as number] as Float64Array;
    let part = 0;
    for (let l = 0; l < b.unknowns.length; l++)
      part += (b.weights[l] as number) * (row[b.unknowns[l] as number] as number);
    sum += (a.weights[k] as number) * part;
  }
  return sum;
};

/** What stands ready for a plan: everything known so far as a covariance of all unknowns, and each possible reading's slopes. */
interface Prospect {
  readonly network: Network;
  readonly c: Square;
  readonly open: {
    readonly reading: Reading;
    readonly rows: readonly { readonly of: Sum; readonly variance: number }[];
    readonly handy: number;
  }[];
  readonly placed: readonly Placed[];
  /** What each placed feature's x and y are made of. */
  readonly rows: readonly (readonly [Sum, Sum])[];
}

const prospectOf = (
  survey: Survey,
  places: ReadonlyMap<string, Point>,
  without: readonly Use[],
  leaving: readonly ReadingKind[],
): Prospect => {
  const rough = roughOf(survey, places);
  const { face, instruments } = survey;
  const tools = new Map([...toolsOf(face, instruments)].filter(([use]) => !without.includes(use)));
  const proposals = everyCandidate(survey, rough, tools).filter((r) => !leaving.includes(r.kind));
  const network = networkOf({ face: { ...face, readings: [...face.readings, ...proposals] }, instruments });
  const { unknowns } = network;
  const x = new Float64Array(unknowns.count);
  const c = Array.from({ length: unknowns.count }, (_, i) => {
    const row = new Float64Array(unknowns.count);
    row[i] = VAGUE.place ** 2;
    return row;
  });
  for (const { feature, at, radius } of rough) {
    const slots = unknowns.features.get(feature.id);
    if (slots === undefined) continue;
    x[slots.x] = at.x;
    x[slots.y] = at.y;
    if (slots.radius === null) continue;
    x[slots.radius] = radius ?? 0;
    const row = c[slots.radius];
    if (row !== undefined) row[slots.radius] = VAGUE.radius ** 2;
  }
  const proposed = new Set(proposals.map((p) => p.id));
  const sumAt = (o: Observation): Sum => {
    const weights = new Float64Array(o.unknowns.length);
    o.model(x, weights);
    return { unknowns: o.unknowns, weights };
  };
  for (const o of network.observations)
    if (o.reading === null || !proposed.has(o.reading.id)) learn(c, sumAt(o), o.sigma ** 2);
  const at = new Map(rough.map((r, i) => [r.feature.id, { ...r, i }]));
  const observationsOf = new Map<string, Observation[]>(proposals.map((p) => [p.id, []]));
  for (const o of network.observations) observationsOf.get(o.reading?.id ?? '')?.push(o);
  const open = proposals.map((reading) => {
    const [a, b] = reading.features.map((id) => at.get(id));
    const middle = reading.features.includes(face.centre ?? '') ? 0 : 1;
    const handy = b === undefined || a === undefined ? 0.5 : middle + distance(a.at, b.at) * 1e-3;
    return {
      reading,
      handy,
      rows: (observationsOf.get(reading.id) ?? []).map((o) => ({ of: sumAt(o), variance: o.sigma ** 2 })),
    };
  });
  const datum = datumOf(face, unknowns, x, [...unknowns.features.keys()]);
  const placed = [...unknowns.features.values()].map((s) => placeIn(datum, x, s));
  const rows = placed.map(
    (p) =>
      [
        sumOf(rowOfAxis(p.axes[0], p.slots, datum, unknowns.count)),
        sumOf(rowOfAxis(p.axes[1], p.slots, datum, unknowns.count)),
      ] as const,
  );
  return { network, c, open, placed, rows };
};

const radiiOf = ({ c, rows }: Prospect): readonly number[] =>
  rows.map(([x, y]) => {
    const between = together(c, x, y);
    const m: Matrix2 = [
      [Math.max(together(c, x, x), 0), between],
      [between, Math.max(together(c, y, y), 0)],
    ];
    return ellipse95(m).major;
  });

/**
 * Which readings to take, in which order, so that the shape is fixed soonest: each next one tells most of what is still open
 * (log of its spread before over its own sigma), handier ones first where several tell as much: to the middle, then the nearest.
 * Starts from the readings that the face has, none included; stops when every feature is fixed and `spare` more are planned.
 * Empty where nothing the job has can read the face, or the face has more than 80 features.
 */
export const planReadings = (survey: Survey, options: PlanOptions = {}): readonly NextReading[] => {
  const {
    places = new Map<string, Point>(),
    spare = 0,
    most = Number.POSITIVE_INFINITY,
    without = [],
    leaving = [],
  } = options;
  if (survey.face.features.filter(canBeRead).length > MOST_FEATURES) return [];
  const prospect = prospectOf(survey, places, without, leaving);
  const { c, open, placed } = prospect;
  const plan: NextReading[] = [];
  let before = radiiOf(prospect);
  let left = spare;
  while (plan.length < most) {
    const allFixed = before.every((r) => r < FIXED);
    if (allFixed && left-- <= 0) break;
    const gains = open.map(({ rows }) =>
      rows.reduce((sum, { of, variance }) => sum + Math.log1p(together(c, of, of) / variance) / rows.length, 0),
    );
    const best = Math.max(...gains, 0);
    if (best < 1e-6) break;
    let pick = -1;
    for (const [i, g] of gains.entries())
      if (g > best - ALIKE && (pick < 0 || (open[i]?.handy ?? 0) < (open[pick]?.handy ?? 0))) pick = i;
    const [chosen] = open.splice(pick, 1);
    if (chosen === undefined) break;
    for (const { of, variance } of chosen.rows) learn(c, of, variance);
    const then = radiiOf(prospect);
    const reduces = new Map(
      placed.flatMap((p, i): readonly (readonly [string, readonly [number | null, number]])[] => {
        const [was, is] = [before[i] ?? 0, then[i] ?? 0];
        return is < FIXED && is < was * 0.95 ? [[p.slots.id, [was < FIXED ? was : null, is]]] : [];
      }),
    );
    plan.push({ reading: chosen.reading.text, instrument: chosen.reading.instrument, reduces });
    before = then;
  }
  return plan;
};
