import { randomFrom } from '@fayplate/core';
import { asLow } from '../adjust/as-low.js';
import { type Equations, systemOf } from '../adjust/system.js';
import { clockMisfit, farClocks } from './misfit.js';
import type { Network } from '../network/network.js';
import { begin } from './beginnings.js';
import { foldsOf } from './flaps.js';
import { leant, lift } from './lift.js';
import { pressOf } from './press.js';
import { amongRivals, lowerOf, quick, reseat, thorough } from './reseat.js';
import { sketchOf } from './sketch.js';
import type { Slid } from './slide.js';
import { soundButForFew, soundLimit } from './sound.js';

export interface Found extends Slid {
  readonly from: string;
  /** What the search took, in lifts. */
  readonly tries: number;
}

/** An arrangement that is being worked on. */
interface Standing extends Slid {
  readonly from: string;
  /** Lifts since it last fell. */
  readonly idle: number;
  /** Every feature has been tried in its other places. */
  readonly mended: boolean;
  /** Beginnings that have led here. */
  readonly met: number;
  /** Clocks that speak against it. */
  readonly far: number;
}

/** What the search may take, in lifts: at first and for each feature more, at most, and in products in factors of the normal equations (some twenty seconds’ worth, where nothing fits). */
const EFFORT = { least: 10, first: 40, feature: 60, most: 2400, cost: 24e9 } as const;
/** Turns of sliding in a lift: pressed from space, and in the plane. */
const TURNS = { space: 60, plane: 150 } as const;
/** What mending one arrangement takes, in lifts. */
const MENDING = 20;
/** After so many lifts without gain an arrangement is mended, and after so many given up. */
const PATIENCE = { mend: 4, most: 16 } as const;
/** Lifts spent on looking for something lower still where the readings fit: for each feature of a large face, and where few readings check each other and no clock speaks for the arrangement. In a small face single moves reach everything. */
const POLISH = { feature: 0.2, small: 12, unchecked: 10 } as const;
/** Where all but a few readings fit, whether those were misread or the arrangement is folded shows in the number of beginnings that end so. */
const BEGINNINGS_FOR_MISREAD = 3;
/** Nothing lies lower than where so many beginnings met, one after another. */
const MET = 5;
/** Readings fit so badly once in so many sound faces; then so many beginnings are tried for an arrangement that they fit better. */
const DOUBTFUL = { seldom: 0.05, beginnings: 8 } as const;
/** Where the readings fit but clocks lie far off, so many beginnings are tried for each of these, at least and at most, for an arrangement that suits both. */
const AGAINST_CLOCKS = { each: 3, least: 6, most: 24 } as const;
/** Where the readings fit but few of them check each other and no clock speaks for the arrangement, so many beginnings are tried. */
const BEGINNINGS_UNCHECKED = 6;
/** A lift has gained something where it leaves less than this share of χ². */
const GAIN = 0.98;
/** Lifted next is the arrangement of the least χ², one lift without gain weighing as much as this factor. */
const WEARY = 1.7;
/** Each clock that speaks against an arrangement weighs as much as this factor: one that all clocks speak for may be folded in a few places only. */
const AGAINST = 2;
/** Clocks prefer an arrangement to another where they lie nearer by this, rad²: less is the same arrangement not quite slid to its foot. */
const PLAINLY = 1e-3;
/** χ² by which an arrangement may be worse for each clock that speaks against the other: odds of three to one, though a clock is seldom so far off. */
const ALIKE = 2;
/** Nothing lies lower than this. */
const EXACT = 1e-6;
const SEED = 20_261;

const equallyLow = (a: Slid, b: Slid): boolean => asLow(a.chi2, b.chi2) && asLow(b.chi2, a.chi2);

/** Products in one factor, the reckoning of the equations themselves counted in. */
const factorCost = ({ pattern, observations }: Equations): number => {
  let sum = 200 * observations.length;
  for (let j = 0; j < pattern.size; j++) sum += ((pattern.starts[j + 1] as number) - (pattern.starts[j] as number)) ** 2;
  return sum;
};

/**
 * The arrangement with the least χ² that a bounded search finds. Beginnings are made one after another; between them the most hopeful so
 * far are lifted out of their plane and pressed flat again, and mended by moving single features. The search ends with an arrangement that
 * sound readings could have given, after a last look for a lower one. The seed is fixed: the same face gives the same bytes.
 */
