import type { JobFile } from '../schema/file.js';
import type { Face, Instrument, TrialGap, TrialSpec } from '../types.js';
import { type Context, entriesAt, faultAt, known, namesAt } from './context.js';

type Written = NonNullable<JobFile['trial']>;

const keys = ['trial'];
/** A plane takes three places. */
const PLANE = 3;
/** Most shims in a pile where the job does not say, as in a stack. */
const AT_MOST = 3;

/** The trial assembly: gaps at features of one part or at stated places, each with its ± or the instrument's. */
export const trialOf = (
  context: Context,
  written: Written,
  faces: readonly Face[],
  instruments: ReadonlyMap<string, Instrument>,
): TrialSpec | null => {
  const face = faces.find((f) => f.name === written.on);
  known(
    context,
    [...keys, 'on'],
    written.on,
    faces.map((f) => f.name),
    'a face of the job',
  );
  if (written.by !== undefined)
    known(context, [...keys, 'by'], written.by, namesAt(context, ['instruments']), 'an instrument of the job');
  const instrument = written.by === undefined ? undefined : instruments.get(written.by);
  if (instrument !== undefined && instrument.measures !== 'length')
    faultAt(context, [...keys, 'by'], 'wrong-instrument', 'an instrument that measures a length');
  const entries = entriesAt(context, [...keys, 'gaps'], written.gaps);
  const gaps = entries.flatMap(([name, g]): readonly TrialGap[] => {
    const { gap, at } = 'gap' in g ? g : { gap: g, at: null };
    const here = [...keys, 'gaps', name];
    if (at === null && face !== undefined) {
      const names = face.features.map((f) => f.id);
      if (!names.includes(name))
        faultAt(
          context,
          here,
          'unknown-name',
          `a feature of ${face.name}, or a place with it: { gap: …, at: [x, y] }`,
          {
            found: name,
            key: true,
            among: names,
          },
        );
    }
    const plusMinus = gap.plusMinus ?? instrument?.each ?? null;
    if (plusMinus === null && written.by === undefined)
      faultAt(context, here, 'no-plus-minus', 'a ± of the gap, or `by:` an instrument for all of them');
    return plusMinus === null ? [] : [{ name, at, value: gap.value, plusMinus }];
  });
  if (entries.length < PLANE && namesAt(context, [...keys, 'gaps']).length < PLANE)
    faultAt(context, [...keys, 'gaps'], 'value', 'gaps at three places or more: fewer do not tell how the part leans', {
      key: true,
    });
  if (written.where === 'inside' && written.leave === undefined)
    faultAt(context, keys, 'missing', '`leave` as well: the gap that is to be left inside', { key: true });
  const { shims } = written;
  return face === undefined
    ? null
    : {
        face: face.name,
        gaps,
        instrument: written.by ?? null,
        zero: instrument?.zero ?? null,
        inside: written.where === 'inside',
        leave: written.leave ?? 0,
        gasket: written.gasket ?? null,
        shims: shims === undefined ? null : { from: shims.from, atMost: shims['at most'] ?? AT_MOST },
      };
};
