import { distance } from '@fayplate/core';
import { type Measured, covarianceAt } from '../measured.js';
import { gridSteps } from '../prior/length.js';
import { type Grid, laidBy } from './group.js';
import { MANY, WIDE, at, axes, keyOf, spread } from './near.js';
import { peaks } from './peaks.js';

/** A step finer than this many standard deviations of a coordinate is not tried: any pattern fits it. */
const FINEST = 3.5;

/**
 * A feature that falls on a grid: its coordinates along the axis and to its left, the whole steps nearest to them, and
 * what that gains in nats.
 */
interface OnGrid {
  readonly f: number;
  /** Standard deviations of the two coordinates, mm. */
  readonly sigma: readonly [number, number];
  readonly uv: readonly [number, number];
  readonly steps: readonly [number, number];
  readonly gain: number;
}

/** Those of these features that fall on a grid from a feature along an axis. */
const falling = (
  measured: Measured,
  features: readonly number[],
  from: number,
  step: number,
  axis: number,
): readonly OnGrid[] => {
  const zero = at(measured, from);
  const [c, s] = [Math.cos(axis), Math.sin(axis)];
  const [own, ownAcross] = variancesAlong(measured, from, c, s);
  const found: OnGrid[] = [];
  for (const f of features) {
    const p = at(measured, f);
    const [dx, dy] = [p.x - zero.x, p.y - zero.y];
    const [u, v] = [c * dx + s * dy, c * dy - s * dx];
    const [i, j] = [Math.round(u / step), Math.round(v / step)];
    const [along, across] = variancesAlong(measured, f, c, s);
    const [su, sv] = [Math.sqrt(along + own), Math.sqrt(across + ownAcross)];
    const [ru, rv] = [(u - i * step) / su, (v - j * step) / sv];
    if (Math.abs(ru) > WIDE || Math.abs(rv) > WIDE || step < FINEST * Math.sqrt((su * su + sv * sv) / 2)) continue;
    const gain = Math.log((step * step) / (su * sv)) - 2 * HALF_LOG_TAU - (ru * ru + rv * rv) / 2;
    found.push({ f, sigma: [su, sv], uv: [u, v], steps: [i, j], gain });
  }
  return found;
};

/** log √(2π). */
const HALF_LOG_TAU = 0.92;

/** Variances of a centre along the direction (c, s) and to its left, mm². */
const variancesAlong = (measured: Measured, i: number, c: number, s: number): readonly [number, number] => {
  const xx = covarianceAt(measured, 2 * i, 2 * i);
  const xy = covarianceAt(measured, 2 * i, 2 * i + 1);
  const yy = covarianceAt(measured, 2 * i + 1, 2 * i + 1);
  return [Math.max(0, c * c * xx + 2 * c * s * xy + s * s * yy), Math.max(0, s * s * xx - 2 * c * s * xy + c * c * yy)];
};

/** How far the axis should turn for the features on a grid to come nearest to their whole steps, by least squares. */
const turnOf = (on: readonly OnGrid[], step: number): number => {
  let [lean, reach] = [0, 0];
  for (const {
    uv: [u, v],
    steps: [i, j],
    sigma,
  } of on) {
    lean += ((v - j * step) * u) / sigma[1] ** 2 - ((u - i * step) * v) / sigma[0] ** 2;
    reach += (u / sigma[1]) ** 2 + (v / sigma[0]) ** 2;
  }
  return lean / Math.max(reach, 1e-12);
};

const MOST_KEPT = 10;

/**
 * The grid with those of `more` that fall on it too once its axis is as well known as all its features make it; null
 * where none does.
 */
export const extended = (measured: Measured, grid: Grid, axis: number, more: readonly number[]): Grid | null => {
  if ('own' in grid.about) return null;
  const { feature } = grid.about;
  const on = falling(measured, more, feature, grid.step, axis);
  return on.length === 0
    ? null
    : {
        ...grid,
        axis,
        members: [...grid.members, ...on.map((o) => o.f)],
        steps: [...grid.steps, ...on.map((o) => o.steps)],
      };
};

interface Found {
  readonly grid: Grid;
  readonly score: number;
}

