import type { JobFile } from '../schema/file.js';
import type { CutSpec } from '../types.js';
import { type Context, entriesAt, faultAt, isSpoiled, known, namesAt } from './context.js';

type Written = NonNullable<NonNullable<JobFile['plate']>['cuts']>;

const kinds = ['hole', 'slot', 'pocket'] as const;

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
          'a `hole`, a `slot` or a `pocket` with its size, such as { hole: 8 mm, at: [12, -40] }',
          {
            key: true,
          },
        );
      return [];
    }
    if (second !== undefined)
      faultAt(context, [...keys, second], 'conflict', `one of hole, slot and pocket: ${what} stands there already`);
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
    if (what === 'pocket' && cut.depth === undefined && !isSpoiled(context, [...keys, 'depth']))
      faultAt(
        context,
        [...keys, 'pocket'],
        'missing',
        '`depth` as well: a pocket has a floor; what goes through is a hole',
      );
    for (const key of ['length', 'angle'] as const)
      if (what !== 'slot' && cut[key] !== undefined)
        faultAt(context, [...keys, key], 'out-of-place', `"${key}" of a slot only`);
    return [
      {
        name,
        what,
        width: cut[what] ?? 0,
        length: cut.length ?? 0,
        angle: cut.angle ?? 0,
        at: cut.at,
        face,
        depth: cut.depth ?? null,
        side: cut.side ?? (face === between[1] ? 'B' : 'A'),
        why: cut.why ?? null,
      },
    ];
  });
