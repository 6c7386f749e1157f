import type { JobFile } from '../schema/file.js';
import type { Instrument, Job, OldPlate } from '../types.js';
import { type Context, faultAt, known, namesAt } from './context.js';

type Written = NonNullable<JobFile['old']>;

/**
 * The old plate: its thickness and shims, and the two reaches with the ± of one reading. Null where a reach has no ±.
 */
export const oldOf = (
  context: Context,
  written: Written,
  instruments: ReadonlyMap<string, Instrument>,
): OldPlate | null => {
  const { reach } = written;
  const plate = { thickness: written.thickness, shims: written.shims ?? null };
  if (reach === undefined) return { ...plate, reach: null };
  const keys = ['old', 'reach'];
  if (reach.by !== undefined)
    known(context, [...keys, 'by'], reach.by, namesAt(context, ['instruments']), 'an instrument of the job');
  const instrument = reach.by === undefined ? undefined : instruments.get(reach.by);
  if (instrument !== undefined && instrument.measures !== 'length')
    faultAt(context, [...keys, 'by'], 'wrong-instrument', 'an instrument that measures a length');
  const each = reach.each ?? instrument?.each ?? null;
  if (each === null) {
    if (reach.by === undefined)
      faultAt(context, keys, 'no-plus-minus', '`by:` an instrument, or `each: ± …` of one reading', { key: true });
    return null;
  }
  return {
    ...plate,
    reach: { old: reach.old, new: reach.new, each, zero: instrument?.zero ?? null, instrument: reach.by ?? null },
  };
};

/** A thickness from the old plate wants one. */
export const oldWanted = (context: Context, job: Job): void => {
  if (job.plate?.thickness === 'from old' && !namesAt(context, []).includes('old'))
    faultAt(
      context,
      ['plate', 'thickness'],
      'missing',
      'an `old` section as well, such as old: { thickness: 18.2 ± 0.05 ' +
        'mm, reach: { old: 61.2 mm, new: 58.4 mm, by: gauge } }',
    );
};
