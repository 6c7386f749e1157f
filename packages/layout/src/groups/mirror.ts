import { type Point, byCodeUnit, distance, heading, midpoint, subtract } from '@fayplate/core';
import type { Measured } from '../measured.js';
import type { About, Mirrored, OnAxis, Opposite, Pair } from './group.js';
import { MANY, WIDE, along, at, centreNear, keyOf, reach, spread } from './near.js';
import type { RingSet } from './rings.js';

const MOST_KEPT = 8;
/** Smallest share of the features that a symmetry must explain to be carried on. */
const LEAST = 0.6;

/** Features paired across an axis or on it, greedily from the nearest image; those without an image are left out. */
const across = (
  measured: Measured,
  features: readonly number[],
  from: Point,
  axis: number,
): { readonly pairs: readonly Pair[]; readonly on: readonly OnAxis[] } => {
  const uv = features.map((f) => along(at(measured, f), from, axis));
  const pairs: Pair[] = [];
  const on: OnAxis[] = [];
  const used = new Set<number>();
  for (const [k, f] of features.entries()) {
    if (used.has(f)) continue;
    const [u, v] = uv[k] as readonly [number, number];
    let image = -1;
    let nearest = Number.POSITIVE_INFINITY;
    for (const [l, g] of features.entries()) {
      if (l === k || used.has(g)) continue;
      const [p, q] = uv[l] as readonly [number, number];
      const d = (p - u) ** 2 + (q + v) ** 2;
      if (d < nearest) [image, nearest] = [l, d];
    }
    const d = Math.sqrt(nearest);
    const g = features[image] ?? -1;
    const near = image >= 0 && d <= reach(measured, [f, g]);
    if (Math.abs(v) <= WIDE * spread(measured, f) && !(near && Math.abs(v) > d)) {
      on.push({ feature: f, along: u });
      used.add(f);
    } else if (near) {
      const [p, q] = uv[image] as readonly [number, number];
      const [left, right] = v > 0 ? [f, g] : [g, f];
      pairs.push({ left, right, along: (u + p) / 2, across: (Math.abs(v) + Math.abs(q)) / 2 });
      used.add(f);
      used.add(g);
    }
  }
  return { pairs, on };
};

const gathered = (found: readonly Mirrored[]): readonly Mirrored[] => {
  const best = new Map<string, Mirrored>();
  for (const m of found) {
    const key = `${keyOf(m.members)} ${'feature' in m.about} ${m.pairs
      .map((p) => [p.left, p.right].sort((a, b) => a - b).join())
      .sort(byCodeUnit)
      .join(' ')}`;
    if (!best.has(key)) best.set(key, m);
  }
  return [...best.values()]
    .sort((a, b) => b.members.length - a.members.length || b.pairs.length - a.pairs.length)
    .slice(0, MOST_KEPT);
};

/** Symmetries about lines through a given centre, or, for holes on one circle, through its own. */
const mirroredAbout = (
  measured: Measured,
  features: readonly number[],
  about: About,
  centre: Point,
  diameter: number | null,
): readonly Mirrored[] => {
  const headings = features.map((f) => heading(subtract(at(measured, f), centre)));
  const candidates = headings.flatMap((a, i) => [a, ...headings.slice(i + 1).map((b) => (a + b) / 2)]);
  return gathered(
    candidates.flatMap((axis): readonly Mirrored[] => {
      const { pairs, on } = across(measured, features, centre, axis);
      const members = [...pairs.flatMap((p) => [p.left, p.right]), ...on.map((o) => o.feature)];
      if (pairs.length === 0 || members.length < Math.max(3, LEAST * features.length)) return [];
      return [{ kind: 'mirrored', members, about, axis, pairs, on, diameter, offset: 0 }];
    }),
  );
};

