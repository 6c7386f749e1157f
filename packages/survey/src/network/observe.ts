import {
  type DistanceKind,
  type Reading,
  type ReadingKind,
  distanceForm,
  isDistance,
  readingGrammar,
} from '@fayplate/job';
import { angleModel } from '../models/angle.js';
import { coordinateModel, touchModel } from '../models/bench.js';
import { diameterModel, distanceModel } from '../models/distance.js';
import { flushModel } from '../models/flush.js';
import type { Geometry } from '../models/geometry.js';
import { offsetModel, signedOffsetModel } from '../models/line.js';
import { type Equation, type Input, type Observation, equation } from './observation.js';
import type { FeatureSlots, Unknowns } from './unknowns.js';

const place = (f: FeatureSlots): readonly Input[] => [{ slot: f.x }, { slot: f.y }];
const radius = (f: FeatureSlots): Input => (f.radius === null ? { exact: f.exactRadius ?? 0 } : { slot: f.radius });
const circle = (f: FeatureSlots): readonly Input[] => [...place(f), radius(f)];
/** None for a feature that the reading leaves out, which the reader of the job file refuses. */
const placed = (f: FeatureSlots | undefined): readonly (readonly Input[])[] => (f === undefined ? [] : [place(f)]);

/** Far below what the reading can tell; off a distance of d it takes 5e-9 σ²/d. */
const bluntOf = (r: Reading): number => 1e-4 * (r.plusMinus / 2);

type Part = readonly [inputs: readonly (readonly Input[])[], geometry: Geometry];

/** A wall grows as the centres come together, so that one read too thick would pull them through each other. */
const distancePart = (kind: DistanceKind, f: readonly FeatureSlots[], r: Reading): readonly Part[] => {
  const form = distanceForm(kind);
  return [[f.map(circle), distanceModel(form, form.k < 0 ? bluntOf(r) : 0)]];
};

type Other = Exclude<ReadingKind, DistanceKind>;

/** What each other kind of reading measures, feature by feature in the order written: the table of the job file. */
const parts: Readonly<Record<Other, (f: readonly FeatureSlots[], reading: Reading) => readonly Part[]>> = {
  dia: (f) => [[f.map((c) => [radius(c)]), diameterModel]],
  angle: ([a, v, b]) => [[[v, a, v, b].flatMap(placed), angleModel]],
  square: (f) => [[f.map(place), angleModel]],
  line: ([a, b, c]) => [[[b, a, c].flatMap(placed), signedOffsetModel]],
  offset: (f) => [[f.map(place), offsetModel]],
  flush: (f) => [[f.map(circle), flushModel]],
  at: (f) => [
    [f.map((c) => [{ slot: c.x }]), coordinateModel],
    [f.map((c) => [{ slot: c.y }]), coordinateModel],
  ],
  touch: (f, { point }) => [[f.map(circle), touchModel(point?.x ?? 0, point?.y ?? 0)]],
};

const equationsOf = (reading: Reading, unknowns: Unknowns): readonly Equation[] => {
  const features = reading.features.map((id) => {
    const slots = unknowns.features.get(id);
    if (slots === undefined) throw new RangeError(`reading ${reading.id} names feature ${id}, which the face lacks`);
    return slots;
  });
  const zero = unknowns.zeros.get(reading.instrument ?? '') ?? null;
  const { kind } = reading;
  const found = isDistance(kind) ? distancePart(kind, features, reading) : parts[kind](features, reading);
  return found.map(([inputs, geometry]) => equation(inputs.flat(), geometry, zero));
};

/** A reading's observations: `7.x` and `7.y` for `at`, one under the reading's own id for every other kind. */
export const observe = (reading: Reading, unknowns: Unknowns): readonly Observation[] => {
  const axes = reading.kind === 'at' ? (['x', 'y'] as const) : [null];
  return equationsOf(reading, unknowns).map((e, i) => {
    const axis = axes[i] ?? null;
    return {
      ...e,
      id: axis === null ? reading.id : `${reading.id}.${axis}`,
      text: reading.text,
      kind: reading.kind,
      reading,
      measures: readingGrammar(reading.kind).measures === 'angle' ? 'angle' : 'length',
      value: axis === null ? reading.value : (reading.point?.[axis] ?? 0),
      sigma: reading.plusMinus / 2,
    };
  });
};
