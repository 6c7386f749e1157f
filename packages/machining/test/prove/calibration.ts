import { type Point, randomFrom } from '@fayplate/core';
import { bestFit } from '@fayplate/plate';
import { prove } from '../../src/index.js';
import { faceJoints } from '../../src/prove/joints.js';
import { atAll, drilledJob, mated, placesOf, plate } from './drilled.js';

export interface Calibration {
  /** Mean of the probabilities said, and the share that in truth went on. */
  readonly said: number;
  readonly went: number;
  /** Mean of (said − went)², and what it would be if the probabilities were right: mean of said·(1 − said). */
  readonly brier: number;
  readonly brierDue: number;
  /** Share called 'goes on' or not as it truly was. */
  readonly right: number;
}

/**
 * Plates drilled with holes off by `off` mm (one standard deviation), measured by a read-out and proved: what is said
 * of each against whether its true holes let the pump on.
 */
export const calibration = (plates: number, off: number, firstSeed: number): Calibration => {
  const parts = mated(plate, 0.001);
  const [pump] = parts;
  if (pump === undefined) throw new Error('no pump');
  let [said, went, brier, due, right] = [0, 0, 0, 0, 0];
  for (let seed = firstSeed; seed < firstSeed + plates; seed++) {
    const random = randomFrom(seed);
    const truth = new Map(
      [...placesOf()].map(([id, p]): [string, Point] => [
        id,
        id.startsWith('H') ? { x: p.x + off * random.normal(), y: p.y + off * random.normal() } : p,
      ]),
    );
    const proof = prove(drilledJob(atAll(truth, random)), plate, parts, { trials: 200, seed });
    const exact = new Map([...truth].map(([id, at]) => [id, { at, diameter: null, as: null }]));
    const met = faceJoints(plate, drilledJob([]), pump, exact, () => []);
    const goes = bestFit(met?.spec.joints ?? []).slack >= 0 ? 1 : 0;
    const face = proof.goesOn.get('pump');
    const p = face?.probability ?? 0;
    said += p / plates;
    went += goes / plates;
    brier += (p - goes) ** 2 / plates;
    due += (p * (1 - p)) / plates;
    right += ((face?.slack ?? -1) >= 0 ? 1 : 0) === goes ? 1 / plates : 0;
  }
  return { said, went, brier, brierDue: due, right };
};
