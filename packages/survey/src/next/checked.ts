import {
  ENOUGH_READ,
  type Face,
  type Reading,
  type ReadingKind,
  alikePlusMinus,
  isDistance,
  readingGrammar,
} from '@fayplate/job';
import type { Survey } from '../types.js';
import { canBeRead, toolsOf } from './candidates.js';
import { type PlanOptions, planReadings } from './plan.js';
import { type Sum, learn, prospectOf, together } from './prospect.js';

/** A reading to take, in the reading language without its value, and what to take it with. */
export interface PlannedReading {
  readonly reading: string;
  /** Null where the job names no instrument for it. */
  readonly instrument: string | null;
  /** It is in the plan already, and is to be taken once more, set afresh. */
  readonly again?: true;
}

/** Readings to take, in two parts with a stop after each. */
export interface CheckedPlan {
  /** Fix every feature: enough to draw the part. A misreading would not show. */
  readonly draw: readonly PlannedReading[];
  /** Show a misreading, and which reading it is: with these, enough to cut metal. */
  readonly cut: readonly PlannedReading[];
}

/** Of an error in any reading this share is to show in its own residual at least (redundancy number: Baarda 1968). */
const SHOWS = 0.1;
const SILENT = 1e-5;
/** Tests of two readings that correlate more closely are hard to tell apart (separability: Förstner 1983). */
const APART = 0.9;
/**
 * One more reading must improve the plan by this much, in slips that do not show or pairs that cannot be told apart.
 */
const WORTH = 0.25;
/** Readings beyond the fewest, at most so many for each feature. */
const MOST = 2;
/**
 * On larger faces only whether every misreading shows is planned: pairs to tell apart grow with the square of the
 * readings.
 */
const PAIRED = 14;

/**
 * Jaws touch rims: a reading over, between or past them says nothing before the diameters are read, so each diameter
 * stands before its first use.
 */
const diametersFirst = (readings: readonly string[], stated: ReadonlySet<string>): readonly string[] => {
  const inTurn = readings.flatMap((r) => {
    const [kind, ...features] = r.split(' ');
    if (kind === undefined || !isDistance(kind)) return [r];
    const sized = readingGrammar(kind).radius.map((i) => features[i] ?? '');
    return [...sized.filter((f) => !stated.has(f)).map((f) => `dia ${f}`), r];
  });
  return [...new Set(inTurn)];
};

/** Features of one size whose diameters need not be read: those beyond the first few of their group. */
const sizedByOthers = ({ alike = [], features }: Face): ReadonlySet<string> => {
  const unknown = features.filter((f) => alike.includes(f.id) && f.diameter === null).map((f) => f.id);
  return new Set(unknown.length === alike.length ? unknown.slice(ENOUGH_READ) : unknown);
};

/** The diameter of such a feature, mm, for a plan: any value does, its ± is what counts. */
const asAlike = (plusMinus: number): { readonly value: number; readonly plusMinus: number } => ({
  value: 10,
  plusMinus: alikePlusMinus(Array.from({ length: ENOUGH_READ }, () => plusMinus)),
});

/** A reading as planned, without a value. */
const plannedAs = (text: string, survey: Survey): Reading => {
  const [kind = 'dia', ...features] = text.split(' ');
  const use = readingGrammar(kind as ReadingKind).use;
  const tool = use === null ? undefined : toolsOf(survey.face, survey.instruments).get(use);
  return {
    id: `planned ${text}`,
    text,
    kind: kind as ReadingKind,
    features,
    value: 0,
    point: kind === 'at' ? { x: 0, y: 0 } : null,
    plusMinus: tool?.plusMinus ?? 0.1,
    instrument: tool?.name ?? null,
    aside: false,
    note: null,
    unit: null,
    place: { line: 0, column: 0 },
  };
};

interface Row {
  readonly of: Sum;
  readonly variance: number;
}

/** One reading more beside those that are there: covariance with each of them, and the variance of its prediction. */
interface Beside {
  readonly shared: Float64Array;
  readonly s: number;
  readonly variance: number;
}

/**
 * How badly a set of readings checks itself: those that hardly show, and pairs that can hardly be told apart. `v` is
 * the covariance of the residuals; with one reading more each entry grows by shared shared / s, which is not written
 * out: this is asked of every reading that could be taken.
 */
const badness = (
  v: readonly Float64Array[],
  variances: readonly number[],
  paired: boolean,
  more: Beside | null = null,
): number => {
  const n = v.length;
  const count = more === null ? n : n + 1;
  let sum = 0;
  // One over the root of each residual's variance; 0: it does not show at all, and cannot be told from anything.
  const inverse = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const variance = i < n ? (variances[i] ?? 1) : (more?.variance ?? 1);
    const grown = more === null ? 0 : i < n ? (more.shared[i] as number) ** 2 / more.s : variance ** 2 / more.s;
    const own = (i < n ? (v[i]?.[i] as number) : 0) + grown;
    const shows = own / variance;
    if (shows < SHOWS) sum += Math.min(Math.log(SHOWS / Math.max(shows, 1e-6)), 3);
    inverse[i] = shows < SILENT ? 0 : 1 / Math.sqrt(own);
  }
  if (!paired) return sum;
  const pair = (covariance: number, i: number, j: number): void => {
    const both = (inverse[i] as number) * (inverse[j] as number);
    const correlation = both === 0 ? 1 : Math.abs(covariance) * both;
    if (correlation > APART) sum += Math.min((correlation - APART) / (1 - APART), 1);
  };
  for (let i = 0; i < n; i++) {
    const row = v[i] as Float64Array;
    const k = more === null ? 0 : (more.shared[i] as number) / more.s;
    for (let j = 0; j < i; j++) pair((row[j] as number) + (more === null ? 0 : k * (more.shared[j] as number)), i, j);
    if (more !== null) pair(-k * more.variance, n, i);
  }
  return sum;
};

