import { type Point, distance } from '@fayplate/core';
import { groupsWithout, onBench } from './separation-pairs.js';
import { type Sketch, pointOf, setPoint, strain2 } from './sketch.js';

/** Features within this many blurs of a line stay where they are when the rest is reflected in it. */
const NEAR = 3;
/** Above so many features near lines are not looked for: the search grows with the cube of their number. */
const MOST = 100;

/** Where a feature lies as seen along the line from `a` to `b`: how far off it, signed. */
const offLine = (a: Point, b: Point, p: Point): number =>
  ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / distance(a, b);

/**
 * Arrangements with a part reflected in a line on which, nearly, everything lies that ties it to the rest: its readings
 * hardly notice, and no small step leads from one side to the other. The least strained first, no more than `most`.
 */
export const reflectedInNearLines = (sketch: Sketch, x: Float64Array, most: number): readonly Float64Array[] => {
  const n = sketch.slots.length;
  if (n > MOST) return [];
  const at = sketch.slots.map((_, f) => pointOf(sketch, x, f));
  const found = new Map<string, { readonly x: Float64Array; readonly strain: number }>();
  const near = new Uint8Array(n);
  for (const [i, a] of at.entries()) {
    for (const b of at.slice(i + 1)) {
      if (!(distance(a, b) > 2 * NEAR * sketch.blur)) continue;
      for (const [f, p] of at.entries()) near[f] = Math.abs(offLine(a, b, p)) < NEAR * sketch.blur ? 1 : 0;
      for (const group of groupsWithout(sketch, near)) {
        // One alone has its other places tried elsewhere; of two halves it is enough to turn one.
        if (group.length < 2 || 2 * group.length > n || onBench(sketch, group)) continue;
        const over = Float64Array.from(x);
        const along = { x: (b.x - a.x) / distance(a, b), y: (b.y - a.y) / distance(a, b) };
        for (const f of group) {
          const p = at[f] ?? a;
          const off = offLine(a, b, p);
          setPoint(sketch, over, f, { x: p.x + 2 * off * along.y, y: p.y - 2 * off * along.x });
        }
        const strain = [...new Set(group.flatMap((f) => sketch.tiesOf[f] ?? []))].reduce((sum, t) => {
          const tie = sketch.ties[t];
          return tie === undefined ? sum : sum + strain2(tie, over);
        }, 0);
        const key = group.toSorted((p, q) => p - q).join(' ');
        const known = found.get(key);
        if (known === undefined || strain < known.strain) found.set(key, { x: over, strain });
      }
    }
  }
  return [...found.values()]
    .toSorted((p, q) => p.strain - q.strain)
    .slice(0, most)
    .map((f) => f.x);
};
