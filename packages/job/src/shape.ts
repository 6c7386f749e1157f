import type * as z from 'zod/mini';
import type { LengthUnit } from '@fayplate/core';
import type { FaultCode } from './types/fault.js';
import type { Finding, Findings } from './faults/findings.js';
import { respelt } from './respell.js';
import { wordsAmong } from './schema/leaf.js';
import { type JobFile, schemaIn } from './schema/file.js';
import type { Source } from './source/source.js';
import { type Node, nodeAt, spanAt } from './source/tree.js';

type Issue = z.core.$ZodIssue;
type Plain = string | null | readonly Plain[] | { readonly [key: string]: Plain };

/** Sections and lists that may stand empty, as in a starter file: read as left out. */
const mayBeEmpty = new Set(
  (
    'instruments faces plate machine stack gaskets drilled assembled print drawing moves places work ' +
    'features readings rim layout locate fasten except limits cuts drills punches reamers clamps clocks pieces'
  ).split(' '),
);

/** The tree without its places. Records have no prototype, so that no name is special. */
const plainOf = (node: Node): Plain => {
  if (node.kind === 'text') return node.text;
  if (node.kind === 'list') return node.items.map(plainOf);
  if (node.kind === 'nothing') return null;
  const record = Object.create(null) as Record<string, Plain>;
  for (const [key, { node: value }] of node.entries)
    if (value.kind !== 'nothing' || !(value.refused || mayBeEmpty.has(key))) record[key] = plainOf(value);
  return record;
};

type Keys = readonly PropertyKey[];

/**
 * One issue of the schema as faults at places; of a value that may take several forms, those of the form that it tries
 * to be.
 */
interface ShapeFault {
  readonly keys: Keys;
  readonly expected: string;
  readonly what: 'value' | 'key' | 'missing';
  readonly code?: FaultCode;
}

/** An issue of the form that the value cannot even begin to be. */
const isOtherForm = (issues: readonly Issue[]): boolean =>
  issues.some((i) => i.path.length === 0 && i.code === 'invalid_type');

/** `{ diameter: 6,000 }` comes apart at its comma, and 000 stands as a key without a value. */
const isCommaTail = (key: string, node: Node | null): boolean => /^\d/.test(key) && node?.kind === 'nothing';

const flatten = (issue: Issue, tree: Node, above: Keys): readonly ShapeFault[] => {
  const keys = [...above, ...issue.path];
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((k) => {
      const at = [...keys, k];
      return {
        keys: at,
        expected: isCommaTail(k, nodeAt(tree, at))
          ? 'a decimal point, not a comma: a comma ends the value before it'
          : issue.message,
        what: 'key',
        code: 'unknown-key',
      };
    });
  if (issue.code === 'invalid_key') return [{ keys, expected: issue.issues[0]?.message ?? issue.message, what: 'key' }];
  if (issue.code === 'invalid_union') {
    const tried = issue.errors.filter((e) => !isOtherForm(e));
    const best = tried.length > 0 ? tried.reduce((a, b) => (b.length < a.length ? b : a)) : null;
    if (best !== null && nodeAt(tree, keys) !== null) return best.flatMap((i) => flatten(i, tree, keys));
    const forms = [...new Set(issue.errors.flatMap((e) => e.filter((i) => i.path.length === 0).map((i) => i.message)))];
    return [{ keys, expected: forms.join('; or '), what: nodeAt(tree, keys) === null ? 'missing' : 'value' }];
  }
  return [{ keys, expected: issue.message, what: nodeAt(tree, keys) === null ? 'missing' : 'value' }];
};

/** Values that stand in for needed ones that cannot be read, so that the rest of their section is judged too. */
const standIns: ReadonlyMap<string, string> = new Map([
  ['job', '-'],
  ['units', 'mm'],
  ['plate.thickness', '1 mm'],
  ['plate.fasten.*.as', 'clearance'],
]);

const standInFor = (keys: Keys): string | undefined =>
  standIns.get(keys.map((k, i) => (i === 2 && keys[1] === 'fasten' ? '*' : String(k))).join('.'));

const isRefused = (node: Node | null): boolean => node?.kind === 'nothing' && node.refused;

type Records = Record<string, Plain>;

/**
 * Takes out what could not be read, so that the rest can be judged: the entry, the list that holds it, or the section
 * that lacks a key; nothing where that section is gone already. A reading that has no form is blanked, since readings
 * are counted by their place.
 */
