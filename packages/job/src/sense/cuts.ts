import type { JobFile } from '../schema/file.js';
import type { CutSpec } from '../types.js';
import { type Context, entriesAt, faultAt, isSpoiled, known, namesAt } from './context.js';

type Written = NonNullable<NonNullable<JobFile['plate']>['cuts']>;

const kinds = ['hole', 'slot', 'pocket', 'notch'] as const;

/** Radius of the corners of a pocket with straight sides where none is said, mm: a 6 mm end mill reaches into them. */
const CORNER = 3;

/** `plate.cuts`: each with one size, a place on one of the two faces, and the depth that its kind asks for. */
export const cutsOf = (
  context: Context,
  written: Written | undefined,
  between: readonly [string, string],
): readonly CutSpec[] =>
  entriesAt(context, ['plate', 'cuts'], written).flatMap(([name, cut]): readonly CutSpec[] => {
    const keys = ['plate', 'cuts', name];
    const stated = kinds.filter((k) => cut[k] !== undefined);
    const [what, second] = stated;
    if (what === undefined) {
      if (!kinds.some((k) => isSpoiled(context, [...keys, k])))
        faultAt(
          context,
          keys,
          'missing',
          'a `hole`, a `slot`, a `pocket` or a `notch` with its size, such as { hole: 8 mm, at: [12, -40] }',
          {
            key: true,
          },
        );
      return [];
    }
    if (second !== undefined)
      faultAt(
        context,
        [...keys, second],
        'conflict',
        `one of hole, slot, pocket and notch: ${what} stands there already`,
      );
    const face = cut.face ?? between[0];
    if (cut.face !== undefined)
      known(context, [...keys, 'face'], cut.face, between, 'one of the two faces of `between`');
    if ('feature' in cut.at)
      known(
        context,
        [...keys, 'at'],
        cut.at.feature,
        namesAt(context, ['faces', face, 'features']),
        `a place such as [12, -40], or a feature of ${face}`,
      );
    if (what === 'slot' && cut.length === undefined && !isSpoiled(context, [...keys, 'length']))
      faultAt(context, [...keys, 'slot'], 'missing', '`length` as well: from one end centre of the slot to the other');
    const size = cut[what];
    const [length, width] = typeof size === 'object' ? [size[0] ?? 0, size[1] ?? 0] : [0, size ?? 0];
    const straight = length > 0 || what === 'notch';
    if (what === 'pocket' && !straight && cut.depth === undefined && !isSpoiled(context, [...keys, 'depth']))
      faultAt(
        context,
        [...keys, 'pocket'],
        'missing',
        '`depth` as well: a pocket has a floor; what goes through is a hole',
      );
    if (what !== 'slot' && cut.length !== undefined)
      faultAt(context, [...keys, 'length'], 'out-of-place', '"length" of a slot only');
    if (what !== 'slot' && !straight && cut.angle !== undefined)
      faultAt(
        context,
        [...keys, 'angle'],
        'out-of-place',
        '"angle" of a slot, of a notch, or of a pocket such as [40, 25]',
      );
    if (!straight && cut.corner !== undefined)
      faultAt(context, [...keys, 'corner'], 'out-of-place', '"corner" of a notch, or of a pocket such as [40, 25]');
    const most = Math.min(width, what === 'notch' ? width : length) / 2;
    if (straight && cut.corner !== undefined && cut.corner > most + 1e-9)
      faultAt(
        context,
        [...keys, 'corner'],
        'value',
        `no more than half of the ${what === 'notch' ? 'width' : 'shorter side'}`,
      );
    return [
      {
        name,
        what,
        width,
        length: straight ? length : (cut.length ?? 0),
        angle: cut.angle ?? (what === 'notch' ? null : 0),
        ...(straight ? { corner: cut.corner ?? (what === 'notch' ? most : Math.min(CORNER, most)) } : {}),
        at: cut.at,
        face,
        depth: cut.depth ?? null,
        side: cut.side ?? (face === between[1] ? 'B' : 'A'),
        why: cut.why ?? null,
      },
    ];
  });