/** Grids from one feature that others fall on, each once. */
const gridsFrom = (
  measured: Measured,
  from: number,
  others: readonly number[],
  more: readonly number[],
  search: boolean,
): readonly Found[] => {
  const zero = at(measured, from);
  const found = new Map<string, Found>();
  const lines = [...more, ...axes(measured, [from, ...others])];
  const sigmas = others.map((f) => Math.hypot(spread(measured, f), spread(measured, from)) / Math.SQRT2);
  for (const { step, unit } of gridSteps) {
    if (sigmas.filter((sigma) => step >= FINEST * sigma).length < 2) continue;
    const searched = search
      ? peaks(
          others.map((f) => at(measured, f)),
          zero,
          step,
        )
      : [];
    for (const line of [...lines, ...searched]) {
      // A line through two features is a rough axis: turned to the best of those that it meets, it may meet the others
      // too.
      const rough = falling(measured, others, from, step, line);
      const axis = line + turnOf(rough, step);
      const on = falling(measured, others, from, step, axis);
      if (on.length < 2 || on.every((o) => distance(at(measured, o.f), zero) < step)) continue;
      const members = on.map((o) => o.f);
      const key = `${keyOf(members)} ${step} ${on.map((o) => o.steps.map(Math.abs).join()).join(' ')}`;
      const score = on.reduce((s, o) => s + o.gain, 0);
      if ((found.get(key)?.score ?? Number.NEGATIVE_INFINITY) >= score) continue;
      found.set(key, {
        score,
        grid: {
          kind: 'grid',
          members,
          about: { feature: from },
          step,
          unit,
          axis,
          held: false,
          steps: on.map((o) => o.steps),
        },
      });
    }
  }
  return [...found.values()];
};

/** The same grid counted from the first that is listed of all its features: where a person would begin. */
const fromFirst = (grid: Grid): Grid => {
  if ('own' in grid.about) return grid;
  const { feature } = grid.about;
  const all = [
    { f: feature, at: [0, 0] as const },
    ...grid.members.map((f, k) => ({ f, at: grid.steps[k] ?? ([0, 0] as const) })),
  ].sort((a, b) => a.f - b.f);
  const [first, ...others] = all;
  if (first === undefined || first.f === feature) return grid;
  return {
    ...grid,
    about: { feature: first.f },
    members: others.map((o) => o.f),
    steps: others.map((o) => [o.at[0] - first.at[0], o.at[1] - first.at[1]] as const),
  };
};

/** Zeros tried where the face has no centre: the best known, until one has all the others on its grid. */
const MOST_ZEROS = 4;
const MOST_TURNED = 2;

/**
 * Grids from the face's centre that some of these features fall on, or from one of themselves where it has none.
 * `more`: directions to try beside those of the lines through two features; with `search`, every direction.
 */
export const grids = (
  measured: Measured,
  features: readonly number[],
  more: readonly number[] = [],
  search = false,
): readonly Grid[] => {
  if (features.length < 2 || measured.fasteners.length > MANY) return [];
  const [centre] = measured.centres;
  const zeros =
    centre === undefined
      ? [...features].sort((a, b) => spread(measured, a) - spread(measured, b)).slice(0, MOST_ZEROS)
      : [centre];
  const found: Found[] = [];
  const seen = new Set<string>();
  // The same features on the same step from another of their number say the same.
  const keyed = ({ grid }: Found): string => `${grid.step} ${keyOf(laidBy(grid, measured))}`;
  for (const zero of zeros) {
    const others = features.filter((f) => f !== zero);
    if (found.some(({ grid }) => grid.members.length >= others.length)) break;
    // Every direction takes long to search: from the centre, or from two of the features, of which one may be off.
    const turned = search && zeros.indexOf(zero) < MOST_TURNED;
    const made = gridsFrom(measured, zero, others, more, turned).filter((f) => !seen.has(keyed(f)));
    found.push(...made);
    for (const f of made) seen.add(keyed(f));
  }
  return found
    .sort((a, b) => b.score - a.score)
    .slice(0, MOST_KEPT)
    .map(({ grid }) => (centre === undefined ? fromFirst(grid) : grid));
};
