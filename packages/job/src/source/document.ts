import { type CST, Composer, type Document, Parser, type YAMLError, YAMLParseError } from 'yaml';
import type { Findings } from '../faults/findings.js';
import { scan } from './scan.js';
import { beginsReading } from '../reading/grammar.js';
import { COLON, keyLineMends, spaceMends } from './key-lines.js';
import {
  type Mend,
  DASH,
  NO_TAB,
  UNDER,
  dashMends,
  mendedBy,
  openQuoteMends,
  quoteMends,
  tabMends,
  withoutComment,
} from './mend.js';
import { type Source, type Span, endOfLine } from './source.js';
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
      return NO_TAB;
    case 'MULTIPLE_DOCS':
      return 'one job in one file: nothing after ---';
    case 'BAD_INDENT':
      return isReading(line) ? DASH : UNDER;
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
      return `${COLON}, on the same line`;
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

/**
 * The first document of the text, as `parseDocument` would read it from the words again, and its errors, a second
 * document among them.
 */
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

/** The tree with its places put back to where they were typed. */
const moved = (node: Node, back: (offset: number) => number): Node => {
  const span = (s: Span): Span => ({ from: back(s.from), to: back(s.to) });
  if (node.kind === 'list') return { ...node, span: span(node.span), items: node.items.map((n) => moved(n, back)) };
  if (node.kind !== 'section') return { ...node, span: span(node.span) };
  return {
    ...node,
    span: span(node.span),
    entries: new Map(
      [...node.entries].map(([name, e]) => [name, { key: span(e.key), node: moved(e.node, back) }] as const),
    ),
  };
};

interface Parsed {
  readonly contents: unknown;
  readonly errors: readonly YAMLError[];
}

/** A line that is no key where keys are, or that starts beside the others. */
const isOfKeys = ({ code, message }: YAMLError): boolean =>
  code === 'BAD_INDENT' || code === 'MULTILINE_IMPLICIT_KEY' || (code === 'MISSING_CHAR' && /map keys/.test(message));

/** Tabs, quotes, brackets and lines are only mended where the text does not read as it stands. */
const mendsFor = (text: string, { errors }: Parsed): readonly Mend[] => {
  if (errors.length === 0) return [];
  const open = errors.flatMap((e): Mend[] => {
    const found = leftOpen(text, e.pos[0], e);
    if (found === null) return [];
    const line = text.slice(found.at, endOfLine(text, found.at));
    const end = found.at + withoutComment(line).length;
    return [
      {
        at: found.at,
        found: line,
        expected: `a closing ${found.closing} on this line or the next ones`,
        edit: { at: end, remove: 0, insert: found.closing },
      },
    ];
  });
  const tabs = errors.some((e) => e.code === 'TAB_AS_INDENT') ? tabMends(text) : [];
  if (tabs.length > 0) return tabs;
  const quotes = quoteMends(text);
  if (quotes.length > 0 || open.length > 0) return [...quotes, ...open.slice(0, 1)];
  const unclosed = errors.some((e) => /closing ["']quote/.test(e.message)) ? openQuoteMends(text) : [];
  if (unclosed.length > 0) return unclosed;
  return errors.some((e) => isOfKeys(e)) ? keyLineMends(text) : [];
};

/** Mends made one after another, since one slip can hide the next. */
const ROUNDS = 24;

/**
 * The text of a job file → its tree and the offset from which syntax cannot be trusted; null where it may not be parsed
 * at all.
 */
export const readDocument = (
  source: Source,
  findings: Findings,
): { readonly tree: Node; readonly soundUntil: number } | null => {
  let words = scan(source, findings);
  if (words === null) return null;
  let text = source.text;
  let back = (offset: number): number => offset;
  let told = 0;
  let lastTold = 0;
  const tell = (at: number, found: string, expected: string): void => {
    if (told++ >= ENOUGH) return;
    lastTold = back(at);
    findings.fault({ code: 'syntax', at: lastTold, found, expected, path: '' });
  };
  const mend = (mends: readonly Mend[]): boolean => {
    if (mends.length === 0) return false;
    for (const m of mends) tell(m.at, m.found, m.expected);
    const next = mendedBy(
      text,
      mends.map((m) => m.edit),
    );
    const before = back;
    text = next.text;
    back = (offset) => before(next.back(offset));
    return true;
  };
  const again = (): Parsed | null => {
    words = scan({ file: null, text }, findings);
    return words === null ? null : composed(words, text.length);
  };
  const spaced = mend(spaceMends(text));
  let read: Parsed | null = mend(dashMends(text)) || spaced ? again() : composed(words, text.length);
  for (let round = 0; read !== null && round < ROUNDS && mend(mendsFor(text, read)); round++) read = again();
  if (read === null) return null;
  const { contents, errors } = read;
  const soundUntil = errors.reduce((least, e) => Math.min(least, back(e.pos[0])), Infinity);
  const heads = firstOfEachLine(text, errors);
  for (const error of heads) {
    const [from, to] = error.pos;
    tell(from, text.slice(from, Math.max(to, from + 1)), expectedFor(error, lineAt(text, from)));
  }
  if (told > ENOUGH)
    findings.fault({
      code: 'syntax',
      at: lastTold,
      found: `${told - ENOUGH} more`,
      expected: 'the syntax above put right first: the rest may follow from it',
      path: '',
    });
  const mended: Findings = { ...findings, fault: (f) => findings.fault({ ...f, at: back(f.at) }) };
  const tree = treeOf(contents, { file: null, text }, text === source.text ? findings : mended);
  return { tree: text === source.text ? tree : moved(tree, back), soundUntil };
};
