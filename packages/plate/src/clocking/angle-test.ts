import type { AngleSpan, CheckId } from '../types.js';

/** Something that has to hold and that turning the second face changes. */
export interface AngleTest {
  /** The check that it stands for. */
  readonly id: CheckId;
  readonly of: readonly string[];
  /** mm to spare at a clocking, radians clockwise; below zero it fails. */
  readonly margin: (clocking: number) => number;
  /**
   * Every angle where the margin may pass through zero, in closed form and up to whole turns; null where there is no
   * closed form.
   */
  readonly turns: readonly number[] | null;
  /** Limit of a web, so that the web itself is margin + limit, mm; null for other tests. */
  readonly web: number | null;
  /** The margin changes by no more than this for each radian, mm. */
  readonly rate: number;
}

/** Narrowest stretch that is still halved, radians: a tenth of the promised 0.001°. */
const NARROW = 1.7e-6;
/** Stretches looked at before the rest are settled by their middles. */
const MOST = 40_000;

/** Between two critical angles the sign cannot change, so the middle tells for the whole stretch. */
const byCriticals = (test: AngleTest, criticals: readonly number[], range: AngleSpan): readonly AngleSpan[] => {
  const cuts = [range.from, ...criticals.flatMap((c) => inRange(c, range)).toSorted((a, b) => a - b), range.to];
  return cuts.slice(1).flatMap((to, i) => {
    const from = cuts[i] ?? range.from;
    return to - from > 1e-13 && test.margin((from + to) / 2) >= 0 ? [{ from, to }] : [];
  });
};

/**
 * Halves every stretch whose middle could still change sign at the test's greatest rate: no root can be stepped over.
 */
const byHalving = (test: AngleTest, range: AngleSpan): readonly AngleSpan[] => {
  const out: AngleSpan[] = [];
  const open: AngleSpan[] = [range];
  for (let looked = 0; open.length > 0; looked++) {
    const span = open.pop();
    if (span === undefined) break;
    const half = (span.to - span.from) / 2;
    const middle = span.from + half;
    const margin = test.margin(middle);
    if (Math.abs(margin) > test.rate * half || half < NARROW || looked > MOST) {
      if (margin >= 0) out.push(span);
    } else open.push({ from: middle, to: span.to }, { from: span.from, to: middle });
  }
  return out;
};

/** Where a test holds, within the range. */
export const spansOf = (test: AngleTest, range: AngleSpan): readonly AngleSpan[] =>
  joinSpans(test.turns === null ? byHalving(test, range) : byCriticals(test, test.turns, range));

/** Spans in order, those that touch made one. */
const joinSpans = (spans: readonly AngleSpan[]): readonly AngleSpan[] => {
  const out: AngleSpan[] = [];
  for (const s of spans.toSorted((a, b) => a.from - b.from)) {
    const last = out.at(-1);
    if (last !== undefined && s.from <= last.to + 1e-12)
      out[out.length - 1] = { from: last.from, to: Math.max(last.to, s.to) };
    else out.push(s);
  }
  return out;
};

export const commonSpans = (a: readonly AngleSpan[], b: readonly AngleSpan[]): readonly AngleSpan[] =>
  joinSpans(
    a.flatMap((s) =>
      b.map((t) => ({ from: Math.max(s.from, t.from), to: Math.min(s.to, t.to) })).filter((c) => c.to > c.from),
    ),
  );

/** The angle itself and the same a whole turn either way, as far as they lie in the range. */
const inRange = (angle: number, range: AngleSpan): readonly number[] => {
  const turn = 2 * Math.PI;
  const first = angle + turn * Math.ceil((range.from - angle) / turn - 1e-12);
  const out: number[] = [];
  for (let a = first; a <= range.to + 1e-12; a += turn) out.push(a);
  return out;
};
