import { type Point, distance, polar } from '@fayplate/core';
import type { Face, Reading, ReadingKind, Use } from '@fayplate/job';
import { datumOf } from '../frame/datum.js';
import { type Placed, inDatum, rowOfAxis } from '../frame/placed.js';
import { type Network, networkOf } from '../network/network.js';
import type { Observation } from '../network/observation.js';
import type { Survey } from '../types.js';
import { type Rough, type Tool, alreadyTaken, anglesFor, canBeRead, candidatesFor, toolsOf } from './candidates.js';

/**
 * Before any reading a centre may be this far from where it is thought to be, and a radius from its guess, mm (one
 * standard uncertainty).
 */
const VAGUE = { place: 1000, radius: 100 } as const;
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

/** The same jaws on the same two features, on the other sides of them: over for between, between for over. */
const otherWay = (face: Face, r: Reading): Reading | null => {
  const kind: ReadingKind | null = r.kind === 'over' ? 'between' : r.kind === 'between' ? 'over' : null;
  const isMiddle = face.features.some((f) => r.features.includes(f.id) && (f.kind === 'spigot' || f.kind === 'bore'));
  if (kind === null || isMiddle) return null;
  const features = r.features.join(' ');
  const other: Reading = { ...r, kind, id: `next ${kind} ${features}`, text: `${kind} ${features}` };
  return alreadyTaken(face, other) ? null : other;
};

/** A square matrix by rows. */
type Square = readonly Float64Array[];

/** A weighted sum of few unknowns. */
export interface Sum {
  readonly unknowns: readonly number[];
  readonly weights: Float64Array;
}

const sumOf = (row: Float64Array): Sum => {
  const unknowns = [...row.keys()].filter((u) => row[u] !== 0);
  return { unknowns, weights: Float64Array.from(unknowns, (u) => row[u] as number) };
};

/** C − c cᵀ / (σ² + a C a), in place. */
export const learn = (c: Square, { unknowns, weights }: Sum, variance: number): void => {
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
export const together = (c: Square, a: Sum, b: Sum): number => {
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

/**
 * What stands ready for a plan: everything known so far as a covariance of all unknowns, and each possible reading's
 * slopes.
 */
export interface Prospect {
  readonly network: Network;
  readonly c: Square;
  readonly open: {
    readonly reading: Reading;
    readonly rows: readonly { readonly of: Sum; readonly variance: number }[];
    readonly handy: number;
  }[];
  /** The readings that the face has, and its stated diameters and zero errors (`reading`: null), in the same form. */
  readonly taken: readonly { readonly of: Sum; readonly variance: number; readonly reading: Reading | null }[];
  readonly placed: readonly Placed[];
  /** What each placed feature's x and y are made of. */
  readonly rows: readonly (readonly [Sum, Sum])[];
}

export const prospectOf = (
  survey: Survey,
  places: ReadonlyMap<string, Point>,
  without: readonly Use[],
  leaving: readonly ReadingKind[],
  bothWays = false,
): Prospect => {
  const rough = roughOf(survey, places);
  const { face, instruments } = survey;
  const tools = new Map([...toolsOf(face, instruments)].filter(([use]) => !without.includes(use)));
  const likely = everyCandidate(survey, rough, tools);
  const others = bothWays ? [...likely, ...face.readings].flatMap((r) => otherWay(face, r) ?? []) : [];
  const proposals = [...likely, ...others].filter((r) => !leaving.includes(r.kind));
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
  const taken = network.observations.flatMap((o) =>
    o.reading === null || !proposed.has(o.reading.id)
      ? [{ of: sumAt(o), variance: o.sigma ** 2, reading: o.reading }]
      : [],
  );
  for (const { of, variance } of taken) learn(c, of, variance);
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
  const placed = [...unknowns.features.values()].map((s) => inDatum(datum, x, s));
  const rows = placed.map(
    (p) =>
      [
        sumOf(rowOfAxis(p.axes[0], p.slots, datum, unknowns.count)),
        sumOf(rowOfAxis(p.axes[1], p.slots, datum, unknowns.count)),
      ] as const,
  );
  return { network, c, open, taken, placed, rows };
};
