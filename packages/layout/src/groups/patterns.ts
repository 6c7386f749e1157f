import { type Point, add, centroid, midpoint, polar } from '@fayplate/core';
import type { Measured } from '../measured.js';
import type { Lattice } from './group.js';
import { WIDE, aboutMiddle, along, at, axes, spreadAlong } from './near.js';

/** Longest row or side, in places. */
const LONGEST = 24;

interface Levels {
  /** Mean of each level, rising. */
  readonly means: readonly number[];
  /** Level of each value. */
  readonly of: readonly number[];
}

/** Values gathered into levels no wider than `wide`. */
export const levels = (values: readonly number[], wide: number): Levels => {
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
export const evenly = (
  means: readonly number[],
  wide: number,
): { readonly places: readonly number[]; readonly pitch: number } | null => {
  const first = means[0] ?? 0;
  const span = (means.at(-1) ?? 0) - first;
  if (means.length < 2 || span <= 0) return null;
  for (let parts = means.length - 1; parts < Math.min(2 * means.length, LONGEST); parts++) {
    const pitch = span / parts;
    if (pitch < 2 * wide) return null;
    const steps = means.map((m) => (m - first) / pitch);
    if (steps.every((s) => Math.abs(s - Math.round(s)) * pitch <= wide))
      return { places: steps.map(Math.round), pitch };
  }
  return null;
};

/** Axes tried, those shared by most lines first. */
const MOST_AXES = 40;

/** Features in coordinates along and across an axis, from their mean. */
interface Laid {
  readonly measured: Measured;
  readonly features: readonly number[];
  readonly axis: number;
  readonly from: Point;
  readonly uv: readonly (readonly [number, number])[];
  /**
   * Coordinates this near are alike, mm: along the axis, and across it. A row read from its far end is known well along
   * and badly across.
   */
  readonly wide: readonly [number, number];
}

const u = (laid: Laid, k: number): number => laid.uv[k]?.[0] ?? Number.NaN;
const v = (laid: Laid, k: number): number => laid.uv[k]?.[1] ?? Number.NaN;

/** Three or more features in a row, evenly spaced, vacant places allowed. */
const rows = (laid: Laid): readonly Lattice[] => {
  const { measured, wide, axis } = laid;
  const f = laid.features;
  const across = levels(
    f.map((_, k) => v(laid, k)),
    wide[1],
  );
  return across.means.flatMap((_, level): readonly Lattice[] => {
    const some = f.flatMap((__, k) => (across.of[k] === level ? [k] : []));
    if (some.length < 3) return [];
    const lengthwise = levels(
      some.map((k) => u(laid, k)),
      wide[0],
    );
    const even = lengthwise.means.length === some.length ? evenly(lengthwise.means, wide[0]) : null;
    if (even === null) return [];
    const members = some.map((k) => f[k] ?? -1);
    const end = (k: number): Point => at(measured, members[lengthwise.of.indexOf(k)] ?? -1);
    const places = lengthwise.of.map((k) => [even.places[k] ?? 0, 0] as const);
    const columns = Math.max(...places.map((p) => p[0])) + 1;
    return aboutMiddle(measured, members, midpoint(end(0), end(lengthwise.means.length - 1))).map((about): Lattice => ({
      kind: 'array',
      members,
      about,
      columns,
      rows: 1,
      pitch: [even.pitch, even.pitch],
      square: false,
      axis,
      places,
    }));
  });
};

/** Those of `kept` that share their column or their row (or both) with another, until none is left that does not. */
const sharing = (laid: Laid, kept: readonly number[], both: boolean): readonly number[] => {
  const columns = levels(
    kept.map((k) => u(laid, k)),
    laid.wide[0],
  ).of;
  const across = levels(
    kept.map((k) => v(laid, k)),
    laid.wide[1],
  ).of;
  const shared = (of: readonly number[], i: number): boolean => of.filter((x) => x === of[i]).length >= 2;
  const next = kept.filter((_, i) =>
    both ? shared(columns, i) && shared(across, i) : shared(columns, i) || shared(across, i),
  );
  return next.length === kept.length ? kept : sharing(laid, next, both);
};

/**
 * Rows and columns of five features or more: every one in a full row and column, or, with vacant places, in one of
 * them.
 */
const rectangular = (laid: Laid, both: boolean): readonly Lattice[] => {
  const { measured, wide, axis } = laid;
  const f = laid.features;
  const kept = sharing(
    laid,
    f.map((_, k) => k),
    both,
  );
  if (kept.length < 5) return [];
  const [lengthwise, across] = [
    levels(
      kept.map((k) => u(laid, k)),
      wide[0],
    ),
    levels(
      kept.map((k) => v(laid, k)),
      wide[1],
    ),
  ];
  const [columns, lines] = [evenly(lengthwise.means, wide[0]), evenly(across.means, wide[1])];
  if (columns === null || lines === null) return [];
  const places = kept.map(
    (_, i) => [columns.places[lengthwise.of[i] ?? 0] ?? 0, lines.places[across.of[i] ?? 0] ?? 0] as const,
  );
  if (new Set(places.map((p) => p.join(' '))).size < places.length) return [];
  const members = kept.map((k) => f[k] ?? -1);
  const [count, high] = [Math.max(...places.map((p) => p[0])) + 1, Math.max(...places.map((p) => p[1])) + 1];
  const half = (means: readonly number[]): number => ((means[0] ?? 0) + (means.at(-1) ?? 0)) / 2;
  const middle = add(
    laid.from,
    add(polar(half(lengthwise.means), axis), polar(half(across.means), axis + Math.PI / 2)),
  );
  const base = {
    kind: 'array',
    members,
    columns: count,
    rows: high,
    pitch: [columns.pitch, lines.pitch],
    axis,
    places,
  } as const;
  const shapes = Math.abs(columns.pitch - lines.pitch) <= Math.max(...wide) ? [false, true] : [false];
  return aboutMiddle(measured, members, middle).flatMap((about) =>
    shapes.map((square): Lattice => ({ ...base, about, square })),
  );
};

/** Rows, and rectangular patterns of more than four features, axis by axis. */
export const patterns = (measured: Measured, features: readonly number[]): readonly Lattice[] => {
  const f = features;
  const from = centroid(f.map((i) => at(measured, i)));
  const wideAt = (direction: number): number =>
    WIDE * Math.SQRT2 * Math.max(...f.map((i) => spreadAlong(measured, i, direction)));
  const laidAt = (axis: number): Laid => ({
    measured,
    features,
    axis,
    from,
    wide: [wideAt(axis), wideAt(axis + Math.PI / 2)],
    uv: f.map((i) => along(at(measured, i), from, axis)),
  });
  return axes(measured, f)
    .slice(0, MOST_AXES)
    .flatMap((axis) => {
      const laid = laidAt(axis);
      return [
        ...rows(laid),
        ...rows(laidAt(axis + Math.PI / 2)),
        ...rectangular(laid, true),
        ...rectangular(laid, false),
      ];
    });
};
