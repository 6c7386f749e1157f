import { once, randomFrom } from '@fayplate/core';
import { asLow } from '../adjust/as-low.js';
import { type Equations, systemOf } from '../adjust/system.js';
import type { Network } from '../network/network.js';
import { begin } from './beginnings.js';
import { foldsOf } from './flaps.js';
import { flip } from './flip.js';
import { arrangementsBeside } from './held.js';
import { judgementOf } from './judgement.js';
import { leant, lift } from './lift.js';
import { farClocks } from './misfit.js';
import { pressOf } from './press.js';
import { amongRivals, quick, reseat, thorough } from './reseat.js';
import { sketchOf } from './sketch.js';
import type { Slid } from './slide.js';
import { restIsSound } from './sound.js';
import { type Truncated, truncated } from './truncated.js';
import { type Standing, equallyLow, joined, mostHopeful } from './standing.js';

export interface Found extends Slid {
  readonly from: string;
  /** What the search took, in lifts. */
  readonly tries: number;
  /** All arrangements that the readings leave, this one among them; null where they cannot be counted. */
  readonly beside: readonly Float64Array[] | null;
  /** All but a few readings fit, and nothing was looked for that all would fit. */
  readonly despite: boolean;
}

/** What the search may take, in lifts: at first and for each feature more, at most, and in products in factors of the normal equations (some twelve seconds’ worth, where nothing fits). */
const EFFORT = { least: 10, first: 40, feature: 60, most: 2400, cost: 14e9 } as const;
/** Turns of sliding in a lift: pressed from space, and in the plane. */
const TURNS = { space: 60, plane: 150 } as const;
/** What mending one arrangement takes, in lifts. */
const MENDING = 20;
/** After so many moves without gain an arrangement is mended, may count as the end where beginnings met, and is given up. */
const PATIENCE = { mend: 6, met: 30, most: 60 } as const;
/** The share of moves that turn a part over: they cost less than lifts and lead farther where few readings check each other. */
const FLIPS = 0.75;
/** A lift has gained something where it leaves less than this share of χ². */
const GAIN = 0.98;
/** Where all but a few readings fit, whether those were misread or the arrangement is folded shows in the number of beginnings made: so many for each feature, and at least. */
const MISREAD = { feature: 0.2, least: 3 } as const;
/** Nothing lies lower than where so many beginnings met, from more ways than one: so many for each feature, and at least. */
const MET = { feature: 0.25, least: 5, ways: 2 } as const;
/** Something better than a doubtful arrangement is looked for as long again as that one took. */
const AS_LONG_AGAIN = 2;
/** Where slips keep any arrangement from fitting, so many beginnings are enough: the robust start takes it from there. */
const SLIPS = { beginnings: 3 } as const;
const SEED = 20_261;

/** Products in one factor, the reckoning of the equations themselves counted in. */
const factorCost = ({ pattern, observations }: Equations): number => {
  let sum = 200 * observations.length;
  for (let j = 0; j < pattern.size; j++)
    sum += ((pattern.starts[j + 1] as number) - (pattern.starts[j] as number)) ** 2;
  return sum;
};

/**
 * The arrangement with the least χ² that a bounded search finds. Beginnings are made one after another; between them parts of the most
 * hopeful so far are turned over in the plane, or lifted out of it and pressed flat again, and single features are moved. The search ends
 * with an arrangement that sound readings could have given, after a last look for a lower one unless they leave no other, or where
 * beginnings keep ending at one that they could not have given. The seed is fixed: the same face gives the same bytes.
 */
