import { type Motion, type Point, chiSquareTail, distance } from '@fayplate/core';
import type { Adjustment } from './adjust/adjustment.js';
import { coincidentWords } from './adjust/coincident.js';
import { type Settled, settle } from './settle.js';
import { overlapsAt } from './arrangements/overlaps.js';
import { settlingReading } from './arrangements/telling.js';
import { jointCovariance } from './frame/covariance.js';
import type { Datum } from './frame/datum.js';
import { locatedFeatures } from './frame/located.js';
import { type Placed, placeAll } from './frame/placed.js';
import { freedomsOf, nothingLoose, undeterminedOf, unreadOf } from './freedoms/freedoms.js';
import { networkOf } from './network/network.js';
import { nextReadings } from './next/rank.js';
import { startAt, startPositions } from './start/start.js';
import { doubtOf } from './suspects/doubt.js';
import { falseAlarmOf, fittedReadings } from './suspects/standardized.js';
import { uncheckedReadings } from './suspects/unchecked.js';
import type { Arrangements, LocatedFace, Rival, Survey } from './types.js';

/** How a face is located; all of it optional. */
export interface LocateOptions {
  /**
   * Ids as in `FittedReading` to leave out (a reading, one of an `at`'s two, a stated diameter), beside what the job
   * itself sets aside.
   */
  readonly setAside?: readonly string[];
  /** Whether to rank readings worth taking next, always or where something is loose; default true. */
  readonly next?: boolean | 'where loose';
  /** Whether to look for the reading that is wrong where they contradict each other; default true. */
  readonly doubts?: boolean;
  /**
   * Where the features are known to be, mm, as of a plate that is yet to be drilled: the shape is not looked for again.
   */
  readonly places?: ReadonlyMap<string, Point>;
  /** Called with the share of the search budget that is used; the search usually ends long before it is spent. */
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

/** The bench frame in the face's frame; null where it is not fixed. */
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
    options,
  );
};

/** Centres of a rival that move less than this share of the farthest one count as unmoved. */
const MOVED = 0.02;

const arrangementsOf = ({ adjustment, odds, rivals, starts }: Settled, placed: readonly Placed[]): Arrangements => {
  const here = new Map(placed.map((p) => [p.slots.id, p.point]));
  return {
    odds,
    rivals: rivals.map((rival): Rival => {
      const places = new Map(placeAll(rival.adjustment).placed.map((p) => [p.slots.id, p.point]));
      const by = [...places].flatMap(([id, at]) => {
        const from = here.get(id);
        return from === undefined ? [] : [[id, distance(from, at)] as const];
      });
      const most = Math.max(...by.map(([, far]) => far), 0);
      const moved = by.filter(([, far]) => far > MOVED * most).sort((a, b) => b[1] - a[1]);
      return { odds: rival.odds, chi2: rival.adjustment.chi2, places, moved: moved.map(([id]) => id) };
    }),
    settle: settlingReading(
      adjustment,
      placed,
      rivals.map((r) => r.adjustment),
    ),
    // What is loose may yet move out of another's metal.
    overlaps: adjustment.stopped.converged
      ? overlapsAt(adjustment.network, adjustment.values).filter((pair) => pair.every((id) => here.has(id)))
      : [],
    searched: starts[0]?.unfinished !== true,
  };
};

/** What a settled shape has to say. */
export const answer = (
  settled: Settled,
  { next = true, doubts = true }: Pick<LocateOptions, 'next' | 'doubts'> = {},
): LocatedFace => {
  const { adjustment, hand, warnings } = settled;
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
    ...(sound && doubts ? doubtOf(settled) : { suspects: [], explanations: [], telling: null }),
    leftOut: settled.leftOut.flatMap((i) => network.observations[i]?.id ?? []),
    unchecked: sound ? uncheckedReadings(adjustment, placed) : [],
    undetermined,
    aside: network.aside,
    freedoms: sound && nothingLoose(adjustment, placed) ? [] : freedomsOf(adjustment, datum, unreadOf(network)),
    next:
      sound && (next === true || (next !== false && undetermined.length > 0))
        ? nextReadings(adjustment, datum, placed, undetermined)
        : [],
    zeros: zerosOf(adjustment),
    arrangements: arrangementsOf(settled, placed),
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