/** Symmetries about lines through nothing measured: the middle lines of pairs. */
const mirroredOwn = (measured: Measured, features: readonly number[]): readonly Mirrored[] =>
  gathered(
    features.flatMap((a, i) =>
      features.slice(i + 1).flatMap((b): readonly Mirrored[] => {
        const [p, q] = [at(measured, a), at(measured, b)];
        const from = midpoint(p, q);
        const axis = heading(subtract(q, p)) + Math.PI / 2;
        const { pairs, on } = across(measured, features, from, axis);
        const members = [...pairs.flatMap((m) => [m.left, m.right]), ...on.map((o) => o.feature)];
        if (pairs.length < 2 || members.length < Math.max(4, LEAST * features.length)) return [];
        return [{ kind: 'mirrored', members, about: { own: from }, axis, pairs, on, diameter: null, offset: 0 }];
      }),
    ),
  );

/** Symmetry of features about a line. */
export const mirrors = (measured: Measured, features: readonly number[]): readonly Mirrored[] => {
  if (features.length < 3 || measured.fasteners.length > MANY) return [];
  const given = measured.centres
    .slice(0, 2)
    .flatMap((c) => mirroredAbout(measured, features, { feature: c }, at(measured, c), null));
  return [...given, ...mirroredOwn(measured, features)];
};

/** Most features among which single pairs are looked for. */
const FEW = 12;

/**
 * Single pairs about lines through the face's centre: a pair by itself says nothing of its line, but another group's
 * direction may.
 */
export const pairsAbout = (measured: Measured, features: readonly number[]): readonly Mirrored[] => {
  const [feature] = measured.centres;
  if (feature === undefined || features.length > FEW) return [];
  const centre = at(measured, feature);
  return features
    .flatMap((a, i) =>
      features.slice(i + 1).flatMap((b): readonly Mirrored[] => {
        const some = [a, b];
        const middle = midpoint(at(measured, a), at(measured, b));
        const wide = reach(measured, [...some, feature]);
        if (
          Math.abs(distance(at(measured, a), centre) - distance(at(measured, b), centre)) > wide ||
          distance(middle, centre) < wide
        )
          return [];
        const axis = heading(subtract(middle, centre));
        return [
          {
            kind: 'mirrored',
            members: some,
            about: { feature },
            axis,
            pairs: across(measured, some, centre, axis).pairs,
            on: [],
            diameter: null,
            offset: 0,
          },
        ];
      }),
    )
    .filter((m) => m.pairs.length === 1);
};

/** Symmetry of the holes of one circle about a line through its centre. */
export const mirroredRing = (measured: Measured, set: RingSet): readonly Mirrored[] => {
  if (set.members.length < 4 || measured.fasteners.length > MANY) return [];
  const centre = 'own' in set.about ? set.about.own : at(measured, set.about.feature);
  return mirroredAbout(measured, set.members, set.about, centre, set.diameter).slice(0, 3);
};

/** Pairs that lie opposite each other about one point. */
export const opposites = (measured: Measured, features: readonly number[]): readonly Opposite[] => {
  if (features.length < 4 || measured.fasteners.length > MANY) return [];
  const middles = features.flatMap((a, i) =>
    features.slice(i + 1).map((b) => midpoint(at(measured, a), at(measured, b))),
  );
  const found = new Map<string, Opposite>();
  for (const middle of middles) {
    const used = new Set<number>();
    const pairs: (readonly [number, number])[] = [];
    for (const f of features) {
      if (used.has(f)) continue;
      const p = at(measured, f);
      const image = { x: 2 * middle.x - p.x, y: 2 * middle.y - p.y };
      const other = features
        .filter((g) => g !== f && !used.has(g))
        .map((g) => ({ g, d: distance(at(measured, g), image) }))
        .sort((x, y) => x.d - y.d)[0];
      if (other === undefined || other.d > 2 * reach(measured, [f, other.g])) continue;
      pairs.push([f, other.g]);
      used.add(f);
      used.add(other.g);
    }
    const members = pairs.flat();
    if (pairs.length < 2 || members.length < LEAST * features.length) continue;
    const centre = centreNear(measured, middle, reach(measured, pairs[0] ?? []));
    for (const about of [...(centre === null ? [] : [{ feature: centre }]), { own: middle }]) {
      const key = `${keyOf(members)} ${'feature' in about}`;
      if (!found.has(key)) found.set(key, { kind: 'opposite', members, about, pairs });
    }
  }
  return [...found.values()].sort((a, b) => b.members.length - a.members.length).slice(0, MOST_KEPT);
};
