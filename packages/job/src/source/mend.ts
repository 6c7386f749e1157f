import { beginsReading } from '../reading/grammar.js';
import { endOfLine } from './source.js';

/** Some signs of a text taken out and others put in their place. */
interface Edit {
  readonly at: number;
  readonly remove: number;
  readonly insert: string;
}

/** A slip that hides what stands after it: where, what was expected, and how it is read for the time being. */
export interface Mend {
  readonly at: number;
  readonly found: string;
  readonly expected: string;
  readonly edit: Edit;
}

/** A text with its slips mended, and where a place of it was in the text as typed. */
interface Mended {
  readonly text: string;
  readonly back: (offset: number) => number;
}

export const DASH = 'a dash and a space before each reading, such as - over P1 P3 = 4 1/8 by rule';
export const UNDER = 'the line to start under the others of its section';
export const NO_TAB = 'spaces at the start of the line, not a tab';

/** The text with the edits made; two that meet are made in the order of their places, the later one left out. */
export const mendedBy = (text: string, edits: readonly Edit[]): Mended => {
  const sorted = [...edits].sort((a, b) => a.at - b.at);
  let out = '';
  let from = 0;
  /** From this place in the new text on, places lie this far back. */
  const shifts: { readonly from: number; readonly by: number; readonly floor: number }[] = [];
  for (const e of sorted) {
    if (e.at < from) continue;
    out += text.slice(from, e.at) + e.insert;
    from = e.at + e.remove;
    shifts.push({ from: out.length - e.insert.length, by: out.length - from, floor: e.at });
  }
  out += text.slice(from);
  return {
    text: out,
    back: (offset) => {
      const shift = shifts.findLast((s) => s.from < offset || (s.from === offset && s.by <= 0));
      return shift === undefined ? offset : Math.max(shift.floor, offset - shift.by);
    },
  };
};

/** A line of the text and where it begins. */
export interface TextLine {
  readonly from: number;
  readonly text: string;
}

export const linesOf = (text: string): readonly TextLine[] => {
  const lines: TextLine[] = [];
  for (let from = 0; from <= text.length;) {
    const to = endOfLine(text, from);
    lines.push({ from, text: text.slice(from, to) });
    from = to + 1;
  }
  return lines;
};

/** The line up to its comment, the spaces before that left out. */
export const withoutComment = (line: string): string => {
  const hash = line.search(/\s#/);
  return (hash === -1 ? line : line.slice(0, hash)).trimEnd();
};

export const indentOf = (line: string): number => /^ */.exec(line)?.[0].length ?? 0;
export const isEmpty = (line: string): boolean => /^\s*(?:#|$)/.test(line);
const isReading = (line: string): boolean => beginsReading(line.trim().replace(/^aside\s+/i, ''));

/**
 * Readings without their dash, or without the space behind it. A line under an id or a block mark stands as it should.
 */
export const dashMends = (text: string): readonly Mend[] => {
  const mends: Mend[] = [];
  /** Where the dashes of the list stand, or may; null outside of one. */
  let dash: { readonly column: number; readonly first: boolean } | null = null;
  let opens = false;
  for (const { from, text: line } of linesOf(text)) {
    if (isEmpty(line)) continue;
    const indent = indentOf(line);
    const body = line.slice(indent);
    const mend = (edit: Edit): void => {
      mends.push({ at: from + indent, found: body.trim(), expected: DASH, edit });
    };
    if (/^-[^\s-]/.test(body) && isReading(body.slice(1)) && (dash === null || indent >= dash.column)) {
      mend({ at: from + indent + 1, remove: 0, insert: ' ' });
      dash = { column: indent, first: false };
    } else if (
      /^-\s/.test(body) &&
      dash?.first === false &&
      indent > dash.column &&
      !opens &&
      isReading(body.slice(2))
    ) {
      // Deeper than the reading before it, YAML takes it as more of that one.
      const edit = { at: from, remove: indent, insert: ' '.repeat(dash.column) };
      mends.push({ at: from + indent, found: body.trim(), expected: UNDER, edit });
      continue;
    } else if (/^-\s/.test(body)) {
      dash = { column: indent, first: false };
      opens = /(?::|[|>][+-]?)$/.test(withoutComment(body));
      continue;
    } else if (
      dash !== null &&
      !opens &&
      isReading(body) &&
      (dash.first ? indent > dash.column : indent >= dash.column)
    ) {
      if (dash.first) dash = { column: indent, first: false };
      if (indent >= dash.column + 2) mend({ at: from + dash.column, remove: 2, insert: '- ' });
      else mend({ at: from + indent, remove: 0, insert: '- ' });
    } else if (/^readings\s*:$/i.test(withoutComment(body))) dash = { column: indent, first: true };
    else if (dash !== null && indent <= dash.column) dash = null;
    opens = false;
  }
  return mends;
};

/** Lines that start with tabs, read as if they started as deep as the lines round them. */
export const tabMends = (text: string): readonly Mend[] => {
  const lines = linesOf(text);
  const everyTab = lines.every((l) => isEmpty(l.text) || !l.text.startsWith(' '));
  const mends: Mend[] = [];
  let above = { indent: 0, opens: false };
  for (const { from, text: line } of lines) {
    if (isEmpty(line)) continue;
    const lead = /^[ \t]*/.exec(line)?.[0] ?? '';
    const body = line.slice(lead.length);
    let indent = lead.length;
    if (lead.includes('\t')) {
      indent = everyTab ? 2 * lead.length : above.opens ? above.indent + 2 : above.indent;
      mends.push({
        at: from + lead.indexOf('\t'),
        found: '\t',
        expected: NO_TAB,
        edit: { at: from, remove: lead.length, insert: ' '.repeat(indent) },
      });
    }
    above = { indent, opens: withoutComment(body).endsWith(':') };
  }
  return mends;
};

/** Values in the quotes of word processors. */
export const quoteMends = (text: string): readonly Mend[] =>
  Array.from(text.matchAll(/[“„‘][^“”„‘’"\n]*[”“’]/g)).flatMap((m): readonly Mend[] => {
    const before = text.slice(text.lastIndexOf('\n', m.index) + 1, m.index).trimEnd();
    const end = m.index + m[0].length;
    const behind = text.slice(end, endOfLine(text, end)).trimStart();
    // Within a sentence they are letters like any other.
    if (!/(?:^|[:[{,-])$/.test(before) || !/^(?:[,}\]#]|$)/.test(behind)) return [];
    const value = `"${m[0].slice(1, -1)}"`;
    return [
      {
        at: m.index,
        found: m[0],
        expected: `straight quotes, or none: ${value}`,
        edit: { at: m.index, remove: m[0].length, insert: value },
      },
    ];
  });

/**
 * A quote that opens a value and is not closed on its line, read as if it ended before the next mark or with the line.
 */
export const openQuoteMends = (text: string): readonly Mend[] =>
  linesOf(text)
    .flatMap(({ from, text: line }): readonly Mend[] => {
      const opening = /(?:^|[:[{,-])\s*(["'])/.exec(line);
      if (opening === null) return [];
      const [lead, quote = '"'] = opening;
      const first = opening.index + lead.length;
      if (line.slice(first).includes(quote)) return [];
      const body = withoutComment(line).slice(first);
      const flow = /[[{]/.test(line.slice(0, first));
      const end = flow ? body.search(/[,}\]]/) : -1;
      return [
        {
          at: from + first - 1,
          found: line.slice(first - 1),
          expected: `a closing quote (${quote}) on the same line`,
          edit: { at: from + first + (end === -1 ? body.length : end), remove: 0, insert: quote },
        },
      ];
    })
    .slice(0, 1);
