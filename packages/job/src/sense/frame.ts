import type { JobFile } from '../schema/file.js';
import type { Face } from '../types.js';
import { type Context, faultAt } from './context.js';
import { type Namable, namedFeature } from './readings.js';

type Frame = Pick<NonNullable<JobFile['faces']>[string], 'centre' | 'up' | 'across'>;

/** Fewer places than this make no circle. */
export const CIRCLE = 3;

/** Stands for the features of the layout's own circle. */
const LAYOUT = 'layout';

/** Origin and direction of a face: every feature named must exist, and the direction must be one. */
export const frameOf = (
  context: Context,
  keys: readonly PropertyKey[],
  written: Frame,
  namable: Namable,
): Pick<Face, 'centre' | 'centreCircle' | 'centreLaid' | 'up' | 'across'> => {
  const check = (key: string, name: string): void => namedFeature(context, [...keys, key], name, namable);
  const { up, across } = written;
  const named = typeof written.centre === 'object' ? written.centre.circle : null;
  // A feature may have that name.
  const laid = named?.length === 1 && named[0] === LAYOUT && !namable.has(LAYOUT);
  const circle = laid ? null : named;
  const centre = typeof written.centre === 'string' ? written.centre : undefined;
  if (centre !== undefined) check('centre', centre);
  if (named !== null && across !== undefined)
    faultAt(
      context,
      [...keys, 'across'],
      'conflict',
      '`up` beside a circle: `across` puts the origin at its first feature',
    );
  if (circle !== null) {
    for (const name of circle) check('centre', name);
    if (new Set(circle).size < CIRCLE)
      faultAt(
        context,
        [...keys, 'centre'],
        'value',
        'three different features or more, such as { circle: [S1, S2, S3] }, or { circle: layout }',
      );
  }
  if (up !== undefined) {
    check('up', up);
    if (up === centre)
      faultAt(
        context,
        [...keys, 'up'],
        'conflict',
        'another feature than `centre`: it shows which way is up from there',
      );
    if (across !== undefined)
      faultAt(context, [...keys, 'across'], 'conflict', '`up` or `across`, not both: each of them says the direction');
  }
  if (across !== undefined) {
    for (const name of across) check('across', name);
    if (across.length !== 2) faultAt(context, [...keys, 'across'], 'value', 'two features, such as across: P10 P4');
    else if (across[0] === across[1]) faultAt(context, [...keys, 'across'], 'twice', 'two different features');
  }
  const [from, to] = across ?? [];
  return {
    centre: centre ?? null,
    ...(laid ? { centreCircle: [], centreLaid: true as const } : circle === null ? {} : { centreCircle: circle }),
    up: up ?? null,
    across: from === undefined || to === undefined ? null : [from, to],
  };
};
