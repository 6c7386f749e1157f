import { centroid, distance, heading, midpoint, subtract } from '@fayplate/core';
import type { Measured } from '../measured/points.js';
import { along, axes } from './axes.js';
import type { About, Lattice } from './group.js';
import { MANY, WIDE, at, centreNear, keyOf, reach, spread } from './near.js';

/** Axes tried, those shared by most lines first. */
const MOST_AXES = 40;
const MOST_KEPT = 16;
/** Longest row or side, in places. */
const LONGEST = 24;

/** Values gathered into levels no further apart than `wide`, rising: mean of each and the level of each value. */
const levels = (values: readonly number[], wide: number): { readonly means: readonly number[]; readonly of: readonly number[] } => {
  const order = values.map((v, i) => ({ v, i })).sort((a, b) => a.v - b.v);
  const groups: { readonly v: number; readonly i: number }[][] = [];
  for (const o of order) {
    const last = groups.at(-1);
    if (last !== undefined && o.v - (last[0]?.v ?? 0) <= wide) last.push(o);
    else groups.push([o]);
  }
  const of = values.map(() => -1);
  for (const [k, g] of groups.entries()) for (const o of g) of[o.i] = k;
  return { means: groups.map((g) => g.reduce((s, o) => s + o.v, 0) / g.length), of };
};

/** Places 0, 1, … of levels that are a whole number of pitches apart; null where no pitch serves. */
const evenly = (means: readonly number[], wide: number): { readonly places: readonly number[]; readonly pitch: number } | null => {
  const first = means[0] ?? 0;
  const span = (means.at(-1) ?? 0) - first;
  if (means.length < 2 || span <= 0) return null;
  for (let parts = means.length - 1; parts < Math.min(2 * means.length, LONGEST); parts++) {
    const pitch = span / parts;
    if (pitch < 2 * wide) return null;
    if (means.every((m) => Math.abs((m - first) / pitch - Math.round((m - first) / pitch)) * pitch <= wide)) {
      return { places: means.map((m) => Math.round((m - first) / pitch)), pitch };
    }
  }
  return null;
};

const aboutOf = (measured: Measured, members: readonly number[], middle: { readonly x: number; readonly y: number }): readonly About[] => {
  const near = centreNear(measured, middle, reach(measured, members.slice(0, 2)));
  return near === null ? [{ own: middle }] : [{ feature: near }, { own: middle }];
};

/** Rectangles by their diagonals: two pairs of features with the same middle and the same length. */
const rectangles = (measured: Measured): readonly Lattice[] => {
  const f = measured.fasteners;
  const pairs = f.flatMap((a, i) => f.slice(i + 1).map((b) => ({ a, b, middle: midpoint(at(measured, a), at(measured, b)), length: distance(at(measured, a), at(measured, b)) })));
  const found: Lattice[] = [];
  for (const [i, p] of pairs.entries()) {
    for (const q of pairs.slice(i + 1)) {
      if (Math.abs(p.length - q.length) > p.length * 0.2 || p.a === q.a || p.a === q.b || p.b === q.a || p.b === q.b) continue;
      const wide = reach(measured, [p.a, p.b, q.a, q.b]);
      if (Math.abs(p.length - q.length) > wide || distance(p.middle, q.middle) > wide) continue;
      // Corners in turn: p.a, q.a, p.b, q.b; the first side is the axis.
      const [a, b, c] = [at(measured, p.a), at(measured, q.a), at(measured, p.b)];
      const axis = heading(subtract(b, a));
      const pitch = [distance(a, b), distance(b, c)] as const;
      const left = along(c, a, axis)[1] > 0;
      const low = left ? 0 : 1;
      const members = [p.a, q.a, p.b, q.b];
      const places = [[0, low], [1, low], [1, 1 - low], [0, 1 - low]] as const;
      if (Math.min(...pitch) < wide) continue;
      const middle = midpoint(p.middle, q.middle);
      for (const about of aboutOf(measured, members, middle)) {
        const base = { kind: 'array', members, about, columns: 2, rows: 2, pitch, axis, places } as const;
        found.push({ ...base, square: false });
        if (Math.abs(pitch[0] - pitch[1]) <= wide) found.push({ ...base, square: true });
      }
    }
  }
  return found;
};

