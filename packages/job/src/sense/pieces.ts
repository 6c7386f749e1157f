import type { JobFile } from '../schema/file.js';
import type { PiecesSpec } from '../types.js';
import { type Context, faultAt } from './context.js';
import { knownThread } from './features.js';

type Plate = NonNullable<JobFile['plate']>;
type Written = NonNullable<Plate['pieces']>;

/** Fewer dowels than this let the pieces turn, fewer screws let them gape. */
const LEAST = 2;

/** What holds two pieces together, judged against the plate that they make. */
export const piecesOf = (context: Context, plate: Plate, written: Written, between: readonly string[]): PiecesSpec => {
  const keys = ['plate', 'pieces'];
  if (typeof plate.thickness !== 'string' && written.first >= plate.thickness.value)
    faultAt(
      context,
      [...keys, 'first'],
      'conflict',
      'less than the thickness of the whole plate: the second piece has the rest',
    );
  const [one = 'ring', two = 'plate'] = written.names ?? [];
  if (one === two) faultAt(context, [...keys, 'names'], 'twice', 'two different names');
  for (const name of [one, two])
    if (between.includes(name))
      faultAt(context, [...keys, 'names'], 'conflict', `another name than the part's: ${name}`);
  const clocks = typeof written.screws.clock === 'number' ? [written.screws.clock] : written.screws.clock;
  if (clocks.length < LEAST) faultAt(context, [...keys, 'screws', 'clock'], 'value', 'two screws or more');
  if (written.dowels.clock.length < LEAST)
    faultAt(context, [...keys, 'dowels', 'clock'], 'value', 'two dowels or more: one lets the pieces turn');
  if (plate.shafts !== undefined && 'feature' in plate.shafts.toward)
    faultAt(
      context,
      ['plate', 'shafts', 'toward'],
      'conflict',
      'an angle such as 180 deg where the plate is of two pieces',
    );
  const thread = knownThread(context, [...keys, 'screws', 'thread'], written.screws.thread);
  return {
    first: written.first,
    names: [one, two],
    screws: { thread: thread ?? written.screws.thread, circle: written.screws.circle, clocks },
    dowels: { diameter: written.dowels.diameter, circle: written.dowels.circle, clocks: written.dowels.clock },
  };
};
