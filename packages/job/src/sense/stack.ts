import { plateStock } from '@fayplate/handbook';
import { linkName } from '../faults/names.js';
import type { JobFile } from '../schema/file.js';
import { spanAt } from '../source/tree.js';
import type { StackLimit, StackLink, StackSpec } from '../types.js';
import { type Context, entriesAt, faultAt, isSpoiled, namesAt } from './context.js';
import { readSum } from './sum.js';

type Written = NonNullable<JobFile['stack']>;
type Link = Exclude<Written['links'][string], Written['links']['shims'] | Written['links']['on hand']>;

/** Keys of `links` that are no links. */
const beside = ['shims', 'on hand'];
type Unknown = Extract<Link, { find: unknown }>;

const isUnknown = (link: Link): link is Unknown => 'find' in link;

const limitOf = (
  context: Context,
  name: string,
  written: NonNullable<Written['limits']>[string],
  links: readonly string[],
): StackLimit => {
  const keys = ['stack', 'limits', name];
  const read = readSum(written.sum, links);
  if (!read.ok)
    for (const f of read.faults) {
      const span = spanAt(context.tree, [...keys, 'sum']);
      const lead = Math.max(0, context.source.text.slice(span.from, span.to).indexOf(written.sum));
      context.findings.fault({ ...f, at: span.from + lead + f.at, path: [...keys, 'sum'].join('.'), sense: true });
    }
  const { least = null, most = null } = written;
  if (
    least === null &&
    most === null &&
    !isSpoiled(context, [...keys, 'least']) &&
    !isSpoiled(context, [...keys, 'most'])
  )
    faultAt(context, keys, 'missing', '`least` or `most`, or both', { key: true });
  if (least !== null && most !== null && least > most)
    faultAt(context, [...keys, 'most'], 'conflict', '`most` not below `least`');
  return { name, sum: read.ok ? read.sum : new Map(), least, most };
};

/**
 * The chain along the shaft: every link with its ±, one of them looked for. Null where the unknown is missing or
 * doubled.
 */
export const stackOf = (context: Context, written: Written): StackSpec | null => {
  const keys = ['stack', 'links'];
  const names = namesAt(context, keys).filter((n) => !beside.includes(n));
  for (const name of names)
    if (!linkName.test(name))
      faultAt(context, [...keys, name], 'bad-name', linkName.expected, { key: true, found: name });
  const read = entriesAt(context, keys, written.links as Readonly<Record<string, Link>>).filter(
    ([name]) => !beside.includes(name),
  );
  const links: StackLink[] = [];
  const unknowns: (readonly [string, Unknown])[] = [];
  for (const [name, link] of read) {
    if (isUnknown(link)) unknowns.push([name, link]);
    else links.push({ name, ...link });
  }
  for (const [name] of unknowns.slice(1))
    faultAt(context, [...keys, name], 'twice', 'one link only with `find`', { key: true });
  const limits = entriesAt(context, ['stack', 'limits'], written.limits).map(([name, l]) =>
    limitOf(context, name, l, names),
  );
  const [unknown] = unknowns;
  if (unknown === undefined) {
    if (read.length === names.length)
      faultAt(context, keys, 'missing', 'one link that is looked for, such as plate: { find: 12 .. 30 mm }', {
        key: true,
      });
    return null;
  }
  const [name, { find, made, 'on hand': own }] = unknown;
  const onHand = [own, written.links['on hand'], written['on hand']].filter((list) => list !== undefined);
  if (onHand.length > 1)
    faultAt(context, keys, 'twice', '`on hand` once only: in the link, beside the links or in the stack', {
      key: true,
    });
  const { shims } = written.links;
  return {
    links,
    unknown: { name, from: find[0], to: find[1], made: made ?? null },
    shims: shims === undefined ? null : { from: shims.from, atMost: shims['at most'] ?? 3 },
    onHand: onHand[0] ?? null,
    stock: plateStock(context.unit).map((s) => s.thickness),
    limits,
  };
};
