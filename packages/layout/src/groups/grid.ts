import { MM_PER_INCH, distance } from '@fayplate/core';
import type { Measured } from '../measured/points.js';
import { axes } from './axes.js';
import { FINEST, falling, turnOf } from './grid/falling.js';
import { peaks } from './grid/peaks.js';
import type { Grid } from './group.js';
import { MANY, at, keyOf, spread } from './near.js';

/** Steps that coordinates may have been set out in; all alike until the readings speak. */
export const gridSteps: readonly { readonly step: number; readonly unit: 'in' | 'mm' }[] = [
  ...[8, 16, 32, 64].map((parts) => ({ step: MM_PER_INCH / parts, unit: 'in' as const })),
  ...[1, 0.5, 0.25].map((step) => ({ step, unit: 'mm' as const })),
];

const MOST_KEPT = 10;

/** The grid with those of `more` that fall on it too once its axis is as well known as all its features make it; null where none does. */
export const extended = (measured: Measured, grid: Grid, axis: number, more: readonly number[]): Grid | null => {
  if ('own' in grid.about) return null;
  const { feature } = grid.about;
  const on = falling(measured, more, feature, grid.step, axis);
  return on.length === 0 ? null : { ...grid, axis, members: [...grid.members, ...on.map((o) => o.f)], steps: [...grid.steps, ...on.map((o) => o.steps)] };
};

/**
 * Grids from a feature that some of these features fall on. `more`: directions to try beside those of the lines through two features; with
 * `search`, every direction.
 */
export const grids = (measured: Measured, features: readonly number[], more: readonly number[] = [], search = false): readonly Grid[] => {
  if (features.length < 2 || measured.fasteners.length > MANY) return [];
  const from = measured.centres[0] ?? features[0] ?? 0;
  const others = features.filter((f) => f !== from);
  const zero = at(measured, from);
  const found = new Map<string, { readonly grid: Grid; readonly score: number }>();
  const lines = [...more, ...axes(measured, [from, ...others])];
  const sigmas = others.map((f) => Math.hypot(spread(measured, f), spread(measured, from)) / Math.SQRT2);
  for (const { step, unit } of gridSteps) {
    if (sigmas.filter((sigma) => step >= FINEST * sigma).length < 2) continue;
    const searched = search ? peaks(others.map((f) => at(measured, f)), zero, step) : [];
    for (const line of [...lines, ...searched]) {
      // A line through two features is a rough axis: turned to the best of those that it meets, it may meet the others too.
      const rough = falling(measured, others, from, step, line);
      const axis = line + turnOf(rough, step);
      const on = falling(measured, others, from, step, axis);
      if (on.length < 2 || on.every((o) => distance(at(measured, o.f), zero) < step)) continue;
      const members = on.map((o) => o.f);
      const key = `${keyOf(members)} ${step} ${on.map((o) => o.steps.map(Math.abs).join()).join(' ')}`;
      const score = on.reduce((s, o) => s + o.gain, 0);
      if ((found.get(key)?.score ?? Number.NEGATIVE_INFINITY) >= score) continue;
      found.set(key, { score, grid: { kind: 'grid', members, about: { feature: from }, step, unit, axis, held: false, steps: on.map((o) => o.steps) } });
    }
  }
  return [...found.values()]
    .sort((a, b) => b.score - a.score)
    .slice(0, MOST_KEPT)
    .map((g) => g.grid);
};
