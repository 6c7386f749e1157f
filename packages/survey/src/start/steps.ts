import { once, randomFrom } from '@fayplate/core';
import { asLow } from '../adjust/adjustment.js';
import { systemOf } from '../adjust/system.js';
import { type Network, carried, loosenedNetwork } from '../network/network.js';
import { begin } from './beginnings.js';
import { jointReflectionsOf } from './partial-reflections.js';
import { reflectPart } from './reflect-part.js';
import { judgementOf } from './judgement.js';
import { perturbTowardClocks, perturbThroughSpace } from './perturb.js';
import { farClocks } from './misfit.js';
import { relaxedDimensionOf } from './relaxed-dimension.js';
import { amongRivals, quick, reseat, thorough } from './reseat.js';
import { sketchOf } from './sketch.js';
import { restIsSound } from './sound.js';
import { type Basin, equallyLow, joined, mostHopeful } from './basin.js';
import { type Truncated, truncated } from './truncated.js';

/** What the search may take, in perturbations: at first, for each feature more, and at most. */
const EFFORT = { first: 40, feature: 60, most: 2400 } as const;
/** What mending one arrangement takes, in perturbations. */
const MENDING = 20;
/**
 * After so many moves without gain an arrangement is mended, may count as the end where beginnings met, and is given
 * up.
 */
const PATIENCE = { mend: 6, met: 30, most: 60 } as const;
/**
 * The share of moves that reflect a part: they cost less than perturbations through space and lead farther where few
 * readings check each other.
 */
const REFLECTIONS = 0.75;
/** A move has gained something where it leaves less than this share of χ². */
const GAIN = 0.98;
/**
 * Where all but a few readings fit, whether those were misread or the arrangement is folded shows in the number of
 * beginnings made: so many for each feature, and at least.
 */
const MISREAD = { feature: 0.2, least: 3 } as const;
/**
 * Nothing lies lower than where so many beginnings met, from more ways than one: so many for each feature, and at
 * least.
 */
const MET = { feature: 0.25, least: 5, ways: 2 } as const;
/** Something better than a doubtful arrangement is looked for as long again as that one took. */
const AS_LONG_AGAIN = 2;
/**
 * Where slips keep any arrangement from fitting, so many beginnings are enough: the robust start takes it from there.
 */
const SLIPS = { beginnings: 3 } as const;
const SEED = 20_261;

/** How far a search has come. */
export interface State {
  /** Beginnings made, what they took and what all took, in perturbations. */
  readonly beginnings: number;
  readonly spentOnBeginnings: number;
  readonly spent: number;
  /** Arrangements that are worked on. */
  readonly pool: readonly Basin[];
  /** The lowest of those given up. */
  readonly lowest: Basin | null;
  /** Of beginnings that all but a few readings fit, the one that most fit. */
  readonly despite: Truncated | null;
  /** Sound arrangements before and after they were polished. */
  readonly polishings: readonly Basin[];
  /** The likeliest sound arrangement, and what must be made and spent before it is taken. */
  readonly sound: Basin | null;
  readonly asked: { readonly beginnings: number; readonly spent: number };
}

export const START: State = {
  beginnings: 0,
  spentOnBeginnings: 0,
  spent: 0,
  pool: [],
  lowest: null,
  despite: null,
  polishings: [],
  sound: null,
  asked: { beginnings: 0, spent: 0 },
};

/** An arrangement worked on, and the state after it. */
interface Worked {
  readonly state: State;
  readonly now: Basin;
}

const without = (pool: readonly Basin[], s: Basin): readonly Basin[] => pool.filter((p) => p !== s);

