import { type Measure, formatLength } from '@fayplate/core';
import { classLimits, parseThread, threads } from '@fayplate/handbook';
import type { JobFile } from '../schema/file.js';
import type { Feature } from '../types.js';
import { type Context, faultAt, warnAt } from './context.js';

type Written = NonNullable<NonNullable<JobFile['faces']>[string]['features']>[string];

const threadNames: readonly string[] = threads.map((t) => t.name);

/**
 * Middle of the thread's class limits ± half their width: a stud's major diameter, a tapped hole's minor (jaws touch
 * the crests).
 */
const diameterOfThread = (kind: Feature['kind'], text: string): Measure | null => {
  const thread = parseThread(text);
  if (thread === null || (kind !== 'stud' && kind !== 'hole')) return null;
  const { external, internal } = classLimits(thread);
  const { least, most } = kind === 'stud' ? external : internal;
  return { value: (least + most) / 2, plusMinus: (most - least) / 2 };
};

/** A thread that the handbook has; says so where not. */
export const knownThread = (
  context: Context,
  keys: readonly PropertyKey[],
  text: string | undefined,
): string | null => {
  if (text === undefined) return null;
  if (parseThread(text) !== null) return text;
  faultAt(
    context,
    keys,
    'unknown-name',
    'a thread of the tables, such as 3/8-16 UNC, M10, M10x1.25, ' +
      '5/16 BSF or 2 BA; for any other give the diameter alone',
    {
      found: text,
      among: threadNames,
    },
  );
  return null;
};

/** The word for how far a feature of this kind stands out, where the one for another kind was written. */
const insteadOf = (key: string, kind: Written['kind']): string =>
  key === 'height' && (kind === 'stud' || kind === 'dowel' || kind === 'spigot')
    ? `; how far a ${kind} stands out is "stands"`
    : key === 'stands' && kind === 'boss'
      ? '; how far a boss stands out is "height"'
      : '';

/** `measured`: features with a `dia` reading that takes part. */
export const featureOf = (
  context: Context,
  keys: readonly PropertyKey[],
  id: string,
  written: Written,
  measured: ReadonlySet<string>,
): Feature => {
  const thread = knownThread(context, [...keys, 'thread'], written.thread);
  const fromThread =
    written.diameter === undefined && !measured.has(id) && thread !== null
      ? diameterOfThread(written.kind, thread)
      : null;
  const { kind } = written;
  if (kind === 'edge' && written.diameter !== undefined)
    faultAt(context, [...keys, 'diameter'], 'out-of-place', 'no diameter: an edge is straight');
  for (const [key, of] of [
    ['stands', ['stud', 'dowel', 'spigot']],
    ['lean', ['stud']],
    ['deep', ['hole', 'bore']],
    ['height', ['boss']],
  ] as const)
    if (written[key] !== undefined && !of.some((k) => k === kind))
      faultAt(
        context,
        [...keys, key],
        'out-of-place',
        `"${key}" on a ${of.join(' or a ')} only${insteadOf(key, kind)}`,
      );
  if (written.thread !== undefined && kind !== 'stud' && kind !== 'hole')
    faultAt(context, [...keys, 'thread'], 'out-of-place', 'a thread on a stud or a hole only');
  thickerThanThread(context, keys, written, thread);
  return {
    id,
    kind,
    diameter: written.diameter ?? fromThread,
    diameterFrom: written.diameter === undefined ? (fromThread === null ? null : 'thread') : 'job',
    thread,
    clock: written.clock ?? null,
    vacant: written.vacant ?? false,
    stands: written.stands ?? null,
    deep: written.deep ?? null,
    lean: written.lean ?? null,
    height: written.height?.value ?? null,
    ...(written.height?.plusMinus == null ? {} : { heightWithin: written.height.plusMinus }),
  };
};

const thickerThanThread = (
  context: Context,
  keys: readonly PropertyKey[],
  written: Written,
  text: string | null,
): void => {
  const thread = text === null ? null : parseThread(text);
  if (thread === null || written.kind !== 'stud' || written.diameter === undefined) return;
  const { value, plusMinus } = written.diameter;
  if (value - (plusMinus ?? 0) > thread.major + 1e-9)
    warnAt(
      context,
      [...keys, 'diameter'],
      'fat-stud',
      `a stud no thicker than its thread: ${thread.name} is ${formatLength(thread.major, context.unit)} ` +
        `${context.unit} over its crests`,
    );
};
