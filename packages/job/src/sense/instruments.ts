import type { JobFile } from '../schema/file.js';
import type { Instrument } from '../types.js';
import { type Context, entriesAt, faultAt } from './context.js';

export const instruments = (context: Context, sheet: JobFile): ReadonlyMap<string, Instrument> =>
  new Map(
    entriesAt(context, ['instruments'], sheet.instruments).map(([name, written]) => {
      const { each, zero } = 'each' in written ? written : { each: written, zero: undefined };
      if (zero !== undefined && zero.measures !== each.measures)
        faultAt(
          context,
          ['instruments', name, 'zero'],
          'conflict',
          each.measures === 'angle' ? 'an angle, as `each` is one' : 'a length, as `each` is one',
        );
      return [name, { name, measures: each.measures, each: each.plusMinus, zero: zero?.plusMinus ?? null }];
    }),
  );
