/** A command shown in a document with the answer that the reader is promised. */
export interface Shown {
  /** The words of the command; double quotes hold one together. */
  readonly command: readonly string[];
  /** Only so many lines of the answer are shown; null: all of them. */
  readonly lines: number | null;
  readonly answer: string;
  /** Where the answer stands in the document. */
  readonly from: number;
  readonly to: number;
}

const fence = /^```console(?: lines=(\d+))?\n\$ (.+)\n([\s\S]*?)^```$/gm;

/** Every ```console block of a document: its first line is the command, the rest its answer. */
export const shownIn = (markdown: string): readonly Shown[] =>
  [...markdown.matchAll(fence)].map((m) => {
    const [whole, lines, command = '', answer = ''] = m;
    const from = m.index + whole.length - 3 - answer.length;
    return {
      command: [...command.matchAll(/"([^"]*)"|(\S+)/g)].map((w) => w[1] ?? w[2] ?? ''),
      lines: lines === undefined ? null : Number(lines),
      answer,
      from,
      to: from + answer.length,
    };
  });

/** The answer as a document shows it: trimmed at the ends of lines and, where asked, to its first lines. */
export const asShown = (output: string, lines: number | null): string => {
  const all = output
    .trimEnd()
    .split('\n')
    .map((l) => l.trimEnd());
  return lines === null || all.length <= lines ? `${all.join('\n')}\n` : `${all.slice(0, lines).join('\n')}\n…\n`;
};