const prune = (plain: Plain, keys: Keys): string => {
  let holder: Plain = plain;
  let owner: { readonly of: Records; readonly key: string; readonly depth: number } | null = null;
  for (const [i, k] of keys.entries()) {
    if (holder === null || typeof holder === 'string') break;
    const key = String(k);
    const standIn = i === keys.length - 1 ? standInFor(keys) : undefined;
    if (standIn !== undefined) {
      (holder as Records)[key] = standIn;
      return keys.map(String).join('.');
    }
    if (Array.isArray(holder) && keys[i - 1] === 'readings') {
      (holder as Plain[])[Number(k)] = '';
      return keys
        .slice(0, i + 1)
        .map(String)
        .join('.');
    }
    if (!(key in holder)) {
      if (i < keys.length - 1) return '';
      break;
    }
    if (!Array.isArray(holder)) owner = { of: holder as Records, key, depth: i };
    holder = (holder as Records)[key] ?? null;
  }
  if (owner === null) return '';
  delete owner.of[owner.key];
  return keys
    .slice(0, owner.depth + 1)
    .map(String)
    .join('.');
};

interface Shape {
  readonly sheet: JobFile;
  readonly spoiled: ReadonlySet<string>;
  /** With misspelt keys under the names that they were likely meant for. */
  readonly tree: Node;
  readonly unit: LengthUnit;
}

/** What a bare number means: the job's `units`, mm where they cannot be read. */
const unitOf = (tree: Node): LengthUnit => {
  const units = nodeAt(tree, ['units']);
  return units?.kind === 'text' && units.text.toLowerCase() === 'in' ? 'in' : 'mm';
};

/**
 * The tree held against the schema: what it says where it could be read, and the dotted places where not. Every fault
 * of form is reported; what it spoils is cut out and the rest read again.
 */
export const readShape = (typed: Node, source: Source, findings: Findings): Shape | null => {
  if (typed.kind !== 'section') {
    findings.fault({
      code: 'syntax',
      at: typed.span.from,
      found: source.text.slice(typed.span.from, typed.span.to),
      expected: 'a job: sections such as job, units, instruments and faces',
      path: '',
    });
    return null;
  }
  let tree: Node = typed;
  let plain = plainOf(tree);
  let first = schemaIn(unitOf(tree)).safeParse(plain);
  // A slip in a key may hide others inside it.
  for (let depth = 0; depth < 4 && !first.success; depth++) {
    const unknown = first.error.issues
      .flatMap((issue) => flatten(issue, tree, []))
      .filter((f) => f.code === 'unknown-key')
      .map((f) => ({ keys: f.keys, expected: f.expected, known: wordsAmong(f.expected) ?? [] }));
    const mended = respelt(tree, unknown, findings);
    if (mended === tree) break;
    tree = mended;
    plain = plainOf(tree);
    first = schemaIn(unitOf(tree)).safeParse(plain);
  }
  const unit = unitOf(tree);
  const schema = schemaIn(unit);
  const spoiled = new Set<string>();
  for (let round = 0; round < 12; round++) {
    const read = round === 0 ? first : schema.safeParse(plain);
    if (read.success) return { sheet: read.data, spoiled, tree, unit };
    for (const issue of read.error.issues)
      for (const fault of flatten(issue, tree, [])) {
        if (round === 0 && !isRefused(nodeAt(tree, fault.keys))) findings.fault(said(fault, tree, source));
        spoiled.add(prune(plain, fault.keys)).add(fault.keys.map(String).join('.'));
      }
  }
  return null;
};

/** A value in the quotes of a word processor, which belong to it like any letter. */
const curly = /^[“„‘].*[”“’]$/;

const said = ({ keys, expected, what, code }: ShapeFault, tree: Node, source: Source): Finding => {
  const last = String(keys.at(-1) ?? '');
  const span = spanAt(tree, what === 'missing' ? keys.slice(0, -1) : keys, what === 'value' ? 'value' : 'key');
  const among = wordsAmong(expected);
  const node = nodeAt(tree, keys);
  const nothing = node?.kind === 'nothing' && what === 'value';
  return {
    code: code ?? (what === 'missing' ? 'missing' : what === 'key' ? 'bad-name' : 'value'),
    at: span.from,
    found:
      what === 'missing'
        ? String(keys.at(-2) ?? '')
        : what === 'key'
          ? last
          : nothing
            ? ''
            : node?.kind === 'text'
              ? node.text
              : source.text.slice(span.from, span.to),
    expected:
      what === 'missing'
        ? `\`${last}\` as well: ${expected}`
        : what === 'value' && node?.kind === 'text' && curly.test(node.text)
          ? `straight quotes, or none: "${node.text.slice(1, -1)}"`
          : expected,
    path: keys.map(String).join('.'),
    ...(among === undefined || what === 'missing' ? {} : { among }),
  };
};