/** Covariance of the residuals: Σ − A Q Aᵀ. */
const residualsOf = (c: readonly Float64Array[], rows: readonly Row[]): Float64Array[] =>
  rows.map((a, i) => Float64Array.from(rows, (b, j) => (i === j ? a.variance : 0) - together(c, a.of, b.of)));

/** A reading that can be taken, and its row. */
interface Ready {
  readonly plan: PlannedReading;
  readonly one: Row;
  readonly handy: number;
}

const besides = (c: readonly Float64Array[], rows: readonly Row[], one: Row): Beside => ({
  shared: Float64Array.from(rows, (a) => together(c, a.of, one.of)),
  s: one.variance + together(c, one.of, one.of),
  variance: one.variance,
});

/** The same with one reading more, the last row and column. */
const withOne = (v: readonly Float64Array[], { shared, s, variance }: Beside): Float64Array[] => {
  const last = Float64Array.from([...shared.map((q) => (-q * variance) / s), variance ** 2 / s]);
  return [
    ...v.map((row, i) =>
      Float64Array.from([
        ...row.map((x, j) => x + ((shared[i] as number) * (shared[j] as number)) / s),
        last[i] as number,
      ]),
    ),
    last,
  ];
};

/**
 * Which readings to take of a face, and in which order: first those that fix every feature, as `planReadings` has them,
 * each diameter before its first use; then, one after another, the reading that best makes every misreading show and
 * tells it from every other; where no other is left that does, one that is taken twice. Nothing in `cut` where no
 * instrument of the job would help. Empty where `planReadings` is.
 */
export const planChecked = ({ face, instruments }: Survey, options: Omit<PlanOptions, 'spare'> = {}): CheckedPlan => {
  const others = sizedByOthers(face);
  const jaws = toolsOf(face, instruments).get('jaws')?.plusMinus ?? 0.1;
  const sized = face.features.map((f) => (others.has(f.id) ? { ...f, diameter: asAlike(jaws) } : f));
  const survey: Survey = { face: { ...face, features: sized }, instruments };
  const stated = new Set(face.features.flatMap((f) => (f.diameter === null && !others.has(f.id) ? [] : [f.id])));
  const draw = diametersFirst(
    planReadings(survey, options).map((r) => r.reading),
    stated,
  );
  const features = face.features.filter(canBeRead).length;
  if (draw.length === 0) return { draw: [], cut: [] };
  const planned = draw.map((text) => plannedAs(text, survey));
  const { c, open, taken } = prospectOf(
    { face: { ...survey.face, readings: [...face.readings, ...planned] }, instruments },
    options.places ?? new Map(),
    options.without ?? [],
    options.leaving ?? [],
    true,
  );
  const rows: Row[] = [...taken];
  let v = residualsOf(c, rows);
  const paired = features <= PAIRED;
  let spreads: readonly number[] = rows.map((r) => r.variance);
  let now = badness(v, spreads, paired);
  const taking: Ready[] = [];
  /** Takes, one after another, of these readings what mends most. */
  const takeOf = (some: Ready[]): void => {
    while (now > 0 && taking.length < MOST * features) {
      let best: { readonly i: number; readonly left: number; readonly beside: Beside } | null = null;
      for (const [i, { one, handy }] of some.entries()) {
        const beside = besides(c, rows, one);
        const left = badness(v, spreads, paired, beside) + 1e-3 * handy;
        if (best === null || left < best.left) best = { i, left, beside };
      }
      if (best === null || best.left > now - WORTH) break;
      const [chosen] = some.splice(best.i, 1);
      if (chosen === undefined) break;
      learn(c, chosen.one.of, chosen.one.variance);
      rows.push(chosen.one);
      v = withOne(v, best.beside);
      spreads = [...spreads, chosen.one.variance];
      now = badness(v, spreads, paired);
      taking.push(chosen);
    }
  };
  const ready = open.flatMap(({ reading, rows: own, handy }): readonly Ready[] => {
    const [one] = own;
    const plan = { reading: reading.text, instrument: reading.instrument };
    return one === undefined || own.length > 1 ? [] : [{ plan, one, handy }];
  });
  takeOf(ready);
  // Where no other distance tells two readings apart, one of them read twice does.
  const before = taken.flatMap(({ reading, ...one }): readonly Ready[] =>
    reading === null || reading.point !== null
      ? []
      : [{ plan: { reading: reading.text, instrument: reading.instrument }, one, handy: 0 }],
  );
  takeOf([...before, ...taking].map(({ plan, one }) => ({ plan: { ...plan, again: true }, one, handy: 0 })));
  return {
    draw: planned.map(({ text, instrument }) => ({ reading: text, instrument })),
    cut: taking.map((r) => r.plan),
  };
};
