import { type Motion, type Point, chiSquareTail } from '@fayplate/core';
import type { Adjustment } from './adjust/adjustment.js';
import { coincidentWords } from './adjust/coincident.js';
import { type Settled, settle } from './adjust/settle.js';
import { jointCovariance } from './frame/covariance.js';
import type { Datum } from './frame/datum.js';
import { locatedFeatures } from './frame/located.js';
import { placeAll } from './frame/place-all.js';
import { freedomsOf } from './freedoms/freedoms.js';
import { nothingLoose, undeterminedOf, unreadOf } from './freedoms/undetermined.js';
import { networkOf } from './network/network.js';
import { nextReadings } from './next/next.js';
import { startAt, startPositions } from './start/start.js';
import { suspectsOf } from './suspects/describe.js';
import { falseAlarmOf } from './suspects/false-alarm.js';
import { fittedReadings } from './suspects/fitted.js';
import { snoop } from './suspects/snoop.js';
import type { LocatedFace, Survey } from './types.js';

export interface LocateOptions {
  /** Ids as in `FittedReading` to leave out (a reading, one of an `at`'s two, a stated diameter), beside what the job itself sets aside. */
  readonly setAside?: readonly string[];
  /** Whether to rank readings worth taking next; true unless told. */
  readonly next?: boolean;
  /** Where the features are known to be, mm, as of a plate that is yet to be drilled: the shape is not looked for anew. */
  readonly places?: ReadonlyMap<string, Point>;
  /** Told how much of what the search for a shape may take it has taken; as a rule it ends long before. */
  readonly progress?: (done: number, of: number) => void;
}

const zerosOf = ({ network, values, cofactor }: Adjustment): LocatedFace['zeros'] =>
  new Map(
    [...network.unknowns.zeros].map(([name, slot]) => [
      name,
      {
        measures: network.instruments.get(name)?.measures ?? 'length',
        value: values[slot] as number,
        plusMinus: 2 * Math.sqrt(cofactor(slot, slot)),
      },
    ]),
  );

/** The bench frame as it lies in the face's; null where it does not lie fast. */
const benchOf = (adjustment: Adjustment, { motion }: Datum): Motion | null =>
  adjustment.network.bench && adjustment.nullSpace.length === 0 ? motion : null;

/**
 * Centres of one face from its readings: weighted least squares, with every centre's covariance in the face's frame,
 * readings that do not fit the rest, and what the readings leave loose. Never throws for what a person can write;
 * where `stopped.converged` is false there is no answer and `features` is empty.
 */
export const locateFace = (survey: Survey, options: LocateOptions = {}): LocatedFace => {
  const network = networkOf(survey, options.setAside);
  return answer(
    settle(
      network,
      options.places === undefined ? startPositions(network, options.progress) : [startAt(network, options.places)],
    ),
    options.next ?? true,
  );
};

/** What a settled shape has to say. */
export const answer = ({ adjustment, system, hand, warnings }: Settled, next = true): LocatedFace => {
  const { network, stopped, chi2, dof } = adjustment;
  const { datum, placed } = placeAll(adjustment);
  const sound = stopped.converged;
  const readings = fittedReadings(adjustment);
  const undetermined = sound ? undeterminedOf(network, placed) : [];
  const byId = new Map(placed.map((p) => [p.slots.id, p]));
  return {
    name: network.face.name,
    frame: datum.frame,
    features: sound ? locatedFeatures(adjustment, datum, placed) : new Map(),
    readings,
    fit: {
      dof,
      chi2,
      p: dof > 0 ? chiSquareTail(chi2, dof) : null,
      sumRedundancy: adjustment.redundancy.reduce((s, r) => s + r, 0),
    },
    suspects: sound ? suspectsOf(snoop(adjustment, system), system) : [],
    undetermined,
    aside: network.aside,
    freedoms: sound && nothingLoose(adjustment, placed) ? [] : freedomsOf(adjustment, datum, unreadOf(network)),
    next: sound && next ? nextReadings(adjustment, datum, placed, undetermined) : [],
    zeros: zerosOf(adjustment),
    hand,
    bench: benchOf(adjustment, datum),
    falseAlarm: falseAlarmOf(readings),
    stopped,
    warnings: [...warnings, ...datum.warnings, ...coincidentWords(network, adjustment.values)],
    covarianceOf: (ids) =>
      jointCovariance(
        adjustment,
        datum,
        ids.map((id) => {
          const p = byId.get(id);
          if (p === undefined || !sound)
            throw new RangeError(`covarianceOf: ${id} is not located on face ${network.face.name}`);
          return p;
        }),
      ),
  };
};
