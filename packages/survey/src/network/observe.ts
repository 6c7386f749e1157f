import {
  type DistanceKind,
  type Reading,
  type ReadingKind,
  distanceForm,
  isDistance,
  readingGrammar,
} from '@fayplate/job';
import {
  type Geometry,
  angleModel,
  coordinateModel,
  diameterModel,
  distanceModel,
  offsetModel,
  signedOffsetModel,
  touchModel,
} from '../models/geometry.js';
import { flushModel } from '../models/flush.js';
import { alongModel, differenceModel } from '../models/run-out.js';
import { type Input, type Observation, equation } from './observation.js';
import type { FeatureSlots, Unknowns } from './unknowns.js';

const place = (f: FeatureSlots): readonly Input[] => [{ slot: f.x }, { slot: f.y }];
const radius = (f: FeatureSlots): Input => (f.radius === null ? { exact: f.exactRadius ?? 0 } : { slot: f.radius });
const circle = (f: FeatureSlots): readonly Input[] => [...place(f), radius(f)];
/** None for a feature that the reading leaves out, which the reader of the job file refuses. */
const placed = (f: FeatureSlots | undefined): readonly (readonly Input[])[] => (f === undefined ? [] : [place(f)]);

/** Far below what the reading can tell; off a distance of d it takes 5e-9 σ²/d. */
const bluntOf = (r: Reading): number => 1e-4 * (r.plusMinus / 2);

/** What a part reads beside the reading's own value and ±: which of two it is, and mm. */
interface Component {
  readonly axis: string;
  readonly value: number;
  readonly sigma: number;
}

type Part = readonly [inputs: readonly (readonly Input[])[], geometry: Geometry, component?: Component];

/** A wall grows as the centres come together, so that one read too thick would pull them through each other. */
const distancePart = (kind: DistanceKind, f: readonly FeatureSlots[], r: Reading): readonly Part[] => {
  const form = distanceForm(kind);
  return [[f.map(circle), distanceModel(form, form.k < 0 ? bluntOf(r) : 0)]];
};

/**
 * A run-out along its direction, and zero across it to within what the direction's ± makes of it. With no direction
 * it may be any: a point anywhere on the circle of that radius has a mean of zero and, in each of two coordinates,
 * half of its square.
 */
const runOutParts = ([a, b, p, q]: readonly FeatureSlots[], r: Reading): readonly Part[] => {
  const own = r.plusMinus / 2;
  const high = r.runOut?.high ?? null;
  if (a === undefined || b === undefined || r.runOut?.radius !== null) return [];
  if (high === null || p === undefined || q === undefined) {
    const sigma = Math.hypot(own, r.value * Math.SQRT1_2);
    return (['x', 'y'] as const).map((axis): Part => [
      [[{ slot: a[axis] }, { slot: b[axis] }]],
      differenceModel,
      { axis, value: 0, sigma },
    ]);
  }
  const inputs = [a, b, p, q].map(place);
  return [
    [inputs, alongModel(high.turn), { axis: 'along', value: r.value, sigma: own }],
    [
      inputs,
      alongModel(high.turn + Math.PI / 2),
      { axis: 'across', value: 0, sigma: Math.hypot(own, (r.value * high.within) / 2) },
    ],
  ];
};

/** Of `at`, the places on the bench. */
const onBench = ({ point, plusMinus }: Reading, axis: 'x' | 'y'): Component => ({
  axis,
  value: point?.[axis] ?? 0,
  sigma: plusMinus / 2,
});

type Other = Exclude<ReadingKind, DistanceKind>;

/** What each other kind of reading measures, feature by feature in the order written: the table of the job file. */
const parts: Readonly<Record<Other, (f: readonly FeatureSlots[], reading: Reading) => readonly Part[]>> = {
  dia: (f) => [[f.map((c) => [radius(c)]), diameterModel]],
  angle: ([a, v, b]) => [[[v, a, v, b].flatMap(placed), angleModel]],
  square: (f) => [[f.map(place), angleModel]],
  line: ([a, b, c]) => [[[b, a, c].flatMap(placed), signedOffsetModel]],
  offset: (f) => [[f.map(place), offsetModel]],
  flush: (f) => [[f.map(circle), flushModel]],
  runout: runOutParts,
  at: (f, r) => [
    [f.map((c) => [{ slot: c.x }]), coordinateModel, onBench(r, 'x')],
    [f.map((c) => [{ slot: c.y }]), coordinateModel, onBench(r, 'y')],
  ],
  touch: (f, { point }) => [[f.map(circle), touchModel(point?.x ?? 0, point?.y ?? 0)]],
};

/**
 * A reading's observations: `7.x` and `7.y` for `at`, `7.along` and `7.across` for a run-out, one under the reading's
 * own id for every other kind.
 */
export const observe = (reading: Reading, unknowns: Unknowns): readonly Observation[] => {
  const features = reading.features.map((id) => {
    const slots = unknowns.features.get(id);
    if (slots === undefined) throw new RangeError(`reading ${reading.id} names feature ${id}, which the face lacks`);
    return slots;
  });
  const { kind } = reading;
  // What all readings of a dial are wrong by cancels in its travel.
  const zero = kind === 'runout' ? null : (unknowns.zeros.get(reading.instrument ?? '') ?? null);
  const found = isDistance(kind) ? distancePart(kind, features, reading) : parts[kind](features, reading);
  return found.map(([inputs, geometry, component]) => ({
    ...equation(inputs.flat(), geometry, zero),
    id: component === undefined ? reading.id : `${reading.id}.${component.axis}`,
    text: reading.text,
    kind,
    reading,
    measures: readingGrammar(kind).measures === 'angle' ? 'angle' : 'length',
    value: component?.value ?? reading.value,
    sigma: component?.sigma ?? reading.plusMinus / 2,
  }));
};
