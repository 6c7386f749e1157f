import type { Adjustment } from '../adjust/adjustment.js';
import type { FeatureSlots } from '../network/unknowns.js';

/** Whether two features keep their distance, and a third its place to both, under every free motion. */
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

/** Motions fewer than this are looked at one by one. */
const FEW = 8;

/**
 * Whether the sum of many motions shows at once that two features, and a third, do not keep together: by more than the
 * tolerances of all the single motions add up to, so that one of them at least must show it too. False: the single
 * motions have to be asked.
 */
const plainlyApart = (
  x: Float64Array,
  motions: readonly { readonly v: Float64Array; readonly most: number }[],
): ((a: FeatureSlots, b: FeatureSlots, c: FeatureSlots) => boolean) => {
  const sum = new Float64Array(x.length);
  const travel = new Float64Array(x.length);
  let [least, at] = [0, 1];
  for (const { v, most } of motions) {
    // Weights without a pattern, so that no two motions make up for each other.
    at = (at * 16_807) % 2_147_483_647;
    if (most === 0) continue;
    const weight = (0.5 + at / 2_147_483_647) / most;
    least += 1e-2 * weight * most;
    for (let u = 0; u < sum.length; u++) {
      const moved = weight * (v[u] as number);
      sum[u] = (sum[u] as number) + moved;
      travel[u] = (travel[u] as number) + Math.abs(moved);
    }
  }
  const travelOf = (f: FeatureSlots): number => (travel[f.x] as number) + (travel[f.y] as number);
  return (a, b, c) => {
    const rx = (x[b.x] as number) - (x[a.x] as number);
    const ry = (x[b.y] as number) - (x[a.y] as number);
    const d2 = rx * rx + ry * ry;
    if (d2 === 0) return true;
    const wx = (sum[b.x] as number) - (sum[a.x] as number);
    const wy = (sum[b.y] as number) - (sum[a.y] as number);
    const size = least + travelOf(a) + travelOf(b) + travelOf(c);
    if (Math.abs(rx * wx + ry * wy) > 1e-4 * size * Math.sqrt(d2)) return true;
    if (c === b) return false;
    const spin = (rx * wy - ry * wx) / d2;
    const cx = (x[c.x] as number) - (x[a.x] as number);
    const cy = (x[c.y] as number) - (x[a.y] as number);
    const offX = (sum[c.x] as number) - (sum[a.x] as number) + spin * cy;
    const offY = (sum[c.y] as number) - (sum[a.y] as number) - spin * cx;
    const spun = ((travelOf(a) + travelOf(b)) * Math.hypot(cx, cy)) / Math.sqrt(d2);
    return Math.hypot(offX, offY) > 1e-4 * (size + spun);
  };
};

/**
 * Groups of features that can move only together, as one rigid body: the largest first, then in the order of the face.
 * Where `about` is given, only groups that it belongs to.
 */
export const bodiesOf = (
  { network, values, nullSpace }: Adjustment,
  about: string | null = null,
): readonly (readonly string[])[] => {
  const features = [...network.unknowns.features.values()];
  const motions = nullSpace.map((v) => ({ v, most: v.reduce((most, e) => Math.max(most, Math.abs(e)), 0) }));
  const apart = motions.length < FEW ? () => false : plainlyApart(values, motions);
  const together = (a: FeatureSlots, b: FeatureSlots, c: FeatureSlots): boolean =>
    !apart(a, b, c) && motions.every(({ v, most }) => keepsTo(values, v, most, a, b, c));
  const bodies: ReadonlySet<FeatureSlots>[] = [];
  const bodiesWith = new Map(features.map((f) => [f, [] as ReadonlySet<FeatureSlots>[]]));
  const firsts = about === null ? features : features.filter((f) => f.id === about);
  for (const a of firsts) {
    for (const b of features) {
      if (a === b || bodiesWith.get(a)?.some((body) => body.has(b)) === true || !together(a, b, b)) continue;
      const body = new Set(features.filter((c) => c === a || c === b || together(a, b, c)));
      bodies.push(body);
      for (const f of body) bodiesWith.get(f)?.push(body);
    }
  }
  return bodies.map((body) => [...body].map((f) => f.id)).sort((p, q) => q.length - p.length);
};
