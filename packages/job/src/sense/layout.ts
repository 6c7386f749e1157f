import type { JobFile } from '../schema/file.js';
import type { LayoutSpec, StatedCircle } from '../types.js';
import { type Context, faultAt, known } from './context.js';

type Face = NonNullable<JobFile['faces']>[string];
type Written = Extract<NonNullable<Face['layout']>, object>;
type WrittenCircle = NonNullable<Written['circles']>[number];

const features = (
  context: Context,
  keys: readonly PropertyKey[],
  names: readonly string[] | undefined,
  all: readonly string[],
): readonly string[] | null => {
  const seen = new Set<string>();
  for (const name of names ?? []) {
    known(context, keys, name, all, 'a feature of this face');
    if (seen.has(name)) faultAt(context, keys, 'twice', `${name} once only`, { found: name, inside: name });
    seen.add(name);
  }
  return names ?? null;
};

const circle = (
  context: Context,
  keys: readonly PropertyKey[],
  written: WrittenCircle,
  all: readonly string[],
): StatedCircle => {
  if (written.about !== undefined) known(context, [...keys, 'about'], written.about, all, 'a feature of this face');
  if (written.phase !== undefined && written.divisions === undefined)
    faultAt(context, [...keys, 'phase'], 'missing', '`divisions` as well: a phase turns equal divisions');
  return {
    diameter: written.circle ?? null,
    divisions: written.divisions ?? null,
    about: written.about ?? null,
    phase: written.phase ?? null,
    features: features(context, [...keys, 'features'], written.features, all),
  };
};

/** `layout:` of a face; a circle written in the section itself comes before those of `circles`. */
export const layoutOf = (
  context: Context,
  keys: readonly PropertyKey[],
  written: Face['layout'],
  all: readonly string[],
): LayoutSpec => {
  if (written === undefined) return { kind: 'measured', byDefault: true };
  if (typeof written === 'string') return { kind: written };
  const own = ['circle', 'divisions', 'about', 'phase', 'features'].some(
    (k) => written[k as keyof Written] !== undefined,
  )
    ? [circle(context, keys, written, all)]
    : [];
  const more = (written.circles ?? []).map((c, i) => circle(context, [...keys, 'circles', i], c, all));
  const grid = typeof written.grid === 'number' ? { step: written.grid, features: undefined } : written.grid;
  const circles = [...own, ...more];
  if (circles.length === 0 && grid === undefined)
    faultAt(context, keys, 'missing', 'a circle, circles or a grid, such as { circle: 7 1/2, divisions: 12 }');
  return {
    kind: 'stated',
    circles,
    grid:
      grid === undefined
        ? null
        : { step: grid.step, features: features(context, [...keys, 'grid', 'features'], grid.features, all) },
  };
};
