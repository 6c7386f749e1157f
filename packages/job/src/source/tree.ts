import { type Node as YamlNode, isAlias, isMap, isScalar, isSeq } from 'yaml';
import type { FaultCode } from '../types/fault.js';
import type { Findings } from '../faults/findings.js';
import type { Source, Span } from './source.js';

/** The file as typed, with the place of every key and value: a value is the text as written, its quotes taken off. */
export type Node = Text | Section | List | Nothing;

export interface Text {
  readonly kind: 'text';
  readonly text: string;
  readonly span: Span;
}

export interface Section {
  readonly kind: 'section';
  readonly entries: ReadonlyMap<string, Entry>;
  readonly span: Span;
}

interface List {
  readonly kind: 'list';
  readonly items: readonly Node[];
  readonly span: Span;
}

interface Nothing {
  readonly kind: 'nothing';
  readonly span: Span;
  /** Something stood here that was refused already. */
  readonly refused: boolean;
}

interface Entry {
  readonly key: Span;
  readonly node: Node;
}

const spanOf = (node: YamlNode): Span => ({ from: node.range?.[0] ?? 0, to: node.range?.[1] ?? 0 });

/**
 * YAML's document → the tree, refusing what a job file has no use for: anchors, aliases, tags, merge and duplicate
 * keys.
 */
export const treeOf = (contents: unknown, source: Source, findings: Findings): Node => {
  const refuse = (span: Span, path: string, expected: string, code: FaultCode = 'alias'): void =>
    findings.fault({ code, at: span.from, found: source.text.slice(span.from, span.to), expected, path });

  const convert = (node: unknown, path: string, fallback: Span): Node => {
    if (isAlias(node)) {
      refuse(spanOf(node), path, 'the thing itself written out: aliases (*) are not read');
      return { kind: 'nothing', span: spanOf(node), refused: true };
    }
    if (!isScalar(node) && !isMap(node) && !isSeq(node)) return { kind: 'nothing', span: fallback, refused: false };
    const span = spanOf(node);
    if (node.anchor !== undefined)
      refuse(markBefore(source.text, span.from, '&'), path, 'no anchor (&): aliases are not read');
    else if (node.tag !== undefined)
      refuse(markBefore(source.text, span.from, '!'), path, 'no tag (!): values are read from their own words');
    if (isScalar(node)) {
      if (node.value === null && (node.source ?? '') !== '"null"')
        return { kind: 'nothing', span: span.to > span.from ? span : fallback, refused: false };
      return {
        kind: 'text',
        text: spaced(typeof node.value === 'string' ? node.value : (node.source ?? String(node.value))),
        span,
      };
    }
    if (isSeq(node))
      return { kind: 'list', items: node.items.map((item, i) => convert(item, join(path, String(i)), span)), span };
    const entries = new Map<string, Entry>();
    for (const pair of node.items) {
      if (isAlias(pair.key)) {
        refuse(spanOf(pair.key), path, 'the name itself: aliases (*) are not read');
        continue;
      }
      if (!isScalar(pair.key)) {
        refuse(
          isMap(pair.key) || isSeq(pair.key) ? spanOf(pair.key) : span,
          path,
          'one plain name before the colon',
          'syntax',
        );
        continue;
      }
      const key = spanOf(pair.key);
      const name = (typeof pair.key.value === 'string' ? pair.key.value : (pair.key.source ?? '')).normalize('NFC');
      const at = join(path, name);
      if (pair.key.anchor !== undefined) refuse(key, at, 'no anchor (&): aliases are not read');
      if (name === '<<') refuse(key, at, 'no merge key (<<): everything is written out where it belongs');
      else if (name === '__proto__') refuse(key, at, 'another name than __proto__', 'bad-name');
      else if (entries.has(name)) refuse(key, at, `"${name}" once only in this section`, 'twice');
      else entries.set(name, { key, node: convert(pair.value, at, key) });
    }
    return { kind: 'section', entries, span };
  };
  return convert(contents, '', { from: 0, to: 0 });
};

/**
 * Spaces of other widths, as telephones and word processors set them, are spaces; é is é whether typed as one sign or
 * two.
 */
const spaced = (text: string): string =>
  text
    .replace(/[\u00a0\u2000-\u200a\u202f]/g, ' ')
    .trim()
    .normalize('NFC');

/** The anchor or tag stands before its value; its own place is looked for backwards on the same line. */
const markBefore = (text: string, offset: number, mark: string): Span => {
  const start = text.lastIndexOf('\n', Math.max(0, offset - 1)) + 1;
  let at = text.lastIndexOf(mark, offset);
  while (at > start && text[at - 1] === mark) at--;
  if (at < start) return { from: offset, to: offset };
  const end = /[\s,\]}]/.exec(text.slice(at, at + 80));
  return { from: at, to: at + (end?.index ?? 80) };
};

export const join = (path: string, key: string): string => (path === '' ? key : `${path}.${key}`);

/** The node at a place, or null. */
export const nodeAt = (root: Node, keys: readonly PropertyKey[]): Node | null => {
  let node: Node | undefined = root;
  for (const key of keys) {
    if (node?.kind === 'section') node = node.entries.get(String(key))?.node;
    else if (node?.kind === 'list') node = node.items[Number(key)];
    else return null;
  }
  return node ?? null;
};

/** Where to point for a place: its value (or its key), or, where it is not in the file, the nearest section above. */
export const spanAt = (root: Node, keys: readonly PropertyKey[], what: 'key' | 'value' = 'value'): Span => {
  let node: Node = root;
  let span: Span = { from: root.span.from, to: root.span.from };
  for (const [i, key] of keys.entries()) {
    const last = i === keys.length - 1;
    if (node.kind === 'section') {
      const entry = node.entries.get(String(key));
      if (entry === undefined) return span;
      node = entry.node;
      span = last && what === 'value' ? node.span : entry.key;
    } else if (node.kind === 'list') {
      const item: Node | undefined = node.items[Number(key)];
      if (item === undefined) return span;
      node = item;
      span = node.span;
    } else return span;
  }
  return span;
};

/** A section's entry as a section, list or text, or null. */
export const sectionAt = (root: Node, ...keys: readonly PropertyKey[]): Section | null => {
  const node = nodeAt(root, keys);
  return node?.kind === 'section' ? node : null;
};
