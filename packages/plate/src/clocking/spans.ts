import type { AngleSpan } from '../types.js';

/** Spans in order, those that touch made one. */
export const joinSpans = (spans: readonly AngleSpan[]): readonly AngleSpan[] => {
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
export const inRange = (angle: number, range: AngleSpan): readonly number[] => {
  const turn = 2 * Math.PI;
  const first = angle + turn * Math.ceil((range.from - angle) / turn - 1e-12);
  const out: number[] = [];
  for (let a = first; a <= range.to + 1e-12; a += turn) out.push(a);
  return out;
};
