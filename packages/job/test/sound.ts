import { type Fault, type JobRead, faultLines } from '../src/index.js';

const unsafe = /[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\p{Bidi_Control}]/u;

/** What is wrong with one fault as an answer: a place that is not in the text, words that could steer a terminal. */
const wrongWith = (f: Fault, lines: readonly string[]): readonly string[] => {
  const line = lines[f.line - 1];
  return [
    ...(line === undefined ? [`line ${f.line} is not there`] : []),
    ...(f.column < 1 || f.column > Array.from(line ?? '').length + 1 ? [`column ${f.column} is not there`] : []),
    ...(f.expected === '' ? ['nothing expected'] : []),
    ...[f.found, f.expected, f.nearest ?? '', f.path]
      .filter((words) => unsafe.test(words))
      .map((words) => `unsafe: ${JSON.stringify(words)}`),
    ...(f.found.length > 600 ? ['found is too long'] : []),
  ];
};

/** What is wrong with an answer to any text; nothing should be, whatever the text. */
export const wrongs = (text: string, read: JobRead): readonly string[] => {
  const lines = text.split('\n');
  const told = read.ok ? read.warnings : read.faults;
  const words = faultLines(text, told);
  return [
    ...told.filter((f) => f.file === null).flatMap((f) => wrongWith(f, lines)),
    ...(read.ok || read.faults.length > 0 ? [] : ['refused without a fault']),
    ...(words.length === told.length ? [] : ['not a paragraph for each']),
    ...words.filter((w) => unsafe.test(w.replaceAll('\n', ''))).map(() => 'unsafe words'),
  ];
};
