import { isMap, isSeq } from 'yaml';
import type { Change } from './change.js';
import { type Path, endOf, indentAt, linesAfter, nodeAt, pairIn, removeAt, setAt, startOf } from './set.js';
import { type Written, flow, key } from './write.js';

/** How something is written in the file now; null where nothing is. */
export const writtenAt = (text: string, path: Path): 'text' | 'section' | 'list' | null => {
  const node = nodeAt(text, path);
  return node === null ? null : isMap(node) ? 'section' : isSeq(node) ? 'list' : 'text';
};

/** How many items a list has, or a section keys. */
export const countAt = (text: string, path: Path): number => {
  const node = nodeAt(text, path);
  return isMap(node) || isSeq(node) ? node.items.length : 0;
};

/** The change that puts an item at the end of a list; begins the list where there is none. */
export const addItem = (text: string, path: Path, value: Written): Change | null => {
  const list = nodeAt(text, path);
  const last = isSeq(list) ? list.items.at(-1) : undefined;
  if (!isSeq(list) || last === undefined) return setAt(text, path, [value]);
  if (list.flow !== true)
    return linesAfter(text, endOf(text, list), [`${indentAt(text, startOf(list))}- ${flow(value)}`]);
  const close = endOf(text, list) - 1;
  const from = text.slice(0, close).trimEnd().length;
  return { from, to: close, insert: `, ${flow(value)}` };
};

/** The change that gives an entry another name; null where the name is taken or there is no such entry. */
export const renameAt = (text: string, path: Path, name: string): Change | null => {
  const section = nodeAt(text, path.slice(0, -1));
  if (!isMap(section) || name === '' || pairIn(section, name) !== undefined) return null;
  const pair = pairIn(section, String(path.at(-1)));
  const at = startOf(pair?.key);
  const node = pair?.key as { readonly range?: readonly [number, number, number] } | undefined;
  return node?.range === undefined ? null : { from: at, to: node.range[1], insert: key(name) };
};

/**
 * The change that takes a value out, and the sections that it leaves empty with it; but `entry`, a named entry or an
 * item of a list, stays as `{}`: a box that is emptied to be typed again does not take its form away.
 */
export const clearAt = (text: string, path: Path, entry: Path | null): Change | null => {
  if (entry === null) return removeAt(text, path);
  let at = path;
  while (at.length > entry.length && countAt(text, at.slice(0, -1)) === 1) at = at.slice(0, -1);
  return at.length > entry.length ? removeAt(text, path) : setAt(text, entry, {});
};
