import { sayPlain, sayValue } from '../words/say.js';
import { type CheckKind, marginOf } from './check.js';

/** What only trials of the whole plate tell; `fit/together` finds these, and proposes its own cures for the first. */
const byTrials = { margin: marginOf, find: () => [], cures: () => [] } as const;

export const chanceOfGoingOn: CheckKind = {
  ...byTrials,
  id: 'goes-on',
  title: 'chance that it goes on',
  meaning: 'chance',
  say: (c, speech) => `${c.of[0] ?? ''} goes on ${sayValue(c, c.value, speech).replace(' %', '')} times in 100`,
};

export const shaftOffset: CheckKind = {
  ...byTrials,
  id: 'shaft-offset',
  title: 'offset of the shafts',
  meaning: 'line',
  say: sayPlain,
};

export const shaftTilt: CheckKind = {
  ...byTrials,
  id: 'shaft-tilt',
  title: 'tilt of the shafts',
  meaning: 'line',
  say: sayPlain,
};
