import type { ReadLine } from '../reading/grammar.js';
import type { RawLine } from '../reading/lines.js';
import type { Reading } from '../types.js';
import type { LengthUnit } from '@fayplate/core';
import type { FaultCode } from '../types/fault.js';
import type { Finding, Findings } from '../faults/findings.js';
import { shortened } from '../faults/findings.js';
import type { Source, Span } from '../source/source.js';
import { type Node, sectionAt, spanAt } from '../source/tree.js';

/** What every check of sense may ask: the file, its places, and where to say what is wrong. */
export interface Context {
  readonly source: Source;
  readonly tree: Node;
  readonly unit: LengthUnit;
  readonly findings: Findings;
  /** Dotted places whose values could not be read: what depends on them is not judged. */
  readonly spoiled: ReadonlySet<string>;
  readonly csv: (name: string) => string | null;
}

/** A reading with what only the checks after it need. */
export interface Taken {
  readonly reading: Reading;
  readonly line: ReadLine;
  readonly raw: RawLine;
}

type Keys = readonly PropertyKey[];

/** Names of the entries of a section as typed, whether or not each could be read. */
export const namesAt = (context: Context, keys: Keys): readonly string[] => [
  ...(sectionAt(context.tree, ...keys)?.entries.keys() ?? []),
];

export const isSpoiled = (context: Context, keys: Keys): boolean => {
  for (let n = keys.length; n > 0; n--) if (context.spoiled.has(keys.slice(0, n).join('.'))) return true;
  return false;
};

const textOf = (context: Context, span: Span): string => context.source.text.slice(span.from, span.to);

interface Options {
  readonly found?: string;
  readonly among?: readonly string[];
  /** Point at the key, not the value. */
  readonly key?: boolean;
  /** A word inside the value to point at. */
  readonly inside?: string;
}

const finding = (context: Context, keys: Keys, code: FaultCode, expected: string, options: Options): Finding => {
  const span = spanAt(context.tree, keys, options.key === true ? 'key' : 'value');
  const within =
    options.inside === undefined ? -1 : context.source.text.slice(span.from, span.to).indexOf(options.inside);
  return {
    code,
    at: span.from + Math.max(0, within),
    found: options.found ?? options.inside ?? shortened(textOf(context, span)),
    expected,
    path: keys.map(String).join('.'),
    sense: true,
    ...(options.among === undefined ? {} : { among: options.among }),
  };
};

export const faultAt = (context: Context, keys: Keys, code: FaultCode, expected: string, options: Options = {}): void =>
  context.findings.fault(finding(context, keys, code, expected, options));

export const warnAt = (context: Context, keys: Keys, code: FaultCode, expected: string, options: Options = {}): void =>
  context.findings.warn(finding(context, keys, code, expected, options));

/** A name that must be one of those given: reports it where it is not. */
export const known = (
  context: Context,
  keys: Keys,
  name: string,
  names: readonly string[],
  what: string,
  options: Options = {},
): boolean => {
  if (names.includes(name)) return true;
  const list = names.length === 0 ? `${what}, and there is none` : `${what}: ${listed(names)}`;
  faultAt(context, keys, 'unknown-name', list, {
    ...options,
    inside: options.inside ?? name,
    found: name,
    among: names,
  });
  return false;
};

/** The first few names, for a message. */
export const listed = (names: readonly string[]): string =>
  names.length <= 12 ? names.join(', ') : `${names.slice(0, 12).join(', ')} … (${names.length} in all)`;

/**
 * Entries of a section in the order of the file; those that could not be read are left out. A plain record would sort
 * names that are numbers.
 */
export const entriesAt = <T>(
  context: Context,
  keys: Keys,
  record: Readonly<Record<string, T>> | undefined,
): readonly (readonly [string, T])[] =>
  record === undefined
    ? []
    : namesAt(context, keys).flatMap((name) =>
        Object.hasOwn(record, name) ? [[name, record[name] as T] as const] : [],
      );
