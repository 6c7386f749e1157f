import { chiSquareTail } from '@fayplate/core';
import type { Adjustment } from '../adjust/adjustment.js';
import { farthestApart, isSameShape, mirrorImage } from '../frame/hand.js';
import { guessFor } from '../guess/guess.js';
import { EXACTLY, carried, openedNetwork } from '../network/network.js';
import { type Settled, settle } from '../settle.js';
import type { Start } from '../start/parts.js';
import type { Explanation, Suspect, TellingReading } from '../types.js';
import { suspectsOf } from './describe.js';
import { isSpent } from '../adjust/system.js';
import { MOST_WRONG, explain, withinReason } from './explain.js';
import { type Explained, explainedBy } from './hypothesis.js';
import { asideAtOnce, atFirstSight, listed, setAsideBy, snoop } from './snoop.js';
import { ALPHA, CRITICAL, wOf } from './standardized.js';
import { tellingReading } from './telling.js';

/**
 * The same face where diameters given as exact are readings like any other, so that one of them may be what is wrong;
 * the same settled face where there is none. A start is the same shape in both.
 */
const opened = (settled: Settled): Settled => {
  const { network } = settled.adjustment;
  const open = openedNetwork(network, EXACTLY);
  if (open === null) return settled;
  const placeOf = new Map(open.observations.map((o, i) => [o.id, i]));
  const same = (start: Start): Start => {
    const left = start.left?.flatMap((i) => placeOf.get(network.observations[i]?.id ?? '') ?? []);
    return { ...start, values: carried(start.values, network, open), ...(left === undefined ? {} : { left }) };
  };
  const answer: Start = { values: settled.adjustment.values, from: 'the answer', weight: 0 };
  const again = settle(open, [answer, ...settled.starts].map(same));
  return again.adjustment.stopped.converged && again.leftOut.length === 0 ? again : settled;
};

/** What may be wrong with the readings of a face, and what would tell. */
interface Doubt {
  readonly suspects: readonly Suspect[];
  readonly explanations: readonly Explanation[];
  readonly telling: TellingReading | null;
}

const said = ({ hypotheses }: Explained): readonly Explanation[] =>
  listed({ hypotheses }).map(({ wrong, rest, errors, sigmas, odds }) => ({
    readings: wrong.flatMap((i) => rest.network.observations[i]?.id ?? []),
    odds,
    errors: wrong.flatMap((i, k) => {
      const observation = rest.network.observations[i];
      const [error, sigma] = [errors[k] ?? 0, sigmas[k] ?? 0];
      if (observation === undefined) return [];
      const expected = observation.value - error;
      const guess = sigma > 0 ? guessFor({ observation, without: rest, expected, sigma }) : null;
      return [{ measures: observation.measures, error, guess }];
    }),
    p: rest.dof > 0 ? chiSquareTail(rest.chi2, rest.dof) : null,
  }));

/** A shape or its mirror image, whichever lies nearer to what was settled on: a start may have either hand. */
const inHandOf = ({ network, values }: Adjustment, x: Float64Array): Float64Array => {
  const mirrored = mirrorImage(network, x);
  return !network.bench && farthestApart(network, values, mirrored) < farthestApart(network, values, x) ? mirrored : x;
};

/** Shapes that differ by less than this share of their size lead to the same explanations. */
const SAME = 0.05;

/** More readings than these are set aside at once: to solve for each would tell nothing more. */
const MANY = 2 * MOST_WRONG;

/**
 * Nothing where no reading stands out; else the suspects of the likeliest explanation, all explanations, and what would
 * tell them apart.
 */
export const doubtOf = (settled: Settled): Doubt =>
  withinReason(settled.system, () => {
    const doubt = doubtedIn(settled);
    if (!isSpent(settled.system.meter) || doubt.suspects.length > 0) return doubt;
    // The work ended before anything was named: what stands out must still be said.
    return { ...doubt, suspects: suspectsOf(atFirstSight(settled.adjustment), settled.system) };
  });

const doubtedIn = (settled: Settled): Doubt => {
  const { leftOut } = settled;
  if (leftOut.length > 0) {
    const explained = explainedBy(settled.adjustment, leftOut);
    const suspects = suspectsOf(asideAtOnce(null, explained), settled.system);
    return { suspects, explanations: said(explained), telling: null };
  }
  const { observations } = settled.adjustment.network;
  const standsOut = observations.some((_, i) => Math.abs(wOf(settled.adjustment, i) ?? 0) > CRITICAL);
  const { dof, chi2 } = settled.adjustment;
  const astray = (settled.starts[0]?.left?.length ?? 0) > 0 && dof > 0 && chiSquareTail(chi2, dof) < ALPHA;
  if (!standsOut && !astray) return { suspects: [], explanations: [], telling: null };
  const { adjustment, system, starts } = opened(settled);
  const { network } = adjustment;
  const shapes = [...starts.slice(0, 2).map((s) => inHandOf(adjustment, s.values)), adjustment.values].filter(
    (x, i, all) => !all.slice(0, i).some((y) => isSameShape(network, x, y, SAME)),
  );
  const explained = explain(
    system,
    adjustment,
    shapes,
    starts.flatMap((s) => (s.left === undefined || s.left.length === 0 ? [] : [s.left])),
  );
  const [best] = explained.hypotheses;
  const aside =
    best === undefined
      ? snoop(adjustment, system)
      : best.wrong.length > MANY
        ? asideAtOnce(adjustment, explained)
        : setAsideBy(adjustment, system, explained);
  const live = listed(explained);
  return {
    suspects: suspectsOf(aside, system),
    explanations: said(explained),
    telling: tellingReading(adjustment, live),
  };
};