/** What the search does, step by step, for one network. */
export const stepsOf = (network: Network, progress?: (done: number, of: number) => void) => {
  const equations = systemOf(network);
  const sketch = sketchOf(network);
  const space = once(() => relaxedDimensionOf(sketch));
  const reflections = once(() => jointReflectionsOf(sketch));
  const random = randomFrom(SEED);
  const checked = network.observations.length - network.unknowns.count > sketch.slots.length;
  const { preferred, lower, likelier, isSound, isSoundButForFew, patience, asks } = judgementOf(network);
  const most = Math.min(EFFORT.most, EFFORT.first + EFFORT.feature * sketch.slots.length);
  const { meter } = equations;
  const begunAt = meter.spent;
  /** The share of what it may take that the search has taken, in perturbations or in products, whichever is more. */
  const share = ({ spent }: State): number =>
    Math.min(1, Math.max(spent / most, (meter.spent - begunAt) / (meter.limit - begunAt)));
  const standing = (s: Omit<Basin, 'far'>): Basin => ({ ...s, far: farClocks(network, s.x) });
  const after = (state: State, cost: number): State => ({ ...state, spent: state.spent + cost });

  /** Moves of a part, or of all, with what each takes, in perturbations. */
  const moves = {
    perturb: { cost: 1, of: (x: Float64Array) => perturbThroughSpace(space(), equations, x, random) },
    toward: { cost: 1, of: (x: Float64Array) => perturbTowardClocks(space(), equations, x, random) },
    reflect: { cost: 0.4, of: (x: Float64Array) => reflectPart(sketch, equations, x, random) },
  } as const;

  const begun = (state: State): Worked => {
    const { x, chi2, from, cost } = begin(sketch, space, equations, state.beginnings, random);
    return {
      state: {
        ...after(state, cost),
        beginnings: state.beginnings + 1,
        spentOnBeginnings: state.spentOnBeginnings + cost,
      },
      now: standing({ x, chi2, from, idle: 0, mended: false, met: [from] }),
    };
  };

  /** One part reflected or moved through space, then the features most strained tried in their other places. */
  const moved = (
    state: State,
    s: Basin,
    by: keyof typeof moves = random.uniform() < REFLECTIONS ? 'reflect' : 'perturb',
  ): Worked => {
    const idle: Basin = { ...s, idle: s.idle + 1 };
    const next = moves[by].of(s.x);
    const first = after(state, moves[by].cost);
    if (equallyLow(s, next) || next.chi2 > 4 * s.chi2) return { state: first, now: idle };
    const end = reseat(sketch, equations, reflections(), next, preferred, quick);
    const second = after(first, 1);
    if (asLow(s.chi2, end.chi2)) return { state: second, now: idle };
    const gained = end.chi2 < GAIN * s.chi2;
    const now = standing({ ...end, from: s.from, idle: gained ? 0 : s.idle + 1, mended: false, met: [s.from] });
    return { state: second, now };
  };

  /** Every feature tried in its other places. */
  const mended = (state: State, s: Basin): Worked => {
    const end = reseat(sketch, equations, reflections(), s, preferred, thorough);
    const now = standing({ ...s, ...end, idle: end.chi2 < GAIN * s.chi2 ? 0 : s.idle, mended: true });
    return { state: after(state, MENDING), now };
  };

  /** The likeliest of those that single moves lead to. */
  const settled = (state: State, s: Basin): Worked => ({
    state: after(state, MENDING),
    now: standing({ ...s, ...amongRivals(sketch, equations, reflections(), s, preferred, likelier), mended: true }),
  });

  /** A sound arrangement moved until nothing likelier has been found for a while. */
  const polished = (from: State, s: Basin): Worked => {
    let { state, now } = settled(from, s);
    const turns = patience(now);
    for (let idle = 0; idle < turns && share(state) < 1; idle++) {
      progress?.(share(state), 1);
      const next = idle % 2 === 1 && now.far > 0 ? moved(state, now, 'toward') : moved(state, now);
      ({ state } = next);
      if (asLow(now.chi2, next.now.chi2) || likelier(now, next.now) === now) continue;
      ({ state, now } = settled(state, next.now));
      idle = -1;
    }
    return { state, now };
  };

  /** The next piece of work: a beginning, or the most hopeful arrangement so far moved or mended. */
  const worked = (state: State): Worked & { readonly anew: boolean } => {
    const next =
      state.despite !== null || 2 * state.spentOnBeginnings <= state.spent ? undefined : mostHopeful(state.pool);
    if (next === undefined) return { ...begun(state), anew: true };
    const rest = { ...state, pool: without(state.pool, next) };
    return {
      ...(next.idle >= PATIENCE.mend && !next.mended ? mended(rest, next) : moved(rest, next)),
      anew: false,
    };
  };

  /**
   * All but a few readings fit once a diameter given as exact may be wrong; null where none is, or it does not help.
   */
  const despiteExact = (now: Basin): Truncated | null => {
    const loose = loosenedNetwork(network);
    if (loose === null) return null;
    const few = truncated(systemOf(loose), carried(now.x, network, loose));
    return restIsSound(systemOf(loose), few) ? { ...few, x: carried(few.x, loose, network) } : null;
  };

  /** A beginning that is not sound, looked at for a few readings that alone do not fit. */
  const despiteFew = (state: State, now: Basin): State => {
    if (state.sound !== null || isSound(now)) return state;
    const few = truncated(equations, now.x);
    const found = restIsSound(equations, few) ? few : despiteExact(now);
    return found !== null && (state.despite === null || found.cost < state.despite.cost)
      ? { ...state, despite: found }
      : state;
  };
  const isDespiteEnough = ({ sound, despite, beginnings }: State, now: Basin): boolean =>
    sound === null && !isSound(now) && despite !== null && beginnings >= (checked ? 1 : SLIPS.beginnings);

  /** A sound arrangement polished, and kept where it is the likeliest so far. */
  const soundened = (from: State, s: Basin): Worked => {
    const { state, now } = polished(from, s);
    const polishings = [...state.polishings, s, now];
    if (state.sound !== null && likelier(state.sound, now) === state.sound)
      return { state: { ...state, polishings }, now };
    const { beginnings, longer } = asks(now);
    const asked = { beginnings, spent: longer ? AS_LONG_AGAIN * state.spent : 0 };
    return { state: { ...state, polishings, sound: now, asked }, now };
  };

  /** The arrangement put back: joined with its like, and given up where nothing has come of it for long. */
  const putBack = (state: State, now: Basin): State => {
    const twin = state.pool.find((s) => equallyLow(s, now));
    const one = twin === undefined ? now : joined(twin, now, lower);
    const pool = twin === undefined ? state.pool : without(state.pool, twin);
    const { lowest } = state;
    if (lowest !== null && equallyLow(lowest, one)) return { ...state, pool, lowest: joined(lowest, one, lower) };
    if (one.idle < PATIENCE.most) return { ...state, pool: [...pool, one] };
    return { ...state, pool, lowest: lowest === null ? one : lower(lowest, one) };
  };

  const bestOf = ({ lowest, pool }: State): Basin | null =>
    [...(lowest === null ? [] : [lowest]), ...pool].reduce<Basin | null>(
      (a, b) => (a === null ? b : lower(a, b)),
      null,
    );

  /** Beginnings keep ending at one arrangement, though sound readings could not have given it. */
  const isAsLowAsAny = (state: State, best: Basin): boolean => {
    const met =
      best.met.length >= Math.max(MET.least, MET.feature * sketch.slots.length) &&
      new Set(best.met).size >= MET.ways &&
      best.mended &&
      best.idle >= PATIENCE.met;
    const misread =
      state.beginnings >= Math.max(MISREAD.least, MISREAD.feature * sketch.slots.length) &&
      best.idle >= PATIENCE.most &&
      isSoundButForFew(best);
    return met || misread;
  };

  return { sketch, share, isSound, worked, despiteFew, isDespiteEnough, soundened, putBack, bestOf, isAsLowAsAny };
};
