import { type Point, distance, wrapAngle } from '@fayplate/core';
import type { Clocks, Ring } from './rings.js';

const HOUR = Math.PI / 6;
/** Clocks are said to the nearest half hour: right to 7.5°, and a little for the steps in which turns are tried. */
const RIGHT = 0.136;
/** Turns tried of the whole ring: every half degree. */
const TURNS = 720;
/** Arrangements that are one lie nearer than this, radians; readings that agree, mm. */
const [SAME, AGREES] = [1e-3, 0.2] as const;

/** How likely a clock is to be off by so much, radians, as `drawn` draws them. */
const densityOf = (clocks: Clocks, off: number): number => {
  const at = (hours: number): number => (Math.abs(wrapAngle(off - hours * HOUR)) <= RIGHT ? 1 / (2 * RIGHT) : 0);
  return clocks === 'slips' ? 0.8 * at(0) + 0.1 * (at(1) + at(-1)) : at(0);
};

const headingsOf = (points: readonly Point[]): readonly number[] => points.map((p) => Math.atan2(p.y, p.x));

const isSame = (a: readonly number[], b: readonly number[]): boolean =>
  a.every((h, i) => Math.abs(wrapAngle(h - (a[0] ?? 0) - (b[i] ?? 0) + (b[0] ?? 0))) < SAME);

const isSameOrMirrored = (a: readonly number[], b: readonly number[]): boolean =>
  isSame(a, b) ||
  isSame(
    a,
    b.map((h) => -h),
  );

/**
 * Headings of the studs in every arrangement that the readings leave, mirror images apart: from each stud to the next
 * the step is known but for its sign, and what the other readings or metal rule out is dropped.
 */
const arrangementsOf = ({ survey: { face }, truth }: Ring): readonly (readonly number[])[] => {
  const ids = face.features.slice(1).map((f) => f.id);
  const points = ids.map((id) => truth.get(id) ?? { x: 0, y: 0 });
  const radius = Math.hypot(points[0]?.x ?? 0, points[0]?.y ?? 0);
  const stud = face.features[1]?.diameter?.value ?? 0;
  const over = face.readings.flatMap((r) => {
    const [a = -1, b = -1] = r.features.map((id) => ids.indexOf(id));
    return r.kind === 'over' ? [{ last: Math.max(a, b), first: Math.min(a, b), chord: r.value - stud }] : [];
  });
  const apart = (a: number, b: number): number => 2 * radius * Math.abs(Math.sin((a - b) / 2));
  const found: (readonly number[])[] = [];
  const grow = (headings: readonly number[]): void => {
    const last = headings.length - 1;
    const here = headings[last] ?? 0;
    if (headings.some((h, i) => i < last && apart(h, here) < 0.99 * stud - 0.05)) return;
    if (over.some((r) => r.last === last && Math.abs(apart(headings[r.first] ?? 0, here) - r.chord) > AGREES)) return;
    const [from, to] = [points[last], points[last + 1]];
    if (from === undefined || to === undefined) {
      if (found.every((f) => !isSameOrMirrored(f, headings))) found.push(headings);
      return;
    }
    const step = 2 * Math.asin(Math.min(1, distance(from, to) / (2 * radius)));
    for (const sign of [1, -1]) grow([...headings, here + sign * step]);
  };
  grow([0]);
  return found;
};

/** How likely the clocks are of a ring that lies so, in either hand and turned as it may be. */
const likelihood = (headings: readonly number[], written: readonly (number | null)[], clocks: Clocks): number => {
  let sum = 0;
  for (const side of [1, -1]) {
    for (let k = 0; k < TURNS; k++) {
      const turn = (2 * Math.PI * k) / TURNS;
      sum += headings.reduce((product, h, i) => {
        const clock = written[i] ?? null;
        return clock === null || product === 0 ? product : product * densityOf(clocks, side * h + turn - clock);
      }, 1);
    }
  }
  return sum;
};

/**
 * Odds of the likeliest arrangement of a ring to one who counts them all and knows how its clocks were drawn, and
 * whether it is the true one: no chooser can be right oftener.
 */
export const idealChoice = (ring: Ring, clocks: Clocks): { readonly odds: number; readonly isRight: boolean } => {
  const studs = ring.survey.face.features.slice(1);
  const all = arrangementsOf(ring);
  const weights = all.map((headings) =>
    likelihood(
      headings,
      studs.map((s) => s.clock),
      clocks,
    ),
  );
  const best = Math.max(...weights);
  const truth = headingsOf(studs.map((s) => ring.truth.get(s.id) ?? { x: 0, y: 0 }));
  return {
    odds: best / weights.reduce((a, b) => a + b, 0),
    isRight: isSameOrMirrored(all[weights.indexOf(best)] ?? [], truth),
  };
};
