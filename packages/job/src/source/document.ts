import { type CST, Composer, type Document, Parser, type YAMLError, YAMLParseError } from 'yaml';
import type { Findings } from '../faults/findings.js';
import { scan } from './scan.js';
import { beginsReading } from '../reading/grammar.js';
import { type Source, endOfLine } from './source.js';
import { type Node, treeOf } from './tree.js';

/** A line that begins as a reading does, without the dash and the space before it. */
const isReading = (line: string): boolean =>
  beginsReading(
    line
      .trim()
      .replace(/^-/, '')
      .replace(/^aside\s+/i, ''),
  );

const lineAt = (text: string, at: number): string =>
  text.slice(text.lastIndexOf('\n', at - 1) + 1, endOfLine(text, at));

/** The bracket left open before `at`, where the fault is: YAML tells of it only where it stops reading. */
const leftOpen = (
  text: string,
  at: number,
  { message }: YAMLError,
): { readonly at: number; readonly closing: string } | null => {
  const closing = /^Flow .* end with a ([\]}])$/.exec(message)?.[1];
  if (closing === undefined) return null;
  const opening = closing === '}' ? '{' : '[';
  let open = 0;
  for (let i = at - 1; i >= 0; i--) {
    if (text[i] === closing) open++;
    else if (text[i] === opening && open-- === 0) return { at: i, closing };
  }
  return null;
};

/** Faults of syntax in a shop's words; YAML's own where they say it well. */
const expectedFor = (error: YAMLError, line: string): string => {
  switch (error.code) {
    case 'TAB_AS_INDENT':
      return 'spaces at the start of the line, not a tab';
    case 'MULTIPLE_DOCS':
      return 'one job in one file: nothing after ---';
    case 'BAD_INDENT':
      return isReading(line)
        ? 'a dash and a space before each reading, such as - over P1 P3 = 4 1/8 by rule'
        : 'the line to start under the others of its section';
    case 'BAD_ALIAS':
      return 'the thing itself written out: aliases (*) are not read';
    case 'MULTIPLE_ANCHORS':
      return 'no anchor (&): aliases are not read';
    case 'MISSING_CHAR':
      return /closing (["'])quote/.test(error.message)
        ? 'a closing quote'
        : /map keys/.test(error.message)
          ? 'a colon, a space and a value after the name'
          : error.message;
    case 'BLOCK_AS_IMPLICIT_KEY':
      return 'one name and one colon on a line; put a value that holds a colon and a space into quotes';
    case 'UNEXPECTED_TOKEN':
      return 'nothing more here; put a value that holds { } [ ] , & * # or % into quotes';
    case 'BAD_SCALAR_START':
      return 'the value in quotes: it starts with a sign that YAML keeps for itself';
    case 'MULTILINE_IMPLICIT_KEY':
      return 'a colon and a space after the name, on the same line';
    default:
      return error.message;
  }
};

const pieces = function* (words: readonly string[]): Generator<CST.Token, void> {
  const parser = new Parser();
  for (const word of words) yield* parser.next(word);
  yield* parser.end();
};

const options = {
  version: '1.2',
  schema: 'core',
  merge: false,
  uniqueKeys: false,
  prettyErrors: false,
  logLevel: 'error',
} as const;

/** The first document of the text, as `parseDocument` would read it from the words again, and its errors, a second document among them. */
const composed = (
  words: readonly string[],
  length: number,
): { readonly contents: unknown; readonly errors: readonly YAMLError[] } => {
  let first: Document.Parsed | null = null;
  for (const document of new Composer(options).compose(pieces(words), true, length)) {
    if (first !== null)
      return {
        contents: first.contents,
        errors: [...first.errors, new YAMLParseError([document.range[0], document.range[1]], 'MULTIPLE_DOCS', '')],
      };
    first = document;
  }
  return { contents: first?.contents, errors: first?.errors ?? [] };
};

/** Of several faults on one line the first is the fault, the rest its echoes. */
const firstOfEachLine = (text: string, errors: readonly YAMLError[]): readonly YAMLError[] => {
  const lines = new Map<number, YAMLError>();
  let line = 0;
  let next = text.indexOf('\n');
  // Sorted by place, so that the text is gone through once however many there are.
  for (const error of [...errors].sort((a, b) => a.pos[0] - b.pos[0])) {
    for (; next !== -1 && next < error.pos[0]; line++) next = text.indexOf('\n', next + 1);
    if (!lines.has(line)) lines.set(line, error);
  }
  const first = new Set(lines.values());
  return errors.filter((e) => first.has(e));
};

/** Faults of syntax told one by one: one bracket left open can make echoes in every line after it. */
const ENOUGH = 20;

/** The text of a job file → its tree and the offset from which syntax cannot be trusted; null where it may not be parsed at all. */
export const readDocument = (
  source: Source,
  findings: Findings,
): { readonly tree: Node; readonly soundUntil: number } | null => {
  const words = scan(source, findings);
  if (words === null) return null;
  const { contents, errors } = composed(words, source.text.length);
  const soundUntil = errors.reduce((least, e) => Math.min(least, e.pos[0]), Infinity);
  const heads = firstOfEachLine(source.text, errors);
  for (const error of heads.slice(0, ENOUGH)) {
    const [from, to] = error.pos;
    const open = leftOpen(source.text, from, error);
    if (open !== null)
      findings.fault({
        code: 'syntax',
        at: open.at,
        found: lineAt(source.text, open.at).slice(open.at - source.text.lastIndexOf('\n', open.at - 1) - 1),
        expected: `a closing ${open.closing} on this line or the next ones`,
        path: '',
      });
    else
      findings.fault({
        code: 'syntax',
        at: from,
        found: source.text.slice(from, Math.max(to, from + 1)),
        expected: expectedFor(error, lineAt(source.text, from)),
        path: '',
      });
  }
  const next = heads[ENOUGH];
  if (next !== undefined)
    findings.fault({
      code: 'syntax',
      at: next.pos[0],
      found: `${heads.length - ENOUGH} more`,
      expected: 'the syntax above put right first: the rest may follow from it',
      path: '',
    });
  return { tree: treeOf(contents, source, findings), soundUntil };
};
