import { type Node, type Pair, type YAMLMap, isMap, isNode, isScalar, isSeq, parseDocument } from 'yaml';
import type { Change } from './change.js';
import { type Written, entryLines, flow, key } from './write.js';

export type Path = readonly (string | number)[];

/** The trees of the last texts asked for: an edit looks at the text before it and after it. */
const trees = new Map<string, Node | null>();
const KEPT = 3;

/** The document's tree with the place of every node; faults of the syntax are reported elsewhere. */
const treeOf = (text: string): Node | null => {
  const before = trees.get(text);
  if (before !== undefined) return before;
  const { contents } = parseDocument(text, { prettyErrors: false, uniqueKeys: false, logLevel: 'silent' });
  if (trees.size >= KEPT) trees.delete(trees.keys().next().value ?? '');
  trees.set(text, contents);
  return contents;
};

const keyOf = (pair: Pair): string => (isScalar(pair.key) ? String(pair.key.value) : '');
export const pairIn = (map: YAMLMap, name: string): Pair | undefined => map.items.find((p) => keyOf(p) === name);

/** The node at a path, null where nothing stands there. */
export const nodeAt = (text: string, path: Path): Node | null => {
  let node: unknown = treeOf(text);
  for (const part of path) {
    if (isMap(node)) node = pairIn(node, String(part))?.value;
    else if (isSeq(node) && typeof part === 'number') node = node.items[part];
    else return null;
  }
  return isNode(node) ? node : null;
};

export const startOf = (node: unknown): number => (isNode(node) ? (node.range?.[0] ?? 0) : 0);

/** Where a node's own text ends: after its last sign, before blanks and remarks behind it. */
export const endOf = (text: string, node: Node): number => {
  if (isMap(node) && node.flow !== true) {
    const last = node.items.at(-1);
    return last === undefined ? startOf(node) : pairEnd(text, last);
  }
  if (isSeq(node) && node.flow !== true) {
    const last = node.items.at(-1);
    return isNode(last) ? endOf(text, last) : (node.range?.[1] ?? 0);
  }
  const [from, to] = node.range ?? [0, 0, 0];
  return from + text.slice(from, to).trimEnd().length;
};

const pairEnd = (text: string, pair: Pair): number => {
  if (isNode(pair.value) && !isEmpty(pair.value)) return endOf(text, pair.value);
  const at = isNode(pair.key) ? (pair.key.range?.[1] ?? 0) : 0;
  return text.indexOf(':', at) + 1;
};

/** A key with nothing behind it. */
const isEmpty = (node: unknown): boolean =>
  node === null || node === undefined || (isScalar(node) && node.value === null && (node.source ?? '') === '');

export const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1;
export const lineEnd = (text: string, at: number): number => {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end;
};
export const indentAt = (text: string, at: number): string =>
  /^[ ]*/.exec(text.slice(lineStart(text, at), at))?.[0] ?? '';

/** A value for the rest of a path: `['bore', 'side']`, `A` → `{ bore: { side: A } }`. */
const wrapped = (rest: Path, value: Written): Written =>
  rest.reduceRight<Written>((inner, part) => ({ [String(part)]: inner }), value);

/** New lines after the line on which something ends. */
export const linesAfter = (text: string, at: number, lines: readonly string[]): Change => {
  const end = lineEnd(text, at);
  return { from: end, to: end, insert: `\n${lines.join('\n')}` };
};

const intoMap = (text: string, map: YAMLMap, path: Path, at: number, value: Written): Change => {
  const name = String(path[at]);
  const inner = wrapped(path.slice(at + 1), value);
  if (map.flow === true) {
    const close = endOf(text, map) - 1;
    const before = text.slice(0, close).trimEnd().length;
    const open = map.items.length === 0;
    return { from: before, to: close, insert: `${open ? ' ' : ', '}${key(name)}: ${flow(inner)} ` };
  }
  const last = map.items.at(-1);
  const indent = indentAt(text, startOf(map.items[0]?.key));
  const lines = entryLines(path.slice(0, at + 1).map(String), inner, indent);
  return linesAfter(text, last === undefined ? startOf(map) : pairEnd(text, last), at === 0 ? ['', ...lines] : lines);
};

/** A key that had nothing behind it gets a value: sections one entry a line, a single value on its own line. */
const behindKey = (text: string, pair: Pair, path: Path, at: number, value: Written): Change => {
  const inner = wrapped(path.slice(at + 1), value);
  const from = pairEnd(text, pair);
  const [first = '', ...more] = entryLines(path.slice(0, at + 1).map(String), inner, indentAt(text, startOf(pair.key)));
  if (more.length > 0) return linesAfter(text, from, more);
  return { from, to: from, insert: first.slice(first.indexOf(':', first.indexOf(key(String(path[at])))) + 1) };
};

/**
 * The change that sets the value at a path of a job file, with all else left as it stands: remarks, order and blanks.
 * Sections that are not there yet are begun. Null where the path leads through something that is no section.
 */
export const setAt = (text: string, path: Path, value: Written): Change | null => {
  let node: unknown = treeOf(text);
  if (node === null || isEmpty(node)) {
    const [first = '', ...rest] = path;
    const lines = entryLines([String(first)], wrapped(rest, value), '');
    const gap = text === '' || text.endsWith('\n') ? '' : '\n';
    return { from: text.length, to: text.length, insert: `${gap}${lines.join('\n')}\n` };
  }
  for (const [at, part] of path.entries()) {
    if (isMap(node)) {
      const pair = pairIn(node, String(part));
      if (pair === undefined) return intoMap(text, node, path, at, value);
      if (isEmpty(pair.value)) return behindKey(text, pair, path, at, value);
      node = pair.value;
    } else if (isSeq(node) && typeof part === 'number') node = node.items[part];
    else if (isNode(node) && isScalar(node)) {
      const inner = flow(wrapped(path.slice(at), value));
      return { from: startOf(node), to: endOf(text, node), insert: inner };
    } else return null;
  }
  if (!isNode(node)) return null;
  return { from: startOf(node), to: endOf(text, node), insert: flow(value) };
};

const takeFrom = (text: string, from: number, to: number): Change => {
  const start = lineStart(text, from);
  const end = lineEnd(text, to);
  return { from: start, to: Math.min(text.length, end + 1), insert: '' };
};

/**
 * The change that takes an entry or a list's item out, with its own remark; a section left empty goes too. Null where
 * there is none.
 */
export const removeAt = (text: string, path: Path): Change | null => {
  const parent = nodeAt(text, path.slice(0, -1));
  const last = path.at(-1);
  if (parent === null || last === undefined) return null;
  const items: readonly unknown[] = isMap(parent) || isSeq(parent) ? parent.items : [];
  const index = isMap(parent)
    ? parent.items.findIndex((p) => keyOf(p) === String(last))
    : typeof last === 'number' && last < items.length
      ? last
      : -1;
  if (index < 0) return null;
  if (items.length === 1 && path.length > 1) return removeAt(text, path.slice(0, -1));
  const spanOf = (item: unknown): readonly [number, number] => {
    if (isMap(parent)) return [startOf((item as Pair).key), pairEnd(text, item as Pair)];
    return [startOf(item), isNode(item) ? endOf(text, item) : 0];
  };
  const [from, to] = spanOf(items[index]);
  if ((parent as YAMLMap).flow !== true) return takeFrom(text, from, to);
  const [before, after] = [items[index - 1], items[index + 1]];
  if (before !== undefined) return { from: spanOf(before)[1], to, insert: '' };
  return { from, to: after === undefined ? to : spanOf(after)[0], insert: '' };
};
