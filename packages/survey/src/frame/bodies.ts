import type { Adjustment } from '../adjust/adjustment.js';
import type { FeatureSlots } from '../network/unknowns.js';

/** Whether two features keep their distance, and a third its place to both, whatever free motion happens. */
const keepsTo = (
  x: Float64Array,
  v: Float64Array,
  most: number,
  a: FeatureSlots,
  b: FeatureSlots,
  c: FeatureSlots,
): boolean => {
  const rx = (x[b.x] as number) - (x[a.x] as number);
  const ry = (x[b.y] as number) - (x[a.y] as number);
  const d2 = rx * rx + ry * ry;
  if (d2 === 0) return false;
  const va = [v[a.x] as number, v[a.y] as number] as const;
  const wx = (v[b.x] as number) - va[0];
  const wy = (v[b.y] as number) - va[1];
  const stretch = (rx * wx + ry * wy) / d2;
  const spin = (rx * wy - ry * wx) / d2;
  const cx = (x[c.x] as number) - (x[a.x] as number);
  const cy = (x[c.y] as number) - (x[a.y] as number);
  const offX = (v[c.x] as number) - va[0] + spin * cy;
  const offY = (v[c.y] as number) - va[1] - spin * cx;
  const size = Math.max(
    1e-2 * most,
    Math.hypot(...va),
    Math.hypot(v[b.x] as number, v[b.y] as number),
    Math.hypot(v[c.x] as number, v[c.y] as number),
  );
  return (
    Math.abs(stretch) * Math.sqrt(d2) <= 1e-4 * size &&
    Math.hypot(offX, offY) <= 1e-4 * Math.max(size, Math.abs(spin) * Math.hypot(cx, cy))
  );
};

/**
 * Groups of features that can move only together, as one stiff body: the largest first, then in the order of the face.
 * Where `about` is given, only groups that it belongs to.
 */
export const bodiesOf = (
  { network, values, nullSpace }: Adjustment,
  about: string | null = null,
): readonly (readonly string[])[] => {
  const features = [...network.unknowns.features.values()];
  const motions = nullSpace.map((v) => ({ v, most: v.reduce((most, e) => Math.max(most, Math.abs(e)), 0) }));
  const together = (a: FeatureSlots, b: FeatureSlots, c: FeatureSlots): boolean =>
    motions.every(({ v, most }) => keepsTo(values, v, most, a, b, c));
  const bodies: ReadonlySet<FeatureSlots>[] = [];
  const firsts = about === null ? features : features.filter((f) => f.id === about);
  for (const a of firsts) {
    for (const b of features) {
      if (a === b || bodies.some((body) => body.has(a) && body.has(b)) || !together(a, b, b)) continue;
      bodies.push(new Set(features.filter((c) => c === a || c === b || together(a, b, c))));
    }
  }
  return bodies.map((body) => [...body].map((f) => f.id)).sort((p, q) => q.length - p.length);
};
