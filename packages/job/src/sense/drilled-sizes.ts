import type { JobFile } from '../schema/file.js';
import type { DrilledSizes } from '../types.js';
import { type Context, entriesAt, faultAt } from './context.js';

/** `H1`, `H2` …, `C1`, `C2` …: the plate's holes, and its bores and registers, numbered only once it is designed. */
export const plateHole = /^[HC][1-9]\d{0,3}$/;
export const plateBore = /^C[1-9]\d{0,3}$/;

/** What a plate, or one piece of it, measures, as written. */
export type Written = Omit<NonNullable<JobFile['drilled']>, 'pieces'>;
export type Keys = readonly PropertyKey[];

/** Thickness and depths of the finished plate; null where none is written. */
export const drilledSizesOf = (context: Context, keys: Keys, written: Written): DrilledSizes | null => {
  const depths = entriesAt(context, [...keys, 'depths'], written.depths);
  for (const [name] of depths)
    if (!plateBore.test(name))
      faultAt(context, [...keys, 'depths', name], 'unknown-name', 'a recess or raised spigot of the plate, C1, C2 …', {
        found: name,
        key: true,
      });
  const slots = entriesAt(context, [...keys, 'slots'], written.slots);
  for (const [name] of slots)
    if (!plateHole.test(name))
      faultAt(context, [...keys, 'slots', name], 'unknown-name', 'a slot of the plate, H1, H2 …', {
        found: name,
        key: true,
      });
  const outline = outlineOf(context, [...keys, 'outline'], written.outline);
  return written.thickness === undefined && depths.length === 0 && slots.length === 0 && outline === null
    ? null
    : {
        thickness: written.thickness?.value ?? null,
        ...(written.thickness?.plusMinus == null ? {} : { thicknessWithin: written.thickness.plusMinus }),
        depths: new Map(depths),
        ...(outline === null ? {} : { outline }),
        ...(slots.length === 0
          ? {}
          : { slots: new Map(slots.map(([id, s]) => [id, { width: s.width ?? null, length: s.length ?? null }])) }),
      };
};

/** Width and height, or one diameter. */
const outlineOf = (
  context: Context,
  keys: Keys,
  written: Written['outline'],
): NonNullable<DrilledSizes['outline']> | null => {
  if (written === undefined) return null;
  const { width, height, diameter } = written;
  if (diameter !== undefined && width === undefined && height === undefined) return { diameter };
  if (diameter === undefined && width !== undefined && height !== undefined) return { width, height };
  faultAt(context, keys, 'missing', 'its width and height, or the diameter of a round plate');
  return null;
};
