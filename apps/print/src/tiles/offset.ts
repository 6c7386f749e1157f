/** One direction of the grid: where its joins fall and how far the nearest hole centre is from one. */
export interface Cut {
  /** Where the first window starts. */
  readonly start: number;
  readonly joins: readonly number[];
  /** mm; infinite where there is no join or no hole. */
  readonly clearance: number;
}

export interface Span {
  /** What must be covered. */
  readonly from: number;
  readonly to: number;
  /** Length of one window and of what two neighbours share. */
  readonly window: number;
  readonly overlap: number;
}

/** Fewest windows that cover the span. */
export const countFor = ({ from, to, window, overlap }: Span): number =>
  to - from <= window ? 1 : Math.ceil((to - from - overlap) / (window - overlap) - 1e-9);

const joinsFrom = (start: number, count: number, { window, overlap }: Span): readonly number[] =>
  Array.from({ length: count - 1 }, (_, k) => start + (k + 1) * (window - overlap) + overlap / 2);

const clearanceOf = (joins: readonly number[], sorted: readonly number[]): number => {
  let least = Infinity;
  for (const join of joins) {
    let lo = 0;
    let hi = sorted.length;
    while (lo < hi) {
      const mid = (lo + hi) >> 1;
      if ((sorted[mid] ?? Infinity) < join) lo = mid + 1;
      else hi = mid;
    }
    least = Math.min(least, join - (sorted[lo - 1] ?? -Infinity), (sorted[lo] ?? Infinity) - join);
  }
  return least;
};

/**
 * The offset of a grid of `count` windows over the span that keeps joins farthest from the places (hole centres). All joins move
 * together, so seen from the grid the places fall into one pitch; between neighbours there the middle is best, and so are
 * the two ends of the play: one of these is the answer. Where all are equal the drawing stands in the middle.
 */
export const bestOffset = (span: Span, count: number, places: readonly number[]): Cut => {
  const pitch = span.window - span.overlap;
  const covered = (count - 1) * pitch + span.window;
  const lowest = span.to - covered;
  const middle = (span.from + lowest) / 2;
  const at = (start: number): Cut => {
    const joins = joinsFrom(start, count, span);
    return { start, joins, clearance: clearanceOf(joins, sorted) };
  };
  const sorted = [...places].sort((a, b) => a - b);
  if (count === 1) return { ...at(middle), clearance: Infinity };
  const phase = (x: number): number => (((x - span.overlap / 2 - lowest) % pitch) + pitch) % pitch;
  const phases = [...new Set(places.map(phase))].sort((a, b) => a - b);
  const between = phases.map((p, i) => {
    const next = phases[i + 1] ?? (phases[0] ?? 0) + pitch;
    return lowest + (((p + next) / 2) % pitch);
  });
  const starts = [middle, lowest, span.from, ...between].filter((s) => s >= lowest - 1e-9 && s <= span.from + 1e-9);
  // Joins farther than this from every centre are as good as can be: then the middle is chosen.
  const enough = 12;
  const score = (c: Cut): number => Math.min(c.clearance, enough);
  return starts.map(at).reduce((best, c) => (score(c) > score(best) + 1e-9 ? c : best));
};
