import { beginsReading } from './grammar.js';
import { type Source, type Span, endOfLine } from '../source/source.js';
import type { Node, Text } from '../source/tree.js';

/** A reading as it stands in a list: its id where it has one, its words, and where they are. */
export interface RawLine {
  readonly id: string | null;
  readonly idAt: number;
  readonly text: string;
  readonly source: Source;
  /** Offset in the source of a character of `text`. */
  readonly offset: (inText: number) => number;
  readonly path: string;
}

interface RawFault {
  readonly span: Span;
  readonly expected: string;
  readonly path: string;
}

/**
 * The words of a value are its source where it stands on one line without escapes; else the word itself is looked for.
 */
const offsets = (source: Source, node: Text): ((inText: number) => number) => {
  const raw = source.text.slice(node.span.from, node.span.to);
  const lead = raw.indexOf(node.text);
  if (lead !== -1) return (i) => node.span.from + lead + i;
  return (i) => {
    const word = /^\S+/.exec(node.text.slice(i))?.[0];
    const at = word === undefined ? -1 : raw.indexOf(word);
    return node.span.from + Math.max(0, at);
  };
};

/** A comment behind the item is its note. */
const noteBehind = (source: Source, node: Text): string => {
  const rest = source.text.slice(node.span.to, endOfLine(source.text, node.span.to));
  const m = /^\s+#(.*)$/.exec(rest);
  return m === null ? '' : ` # ${(m[1] ?? '').trim()}`;
};

/** `aside r7: over …` and `aside: over …` are read as `r7: aside over …` and `aside over …`. */
const asideOf = (key: string): { readonly aside: boolean; readonly id: string | null } => {
  const m = /^aside(?: (.*))?$/i.exec(key);
  return m === null ? { aside: false, id: key } : { aside: true, id: m[1]?.trimStart() ?? null };
};

/** Items of a list of readings; an item that is neither a line nor one line under its id is refused. */
export const rawLines = (
  source: Source,
  items: readonly Node[],
  path: string,
  refuse: (fault: RawFault) => void,
): readonly (RawLine | null)[] =>
  items.map((item, i) => {
    const at = `${path}.${i}`;
    const expected = 'a reading such as over P1 P3 = 4 1/8 by rule';
    if (item.kind === 'text')
      return {
        id: null,
        idAt: item.span.from,
        text: item.text + noteBehind(source, item),
        source,
        offset: offsets(source, item),
        path: at,
      };
    if (item.kind === 'section' && item.entries.size === 1) {
      for (const [key, { key: keySpan, node }] of item.entries) {
        if (node.kind !== 'text') {
          refuse({ span: node.span, expected, path: at });
          return null;
        }
        const { aside, id } = asideOf(key);
        // A kind and what it is of stand where an id would: `over P1 P3: 4 1/8`.
        if (id !== null && beginsReading(id)) {
          refuse({ span: keySpan, expected: `an = before the value, not a colon: ${key} = ${node.text}`, path: at });
          return null;
        }
        const prefix = aside ? 'aside ' : '';
        const place = offsets(source, node);
        const offset = (i: number): number => (i < prefix.length ? keySpan.from : place(i - prefix.length));
        return {
          id,
          idAt: keySpan.from,
          text: prefix + node.text + noteBehind(source, node),
          source,
          offset,
          path: at,
        };
      }
    }
    refuse({ span: item.span, expected, path: at });
    return null;
  });