export const search = (network: Network): Found => {
  const equations = systemOf(network);
  const sketch = sketchOf(network);
  const pressing = pressOf(sketch);
  const folds = foldsOf(sketch);
  const random = randomFrom(SEED);
  const cost = TURNS.space * factorCost(pressing.equations) + TURNS.plane * factorCost(equations);
  const most = Math.min(EFFORT.most, EFFORT.first + EFFORT.feature * sketch.slots.length, Math.max(EFFORT.least, EFFORT.cost / cost));
  const clocked = sketch.clocks.some((c) => c !== null);
  const preferred = (a: Float64Array, b: Float64Array): boolean => clocked && clockMisfit(network, a) < clockMisfit(network, b) - PLAINLY;
  const isSound = (s: Slid): boolean => s.chi2 <= soundLimit(equations, s.x);
  const checked = network.observations.length - network.unknowns.count > sketch.slots.length;
  let spent = 0;
  let beginnings = 0;
  let spentOnBeginnings = 0;
  let pool: Standing[] = [];

  const standing = (s: Omit<Standing, 'far'>): Standing => ({ ...s, far: farClocks(network, s.x) });
  const lifted = (s: Standing, by = lift): Standing => {
    spent++;
    const next = by(pressing, equations, s.x, random);
    if (equallyLow(s, next) || next.chi2 > 4 * s.chi2) return { ...s, idle: s.idle + 1 };
    const end = reseat(sketch, equations, folds, next, preferred, quick);
    spent++;
    if (asLow(s.chi2, end.chi2)) return { ...s, idle: s.idle + 1 };
    return standing({ ...end, from: s.from, idle: end.chi2 < GAIN * s.chi2 ? 0 : s.idle + 1, mended: false, met: 1 });
  };
  const mended = (s: Standing): Standing => {
    spent += MENDING;
    const end = reseat(sketch, equations, folds, s, preferred, thorough);
    return standing({ ...s, ...end, idle: end.chi2 < GAIN * s.chi2 ? 0 : s.idle, mended: true });
  };
  const lower = lowerOf(preferred);
  /** Of two that the readings fit about alike the one that no clock speaks against; else the lower one. */
  const likelier = <One extends Slid>(a: One, b: One): One => {
    const [first, second] = [farClocks(network, a.x), farClocks(network, b.x)];
    if ((first === 0) !== (second === 0) && Math.abs(a.chi2 - b.chi2) <= ALIKE * (first + second)) return first === 0 ? a : b;
    return lower(a, b);
  };
  const vouched = (s: Standing): boolean => checked || (clocked && s.far === 0);
  /** Beginnings tried before a sound arrangement is taken. */
  const enough = (s: Standing): number => {
    return Math.max(
      s.chi2 > soundLimit(equations, s.x, 0, DOUBTFUL.seldom) ? DOUBTFUL.beginnings : 0,
      s.far === 0 ? 0 : Math.min(Math.max(AGAINST_CLOCKS.least, s.far * AGAINST_CLOCKS.each), AGAINST_CLOCKS.most),
      vouched(s) || s.chi2 < EXACT ? 0 : BEGINNINGS_UNCHECKED,
    );
  };
  const polished = (s: Standing): Standing => {
    const settled = (from: Standing): Standing => {
      spent += MENDING;
      return standing({ ...from, ...amongRivals(sketch, equations, folds, from, preferred, likelier), mended: true });
    };
    let now = settled(s);
    const patience = now.chi2 < EXACT ? 0 : !vouched(now) ? POLISH.unchecked : sketch.slots.length > POLISH.small ? POLISH.feature * sketch.slots.length : 0;
    for (let idle = 0; idle < patience; idle++) {
      const next = lifted(now, idle % 2 === 1 && now.far > 0 ? leant : lift);
      if (asLow(now.chi2, next.chi2) || likelier(now, next) === now) continue;
      now = settled(next);
      idle = -1;
    }
    return now;
  };
  const weight = (s: Standing): number => (s.chi2 + EXACT) * WEARY ** s.idle * AGAINST ** s.far;

  let sound: Standing | null = null;
  /** Sound arrangements before and after they were polished. */
  const polishings: Standing[] = [];
  /** Of those given up. */
  let lowest: Standing | null = null;
  for (;;) {
    let now: Standing;
    const due = pool.length === 0 || 2 * spentOnBeginnings <= spent;
    if (due) {
      const start = begin(pressing, equations, beginnings++, random);
      spent += start.cost;
      spentOnBeginnings += start.cost;
      now = standing({ x: start.x, chi2: start.chi2, from: start.from, idle: 0, mended: false, met: 1 });
    } else {
      const next = pool.reduce((a, b) => (weight(b) < weight(a) ? b : a));
      now = next.idle >= PATIENCE.mend && !next.mended ? mended(next) : lifted(next);
      pool = pool.filter((s) => s !== next);
    }
    if (isSound(now)) {
      if (!polishings.some((s) => equallyLow(s, now))) {
        const end = polished(now);
        polishings.push(now, end);
        sound = sound === null ? end : likelier(sound, end);
      }
      if (sound !== null && beginnings >= enough(sound)) return { ...sound, tries: spent };
    } else {
      const twin = pool.find((s) => equallyLow(s, now));
      if (twin !== undefined) {
        pool = pool.filter((s) => s !== twin);
        now = { ...lower(twin, now), idle: Math.max(twin.idle, now.idle), mended: twin.mended || now.mended, met: twin.met + now.met };
      }
      if (lowest !== null && equallyLow(lowest, now)) lowest = { ...lower(lowest, now), met: lowest.met + now.met };
      else if (now.idle < PATIENCE.most) pool.push(now);
      else lowest = lowest === null ? now : lower(lowest, now);
      const rivals = [...pool, ...(lowest === null ? [] : [lowest])];
      const end = rivals.reduce(lower);
      if (sound === null && end.met >= MET && end.mended) return { ...end, tries: spent };
      if (sound === null && checked && beginnings >= BEGINNINGS_FOR_MISREAD && end.idle >= PATIENCE.most && soundButForFew(equations, end)) return { ...end, tries: spent };
    }
    if (spent >= most) {
      const best = [...(sound === null ? [] : [sound]), ...(lowest === null ? [] : [lowest]), ...pool, now].reduce(lower);
      return { ...best, tries: spent };
    }
  }
};
