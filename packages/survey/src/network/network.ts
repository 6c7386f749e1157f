import { oncePer } from '@fayplate/core';
import { type Face, type Feature, type Instrument, type Reading, usesRadius } from '@fayplate/job';
import { coordinateModel, diameterModel } from '../models/geometry.js';
import type { Survey } from '../types.js';
import { type Observation, equation } from './observation.js';
import { observe } from './observe.js';
import { type FeatureNeed, type Unknowns, layUnknowns } from './unknowns.js';

/** A face as equations, on which the start, the adjustment and the search for suspects work. */
export interface Network {
  readonly face: Face;
  readonly instruments: ReadonlyMap<string, Instrument>;
  /** The readings that take part: neither `aside` in the file nor set aside now. */
  readonly readings: readonly Reading[];
  /** What takes no part: readings with their text, then single observations. */
  readonly aside: readonly { readonly id: string; readonly text: string }[];
  readonly unknowns: Unknowns;
  /** Readings in their order, then stated diameters, then shared zero errors. */
  readonly observations: readonly Observation[];
  /** Whether `at` or `touch` readings tie the unknowns to a bench frame. */
  readonly bench: boolean;
}

/** The stated diameter, unless it is only a thread's limits and a `dia` reading is there. */
const statedDiameter = (feature: Feature, readings: readonly Reading[]): Feature['diameter'] =>
  feature.diameterFrom === 'thread' && readings.some((r) => r.kind === 'dia' && r.features[0] === feature.id)
    ? null
    : feature.diameter;

/**
 * The equations of a face. Features that no reading touches have no unknowns, unless they define the face's frame.
 * `setAside`: ids to leave out beside what the file itself sets aside: of readings, or of single observations such as
 * `7.x` or `diameter P1`.
 */
export const networkOf = ({ face, instruments }: Survey, setAside: readonly string[] = []): Network => {
  const left = new Set(setAside);
  // How a face runs out tells of its tilt, and nothing of where centres lie.
  const readings = face.readings.filter((r) => !r.aside && !left.has(r.id) && (r.runOut?.radius ?? null) === null);
  const touched = new Set(readings.flatMap((r) => r.features));
  for (const id of [face.centre, face.up, ...(face.across ?? [])]) if (id !== null) touched.add(id);
  const features = face.features.filter((f) => touched.has(f.id) && f.kind !== 'edge');
  const sized = new Set(readings.filter((r) => usesRadius(r.kind)).flatMap((r) => r.features));
  const stated = features.map((f) => ({ id: f.id, diameter: statedDiameter(f, readings) }));
  const needs = stated.map(({ id, diameter }): FeatureNeed => {
    if (diameter === null) return { id, radius: sized.has(id) ? 'free' : 'none' };
    const isExact = diameter.plusMinus === null && !left.has(`diameter ${id}`);
    return { id, radius: isExact ? { exact: diameter.value / 2 } : 'free' };
  });
  const used = new Set(readings.map((r) => r.instrument));
  const shared = [...instruments.values()].filter((i) => i.zero !== null && used.has(i.name));
  const unknowns = layUnknowns(
    needs,
    shared.map((i) => i.name),
  );
  const diameters = stated.flatMap(({ id, diameter }): readonly Observation[] => {
    const slot = unknowns.features.get(id)?.radius ?? null;
    if (diameter === null || diameter.plusMinus === null || slot === null) return [];
    const say = `diameter ${id}`;
    const e = equation([{ slot }], diameterModel, null);
    return [
      {
        ...e,
        id: say,
        text: say,
        kind: 'diameter',
        reading: null,
        measures: 'length',
        value: diameter.value,
        sigma: diameter.plusMinus / 2,
      },
    ];
  });
  const zeros = shared.map((i): Observation => {
    const say = `zero ${i.name}`;
    const e = equation([{ slot: unknowns.zeros.get(i.name) ?? 0 }], coordinateModel, null);
    return {
      ...e,
      id: say,
      text: say,
      kind: 'zero',
      reading: null,
      measures: i.measures,
      value: 0,
      sigma: (i.zero ?? 0) / 2,
    };
  });
  const observations = [...readings.flatMap((r) => observe(r, unknowns)), ...diameters, ...zeros];
  const aside = [
    ...face.readings.filter((r) => r.aside || left.has(r.id)),
    ...observations.filter((o) => left.has(o.id)),
    ...stated.flatMap(({ id, diameter }) =>
      diameter !== null && diameter.plusMinus === null && left.has(`diameter ${id}`)
        ? [{ id: `diameter ${id}`, text: `diameter ${id}` }]
        : [],
    ),
  ];
  return {
    face,
    instruments,
    readings,
    aside: aside.map(({ id, text }) => ({ id, text: text.replace(/^aside\s+/, '') })),
    unknowns,
    observations: observations.filter((o) => !left.has(o.id)),
    bench: readings.some((r) => r.kind === 'at' || r.kind === 'touch'),
  };
};

/** Features of a diameter given as exact, and of which some reading takes the radius. */
const exactIn = ({ unknowns, readings }: Network): ReadonlySet<string> => {
  const used = new Set(readings.flatMap((r) => (usesRadius(r.kind) ? r.features : [])));
  const exact = [...unknowns.features.values()].filter((f) => f.radius === null && f.exactRadius !== null);
  return new Set(exact.flatMap((f) => (used.has(f.id) ? [f.id] : [])));
};

/**
 * The same face with diameters given as exact only to ± `plusMinus`, mm, so that they may be wrong; null where there is
 * none.
 */
export const openedNetwork = (network: Network, plusMinus: number): Network | null => {
  const exact = exactIn(network);
  if (exact.size === 0) return null;
  const features = network.face.features.map((f) =>
    exact.has(f.id) && f.diameter !== null ? { ...f, diameter: { ...f.diameter, plusMinus } } : f,
  );
  return networkOf(
    { face: { ...network.face, features }, instruments: network.instruments },
    network.aside.map((a) => a.id),
  );
};

/**
 * ± of a diameter that is given as exact, once it may be wrong, mm: far below what any reading tells, far above
 * rounding.
 */
export const EXACTLY = 2e-4;

/** Whether an observation is a diameter that was given as exact. */
export const isExact = ({ kind, sigma }: Observation): boolean => kind === 'diameter' && sigma <= EXACTLY / 2;

/** Far wider than a diameter is misread by, mm. */
const LOOSE = 50;

/** The same with those diameters as good as unknown. */
export const loosenedNetwork = oncePer(
  (network: Network): Network | null => openedNetwork(network, LOOSE),
  new WeakMap<Network, Network | null>(),
);

/**
 * A vector of one network's unknowns as one of another of the same face; exact radii take the place of unknown ones.
 */
export const carried = (x: Float64Array, from: Network, to: Network): Float64Array => {
  const out = new Float64Array(to.unknowns.count);
  for (const [id, there] of to.unknowns.features) {
    const here = from.unknowns.features.get(id);
    if (here === undefined) continue;
    out[there.x] = x[here.x] as number;
    out[there.y] = x[here.y] as number;
    if (there.radius !== null)
      out[there.radius] = here.radius === null ? (here.exactRadius ?? 0) : (x[here.radius] ?? 0);
  }
  for (const [name, slot] of to.unknowns.zeros) out[slot] = x[from.unknowns.zeros.get(name) ?? -1] ?? 0;
  return out;
};
