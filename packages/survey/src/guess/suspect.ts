import { type ReadingKind, usesRadius } from '@fayplate/job';
import { observe } from '../network/observe.js';
import { radiusAt } from '../network/unknowns.js';
import type { Clue } from '../suspects/clue.js';
import { guessSlip } from './guess.js';

/** A plain guess at how a suspect came to its number; null where none fits, and for a stated diameter or a shared zero error. */
export const guessFor = ({ observation, without, expected, sigma }: Clue): string | null => {
  const { reading } = observation;
  if (reading === null) return null;
  const { network, values } = without;
  const { unknowns } = network;
  const wouldRead = (kind: ReadingKind, features: readonly string[]): number | null => {
    const slots = features.map((id) => unknowns.features.get(id));
    if (slots.some((s) => s === undefined || (usesRadius(kind) && radiusAt(s, values) === null))) return null;
    return observe({ ...reading, kind, features, point: null }, unknowns)[0]?.model(values) ?? null;
  };
  return guessSlip({
    reading,
    value: observation.value,
    expected,
    sigma,
    wouldRead,
    features: [...unknowns.features.keys()],
  });
};
