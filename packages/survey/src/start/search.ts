import type { Network } from '../network/network.js';
import { arrangementsBeside } from './bilateration.js';
import type { LocalMinimum } from './levenberg-marquardt.js';
import { equallyLow } from './basin.js';
import { START, type State, stepsOf } from './steps.js';

export interface Found extends LocalMinimum {
  readonly from: string;
  /** What the search took, in perturbations. */
  readonly tries: number;
  /** All arrangements that the readings leave, this one among them; null where they cannot be counted. */
  readonly beside: readonly Float64Array[] | null;
  /** All but a few readings fit, and nothing was looked for that all would fit. */
  readonly despite: boolean;
  /** The search ended at its budget: another arrangement may fit better. */
  readonly spent: boolean;
}

/**
 * The arrangement with the least χ² that a bounded search finds. Beginnings are made one after another; between them
 * parts of the most hopeful so far are reflected in the plane, or moved out of it and back, and single features are
 * moved. The search ends with an arrangement that sound readings could have given, after a last look for a lower one
 * unless they leave no other, or where beginnings keep ending at one that they could not have given. The seed is fixed:
 * the same face gives the same bytes. `first`: it ends with the first that sound readings could have given.
 */
export const search = (
  network: Network,
  progress?: (done: number, of: number) => void,
  { first = false }: { readonly first?: boolean } = {},
): Found => {
  const steps = stepsOf(network, progress);
  const ended = (s: LocalMinimum & { readonly from: string }, { spent }: State, how: Partial<Found> = {}): Found => ({
    ...s,
    tries: spent,
    beside: null,
    despite: false,
    spent: false,
    ...how,
  });
  for (let state = START; ;) {
    const work = steps.worked(state);
    let { now } = work;
    ({ state } = work);
    if (work.anew) {
      state = steps.despiteFew(state, now);
      if (state.despite !== null && steps.isDespiteEnough(state, now))
        return ended({ x: state.despite.x, chi2: state.despite.chi2, from: now.from }, state, { despite: true });
    }
    if (first && steps.isSound(now)) return ended(now, state);
    if (steps.isSound(now) && !state.polishings.some((s) => equallyLow(s, now))) {
      const beside = arrangementsBeside(steps.sketch, now.x);
      if (beside !== null) return ended(now, state, { beside });
      ({ state, now } = steps.soundened(state, now));
    }
    const { sound, asked } = state;
    if (sound !== null && state.beginnings >= asked.beginnings && state.spent >= asked.spent)
      return ended(sound, state);
    state = steps.putBack(state, now);
    const best = steps.bestOf(state);
    if (sound === null && best !== null && steps.isAsLowAsAny(state, best)) return ended(best, state);
    if (steps.share(state) >= 1) return ended(sound ?? best ?? now, state, { spent: sound === null });
    progress?.(steps.share(state), 1);
  }
};