/** Rows and rectangular patterns of more than four places, axis by axis. */
const patterns = (measured: Measured): readonly Lattice[] => {
  const f = measured.fasteners;
  const found: Lattice[] = [];
  for (const quarter of axes(measured, f).slice(0, MOST_AXES)) {
    for (const axis of [quarter, quarter + Math.PI / 2]) {
      const from = centroid(f.map((i) => at(measured, i)));
      const wide = WIDE * Math.SQRT2 * Math.max(...f.map((i) => spread(measured, i)));
      const uv = f.map((i) => along(at(measured, i), from, axis));
      const v = levels(uv.map((p) => p[1]), wide);
      for (let row = 0; row < v.means.length; row++) {
        const inRow = f.flatMap((m, k) => (v.of[k] === row ? [{ m, u: uv[k]?.[0] ?? 0, v: uv[k]?.[1] ?? 0 }] : []));
        if (inRow.length < 3) continue;
        const u = levels(inRow.map((p) => p.u), wide);
        const even = u.means.length === inRow.length ? evenly(u.means, wide) : null;
        if (even === null) continue;
        const members = inRow.map((p) => p.m);
        const ends = [u.of.indexOf(0), u.of.indexOf(u.means.length - 1)] as const;
        const middle = midpoint(at(measured, members[ends[0]] ?? 0), at(measured, members[ends[1]] ?? 0));
        const places = u.of.map((level) => [even.places[level] ?? 0, 0] as const);
        const columns = Math.max(...places.map((p) => p[0])) + 1;
        for (const about of aboutOf(measured, members, middle)) {
          found.push({ kind: 'array', members, about, columns, rows: 1, pitch: [even.pitch, even.pitch], square: false, axis, places });
        }
      }
      if (axis !== quarter) continue;
      const whole = rectangular(measured, f, uv, wide, axis);
      if (whole !== null) for (const about of aboutOf(measured, whole.members, whole.middle)) for (const square of whole.square ? [false, true] : [false]) found.push({ ...whole.lattice, about, square });
    }
  }
  return found;
};

/** The features that stand in rows and columns of at least two each, if their rows and columns are evenly spaced and one side has three places. */
const rectangular = (measured: Measured, f: readonly number[], uv: readonly (readonly [number, number])[], wide: number, axis: number) => {
  let kept = f.map((_, k) => k);
  for (;;) {
    const u = levels(kept.map((k) => uv[k]?.[0] ?? 0), wide);
    const v = levels(kept.map((k) => uv[k]?.[1] ?? 0), wide);
    const count = (of: readonly number[], level: number): number => of.filter((x) => x === level).length;
    const next = kept.filter((_, i) => count(u.of, u.of[i] ?? -1) >= 2 && count(v.of, v.of[i] ?? -1) >= 2);
    if (next.length === kept.length) {
      if (kept.length < 5) return null;
      const columns = evenly(u.means, wide);
      const rows = evenly(v.means, wide);
      if (columns === null || rows === null) return null;
      const places = kept.map((_, i) => [columns.places[u.of[i] ?? 0] ?? 0, rows.places[v.of[i] ?? 0] ?? 0] as const);
      if (new Set(places.map((p) => p.join(' '))).size < places.length) return null;
      const [lu, hu, lv, hv] = [u.means[0] ?? 0, u.means.at(-1) ?? 0, v.means[0] ?? 0, v.means.at(-1) ?? 0];
      const from = centroid(f.map((i) => at(measured, i)));
      const [mu, mv] = [(lu + hu) / 2, (lv + hv) / 2];
      const middle = { x: from.x + Math.cos(axis) * mu - Math.sin(axis) * mv, y: from.y + Math.sin(axis) * mu + Math.cos(axis) * mv };
      const members = kept.map((k) => f[k] ?? -1);
      const counts = [Math.max(...places.map((p) => p[0])) + 1, Math.max(...places.map((p) => p[1])) + 1] as const;
      return {
        members,
        middle,
        square: Math.abs(columns.pitch - rows.pitch) <= wide,
        lattice: { kind: 'array', members, columns: counts[0], rows: counts[1], pitch: [columns.pitch, rows.pitch], axis, places } as const,
      };
    }
    kept = next;
  }
};

/** Rectangular patterns and evenly spaced rows, those of most features first. */
export const lattices = (measured: Measured): readonly Lattice[] => {
  if (measured.fasteners.length < 3 || measured.fasteners.length > MANY) return [];
  const seen = new Set<string>();
  return [...rectangles(measured), ...patterns(measured)]
    .filter((l) => {
      const key = `${keyOf(l.members)} ${'feature' in l.about} ${l.square} ${l.columns} ${l.rows}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    })
    .sort((a, b) => b.members.length - a.members.length)
    .slice(0, MOST_KEPT);
};
