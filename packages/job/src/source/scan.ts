import { CST, Lexer } from 'yaml';
import type { Findings } from '../faults/findings.js';
import { type Source, endOfLine, inThousands, most, oddCharacter, utf8Bytes } from './source.js';

/** Says what is refused. */
type Refuse = (at: number, found: string, expected: string) => null;

/**
 * The text's words and marks, as the parser takes them. Refuses (null), in time proportional to the text, what would
 * make the parser slow or deep: size, long lines, nesting, directives, characters that no editor shows.
 */
export const scan = (source: Source, findings: Findings): readonly string[] | null => {
  const { text } = source;
  const refuse: Refuse = (at, found, expected) => {
    findings.fault({ code: 'file', at, found, expected, path: '' });
    return null;
  };
  const bytes = utf8Bytes(text);
  if (bytes > most.bytes) return refuse(0, `${bytes} bytes`, 'a file of at most 1 MiB (1,048,576 bytes)');
  for (let from = 0; from <= text.length;) {
    const to = endOfLine(text, from);
    if (to - from > most.lineLength)
      return refuse(from, text.slice(from, from + 40), `lines of at most ${inThousands(most.lineLength)} characters`);
    from = to + 1;
  }
  const odd = oddCharacter(text);
  if (odd !== null) return refuse(odd.at, odd.found, odd.expected);
  return tokens(text, refuse);
};

const tokens = (text: string, refuse: Refuse): readonly string[] | null => {
  const kept: string[] = [];
  let at = 0;
  let flow = 0;
  let marks = 0;
  const indents: number[] = [];
  let lineStart = true;
  for (const token of new Lexer().lex(text)) {
    const type = CST.tokenType(token);
    const length = token === '\u0002' || token === '\u001f' || token === '\u0018' ? 0 : token.length;
    if (kept.push(token) > most.tokens)
      return refuse(at, text.slice(at, endOfLine(text, at)), 'a shorter file: no more than 300,000 words and marks');
    if (length > most.lineLength && type !== 'space' && type !== 'newline')
      return refuse(at, token, `values of at most ${inThousands(most.lineLength)} characters`);
    if (type === 'directive-line') return refuse(at, token, 'no % directives: the file is read as YAML 1.2');
    if (type === 'newline') {
      marks = 0;
      lineStart = true;
    } else if (length > 0) {
      if (lineStart) {
        const indent = type === 'space' ? length : 0;
        while (indents.length > 0 && (indents.at(-1) ?? 0) >= indent) indents.pop();
        indents.push(indent);
        lineStart = false;
      }
      if (type === 'flow-seq-start' || type === 'flow-map-start') flow++;
      else if (type === 'flow-seq-end' || type === 'flow-map-end') flow = Math.max(0, flow - 1);
      else if (type === 'seq-item-ind' || type === 'explicit-key-ind') marks++;
      if (flow + marks + indents.length > most.depth)
        return refuse(at, token, `lists and sections no more than ${most.depth} deep`);
    }
    at += length;
  }
  return kept;
};
