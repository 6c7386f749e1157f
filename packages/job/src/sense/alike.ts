import { formatLength } from '@fayplate/core';
import type { Feature, Reading } from '../types.js';
import { type Context, faultAt, warnAt } from './context.js';
import { type Namable, namedFeature } from './readings.js';

/**
 * Features of one size, holes of one drill or studs of one bar, may each differ from their middle by this, mm: a ± at
 * 95 % (common practice).
 */
export const DIFFER = 0.05;

/** So many diameters read tell the size of all; a misreading of one of them shows. */
export const ENOUGH_READ = 3;

/**
 * ± of the diameter of one that is not read, from the ± of those of its size that are, mm. What their median may be off
 * is common to all that rest on it, two of which may end one distance: it counts √2 times, so that their sum is as sure
 * as it says.
 */
export const alikePlusMinus = (read: readonly number[]): number => {
  // A median is looser than a mean by √(π/2) at most.
  const wide = read.length > 2 ? Math.sqrt(Math.PI / 2) : 1;
  const middle = wide * Math.hypot(DIFFER / Math.sqrt(read.length), Math.hypot(...read) / read.length);
  return Math.hypot(DIFFER, Math.SQRT2 * middle);
};

/**
 * Features with the diameters that `alike` gives: one of the group that has none of its own, or only its thread's limits,
 * takes the median of those that are read or stated.
 */
export const withAlike = (
  context: Context,
  keys: readonly PropertyKey[],
  names: readonly string[] | undefined,
  namable: Namable,
  features: readonly Feature[],
  readings: readonly Reading[],
): readonly Feature[] => {
  if (names === undefined) return features;
  for (const name of names) namedFeature(context, [...keys, 'alike'], name, namable);
  if (new Set(names).size < 2)
    faultAt(context, [...keys, 'alike'], 'value', 'two different features or more, such as alike: [P1, P2, P3, P4]');
  const group = features.filter((f) => names.includes(f.id) && f.kind !== 'edge');
  const known = group
    .flatMap((f) => {
      const read = readings.filter((r) => r.kind === 'dia' && !r.aside && r.features[0] === f.id);
      const own = f.diameterFrom === 'job' && f.diameter !== null ? [f.diameter] : [];
      return [...read, ...own].map(({ value, plusMinus }) => ({ id: f.id, value, plusMinus: plusMinus ?? 0 }));
    })
    .toSorted((a, b) => a.value - b.value);
  const [least, most] = [known[0], known.at(-1)];
  const [low, high] = [known[(known.length - 1) >> 1], known[known.length >> 1]];
  if (least === undefined || most === undefined || low === undefined || high === undefined) return features;
  if (most.value - least.value > 2 * DIFFER + least.plusMinus + most.plusMinus)
    warnAt(
      context,
      [...keys, 'alike'],
      'not-alike',
      `features of one size: ${least.id} is ${formatLength(least.value, context.unit)} ${context.unit} and ${most.id} ` +
        `${formatLength(most.value, context.unit)} ${context.unit}; leave out of \`alike\` what is of another size`,
    );
  const size = {
    // The median: of three one misreading does not move it.
    value: (low.value + high.value) / 2,
    plusMinus: alikePlusMinus(known.map((k) => k.plusMinus)),
  };
  const has = new Set(known.map((k) => k.id));
  return features.map((f) =>
    group.includes(f) && !has.has(f.id) ? { ...f, diameter: size, diameterFrom: 'job' as const } : f,
  );
};