export const search = (network: Network, progress?: (done: number, of: number) => void): Found => {
  const equations = systemOf(network);
  const sketch = sketchOf(network);
  const pressing = once(() => pressOf(sketch));
  const folds = once(() => foldsOf(sketch));
  const random = randomFrom(SEED);
  const checked = network.observations.length - network.unknowns.count > sketch.slots.length;
  const { preferred, lower, likelier, isSound, isSoundButForFew, patience, asks } = judgementOf(network);
  const most = once(() => {
    const cost = TURNS.space * factorCost(pressing().equations) + TURNS.plane * factorCost(equations);
    return Math.min(
      EFFORT.most,
      EFFORT.first + EFFORT.feature * sketch.slots.length,
      Math.max(EFFORT.least, EFFORT.cost / cost),
    );
  });
  let spent = 0;

  const standing = (s: Omit<Standing, 'far'>): Standing => ({ ...s, far: farClocks(network, s.x) });
  /** Moves of a part, or of all, with what each takes, in lifts. */
  const moves = {
    lift: { cost: 1, of: (x: Float64Array) => lift(pressing(), equations, x, random) },
    lean: { cost: 1, of: (x: Float64Array) => leant(pressing(), equations, x, random) },
    flip: { cost: 0.4, of: (x: Float64Array) => flip(sketch, equations, x, random) },
  } as const;
  const moved = (s: Standing, by: keyof typeof moves = random.uniform() < FLIPS ? 'flip' : 'lift'): Standing => {
    spent += moves[by].cost;
    const next = moves[by].of(s.x);
    if (equallyLow(s, next) || next.chi2 > 4 * s.chi2) return { ...s, idle: s.idle + 1 };
    const end = reseat(sketch, equations, folds(), next, preferred, quick);
    spent++;
    if (asLow(s.chi2, end.chi2)) return { ...s, idle: s.idle + 1 };
    return standing({
      ...end,
      from: s.from,
      idle: end.chi2 < GAIN * s.chi2 ? 0 : s.idle + 1,
      mended: false,
      met: [s.from],
    });
  };
  const mended = (s: Standing): Standing => {
    spent += MENDING;
    const end = reseat(sketch, equations, folds(), s, preferred, thorough);
    return standing({ ...s, ...end, idle: end.chi2 < GAIN * s.chi2 ? 0 : s.idle, mended: true });
  };
  const settled = (s: Standing): Standing => {
    spent += MENDING;
    return standing({ ...s, ...amongRivals(sketch, equations, folds(), s, preferred, likelier), mended: true });
  };
  const polished = (s: Standing): Standing => {
    let now = settled(s);
    const turns = patience(now);
    for (let idle = 0; idle < turns && spent < most(); idle++) {
      progress?.(Math.min(spent, most() - 1), most());
      const next = idle % 2 === 1 && now.far > 0 ? moved(now, 'lean') : moved(now);
      if (asLow(now.chi2, next.chi2) || likelier(now, next) === now) continue;
      now = settled(next);
      idle = -1;
    }
    return now;
  };

  let beginnings = 0;
  let spentOnBeginnings = 0;
  const begun = (): Standing => {
    const { x, chi2, from, cost } = begin(sketch, pressing, equations, beginnings++, random);
    spent += cost;
    spentOnBeginnings += cost;
    return standing({ x, chi2, from, idle: 0, mended: false, met: [from] });
  };
  let pool: readonly Standing[] = [];
  const without = (s: Standing): readonly Standing[] => pool.filter((p) => p !== s);
  /** Sound arrangements before and after they were polished. */
  let polishings: readonly Standing[] = [];
  let sound: Standing | null = null;
  /** What must be made and spent before that is taken. */
  let asked = { beginnings: 0, spent: 0 };
  /** Of those given up. */
  let lowest: Standing | null = null;
  /** Of beginnings that all but a few readings fit, the one that most fit. */
  let despite: Truncated | null = null;
  for (;;) {
    const next = despite !== null || 2 * spentOnBeginnings <= spent ? undefined : mostHopeful(pool);
    if (next !== undefined) pool = without(next);
    let now = next === undefined ? begun() : next.idle >= PATIENCE.mend && !next.mended ? mended(next) : moved(next);
    if (next === undefined && sound === null && !isSound(now)) {
      const most = truncated(equations, now.x);
      if (restIsSound(equations, most) && (despite === null || most.cost < despite.cost)) despite = most;
      if (despite !== null && beginnings >= (checked ? 1 : SLIPS.beginnings))
        return { x: despite.x, chi2: despite.chi2, from: now.from, tries: spent, beside: null, despite: true };
    }
    if (isSound(now) && !polishings.some((s) => equallyLow(s, now))) {
      const beside = arrangementsBeside(sketch, now.x);
      if (beside !== null) return { ...now, tries: spent, beside, despite: false };
      const end = polished(now);
      polishings = [...polishings, now, end];
      if (sound === null || likelier(sound, end) !== sound) {
        const { beginnings: made, longer } = asks(end);
        [sound, asked] = [end, { beginnings: made, spent: longer ? AS_LONG_AGAIN * spent : 0 }];
      }
      now = end;
    }
    if (sound !== null && beginnings >= asked.beginnings && spent >= asked.spent)
      return { ...sound, tries: spent, beside: null, despite: false };
    const twin = pool.find((s) => equallyLow(s, now));
    const one = twin === undefined ? now : joined(twin, now, lower);
    if (twin !== undefined) pool = without(twin);
    if (lowest !== null && equallyLow(lowest, one)) lowest = joined(lowest, one, lower);
    else if (one.idle < PATIENCE.most) pool = [...pool, one];
    else lowest = lowest === null ? one : lower(lowest, one);
    const best = [...(lowest === null ? [] : [lowest]), ...pool].reduce<Standing | null>(
      (a, b) => (a === null ? b : lower(a, b)),
      null,
    );
    if (sound === null && best !== null) {
      const met =
        best.met.length >= Math.max(MET.least, MET.feature * sketch.slots.length) &&
        new Set(best.met).size >= MET.ways &&
        best.mended &&
        best.idle >= PATIENCE.met;
      const misread =
        beginnings >= Math.max(MISREAD.least, MISREAD.feature * sketch.slots.length) &&
        best.idle >= PATIENCE.most &&
        isSoundButForFew(best);
      if (met || misread) return { ...best, tries: spent, beside: null, despite: false };
    }
    if (spent >= most()) return { ...(sound ?? best ?? now), tries: spent, beside: null, despite: false };
    progress?.(spent, most());
  }
};
