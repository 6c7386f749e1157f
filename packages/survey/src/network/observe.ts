import type { Reading } from '@fayplate/job';
import { angleModel } from '../models/angle.js';
import { coordinateModel, touchModel } from '../models/bench.js';
import { diameterModel, distanceModel } from '../models/distance.js';
import { flushModel } from '../models/flush.js';
import { offsetModel, signedOffsetModel } from '../models/line.js';
import { type Equation, type Input, type Observation, equation } from './observation.js';
import type { FeatureSlots, Unknowns } from './unknowns.js';

const place = (f: FeatureSlots): readonly Input[] => [{ slot: f.x }, { slot: f.y }];
const radius = (f: FeatureSlots): Input => (f.radius === null ? { exact: f.exactRadius ?? 0 } : { slot: f.radius });
const circle = (f: FeatureSlots): readonly Input[] => [...place(f), radius(f)];

/** The equations of one reading: two for `at` (x, then y), one for every other kind. The table of the job file is the source. */
const equationsOf = (reading: Reading, unknowns: Unknowns): readonly Equation[] => {
  const f = (i: number): FeatureSlots => {
    const slots = unknowns.features.get(reading.features[i] ?? '');
    if (slots === undefined) throw new RangeError(`reading ${reading.id} names feature ${String(reading.features[i])}, which the face lacks`);
    return slots;
  };
  const zero = unknowns.zeros.get(reading.instrument ?? '') ?? null;
  const one = (inputs: readonly (readonly Input[])[], geometry: Parameters<typeof equation>[1]): readonly Equation[] => [
    equation(inputs.flat(), geometry, zero),
  ];
  const both = (): readonly (readonly Input[])[] => [circle(f(0)), circle(f(1))];
  switch (reading.kind) {
    case 'centres':
      return one(both(), distanceModel(1, 0, 0));
    case 'over':
      return one(both(), distanceModel(1, 1, 1));
    case 'between':
      return one(both(), distanceModel(1, -1, -1));
    case 'step':
      return one(both(), distanceModel(1, -1, 1));
    case 'wall':
      return one(both(), distanceModel(-1, -1, 1));
    case 'dia':
      return one([[radius(f(0))]], diameterModel);
    case 'angle':
      return one([place(f(1)), place(f(0)), place(f(1)), place(f(2))], angleModel);
    case 'square':
      return one([place(f(0)), place(f(1)), place(f(2)), place(f(3))], angleModel);
    case 'line':
      return one([place(f(1)), place(f(0)), place(f(2))], signedOffsetModel);
    case 'offset':
      return one([place(f(0)), place(f(1)), place(f(2))], offsetModel);
    case 'flush':
      return one([circle(f(0)), circle(f(1)), circle(f(2))], flushModel);
    case 'at':
      return [equation([{ slot: f(0).x }], coordinateModel, zero), equation([{ slot: f(0).y }], coordinateModel, zero)];
    case 'touch':
      return one([circle(f(0))], touchModel(reading.point?.x ?? 0, reading.point?.y ?? 0));
  }
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
      measures: reading.kind === 'angle' || reading.kind === 'square' ? 'angle' : 'length',
      value: axis === null ? reading.value : (reading.point?.[axis] ?? 0),
      sigma: reading.plusMinus / 2,
    };
  });
};
