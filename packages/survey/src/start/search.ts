import { randomFrom } from '@fayplate/core';
import { systemOf } from '../adjust/system.js';
import { clockMisfit } from './misfit.js';
import type { Network } from '../network/network.js';
import { begin } from './beginnings.js';
import { lift } from './lift.js';
import { pressOf } from './press.js';
import { asLow, reseat } from './reseat.js';
import { sketchOf } from './sketch.js';
import type { Slid } from './slide.js';
import { soundButForFew, soundLimit } from './sound.js';

export interface Found extends Slid {
  readonly from: string;
  /** Beginnings and lifts tried. */
  readonly tries: number;
}

/** Tries in all for a face of up to `SMALL` features; fewer for a larger one, whose every try takes longer. */
const TRIES = 80;
const SMALL = 60;
/** Lifts without gain before the next beginning. */
const PATIENCE = 12;
/** Lifts spent on looking for something lower still where the readings fit: more where few of them check each other. */
const POLISH = { checked: 4, unchecked: 12 } as const;
/** Where all but a few readings fit, whether those were misread or the arrangement is folded shows in the number of beginnings that end so. */
const BEGINNINGS_FOR_MISREAD = 3;
/** Strained features that are tried elsewhere after each lift. */
const MOST_STRAINED = 4;
/** A lift has gained something where it leaves less than this share of χ². */
const GAIN = 0.98;
const SEED = 20_261;

/**
 * The arrangement with the least χ² that a bounded search finds. Beginnings in turn are mended by moving single features and by lifting
 * groups; the search ends with the first arrangement that sound readings could have given, after a last look for a lower one.
 * The seed is fixed: the same face gives the same bytes.
 */
export const search = (network: Network): Found => {
  const equations = systemOf(network);
  const sketch = sketchOf(network);
  const pressing = pressOf(sketch);
  const random = randomFrom(SEED);
  const most = Math.max(3, Math.round(TRIES * Math.min(1, SMALL / Math.max(sketch.slots.length, 1))));
  const preferred = (a: Float64Array, b: Float64Array): boolean => clockMisfit(network, a) < clockMisfit(network, b) - 1e-6;
  const isSound = (s: Slid): boolean => s.chi2 <= soundLimit(equations, s.x);
  const polish = network.observations.length - network.unknowns.count > 0.5 * sketch.slots.length ? POLISH.checked : POLISH.unchecked;
  let tries = 0;
  let beginnings = 0;

  /** Lifts until so many in a row gain nothing; `enough` ends them early. */
  const lifts = (start: Slid, patience: number, enough: (s: Slid) => boolean): Slid => {
    let now = start;
    for (let idle = 0; idle < patience && tries < most && !enough(now); idle++) {
      tries++;
      let next = lift(pressing, equations, now.x, random);
      if (next.chi2 < 4 * now.chi2) next = reseat(sketch, equations, next, preferred, MOST_STRAINED);
      if (asLow(now.chi2, next.chi2)) continue;
      if (next.chi2 < GAIN * now.chi2) idle = -1;
      now = next;
    }
    return now;
  };
  const mend = (start: Slid): { readonly end: Slid; readonly done: boolean } => {
    let now = start;
    for (;;) {
      const lifted = lifts(now, PATIENCE, isSound);
      now = reseat(sketch, equations, lifted, preferred, Number.POSITIVE_INFINITY);
      if (isSound(now)) {
        const polished = lifts(now, polish, () => false);
        if (asLow(now.chi2, polished.chi2)) return { end: now, done: true };
        now = polished;
      } else if (tries >= most || now.chi2 > GAIN * lifted.chi2) {
        return { end: now, done: beginnings >= BEGINNINGS_FOR_MISREAD && soundButForFew(equations, now) };
      }
    }
  };

  let best: Found | null = null;
  for (;;) {
    tries++;
    const start = begin(pressing, equations, beginnings++, random);
    const { end, done } = mend(start);
    if (best === null || !asLow(best.chi2, end.chi2)) best = { ...end, from: start.from, tries };
    if (done || tries >= most) return { ...best, tries };
  }
};
