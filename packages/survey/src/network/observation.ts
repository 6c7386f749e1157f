import type { Reading, ReadingKind } from '@fayplate/job';
import type { Geometry } from '../models/geometry.js';

/** One equation of the adjustment: what was read, how well, and what the unknowns say it should be. */
export interface Observation {
  /**
   * Reading id; `7.x` and `7.y` for `at`; `diameter P1` for a stated diameter; `zero rule` for a shared error's prior.
   */
  readonly id: string;
  readonly text: string;
  readonly kind: ReadingKind | 'diameter' | 'zero';
  /** Null for a diameter or a zero error. */
  readonly reading: Reading | null;
  readonly measures: 'length' | 'angle';
  /** mm or radians. */
  readonly value: number;
  /** Standard uncertainty, mm or radians: half of the ±. */
  readonly sigma: number;
  /** Slots of the unknowns that it depends on, each once. */
  readonly unknowns: readonly number[];
  /** Modelled value at `x`; where given, `slopes[k]` becomes the slope by `unknowns[k]`. */
  readonly model: (x: Float64Array, slopes?: Float64Array) => number;
}

/** A number that a geometry needs: a slot of the vector of unknowns, or a value that is exact. */
export type Input = { readonly slot: number } | { readonly exact: number };

type Equation = Pick<Observation, 'unknowns' | 'model'>;

/**
 * Ties a geometry to slots of the vector of unknowns. The same slot may stand at several inputs (`square A-B B-C`): its
 * slopes add up.
 * `zero` is the slot of an error that adds to every reading of an instrument.
 */
export const equation = (inputs: readonly Input[], geometry: Geometry, zero: number | null): Equation => {
  const slots = inputs.flatMap((i) => ('slot' in i ? [i.slot] : []));
  const unknowns = [...new Set(zero === null ? slots : [...slots, zero])];
  const slotOf = Int32Array.from(inputs, (i) => ('slot' in i ? i.slot : -1));
  const placeOf = Int32Array.from(inputs, (i) => ('slot' in i ? unknowns.indexOf(i.slot) : -1));
  const values = Float64Array.from(inputs, (i) => ('exact' in i ? i.exact : 0));
  const local = new Float64Array(inputs.length);
  const zeroPlace = zero === null ? -1 : unknowns.indexOf(zero);
  const model = (x: Float64Array, slopes?: Float64Array): number => {
    for (let i = 0; i < values.length; i++) {
      const slot = slotOf[i] as number;
      if (slot >= 0) values[i] = x[slot] as number;
    }
    const value = geometry(values, local);
    if (slopes !== undefined) {
      slopes.fill(0, 0, unknowns.length);
      for (let i = 0; i < values.length; i++) {
        const place = placeOf[i] as number;
        if (place >= 0) slopes[place] = (slopes[place] as number) + (local[i] as number);
      }
      if (zeroPlace >= 0) slopes[zeroPlace] = 1;
    }
    return zero === null ? value : value + (x[zero] as number);
  };
  return { unknowns, model };
};
