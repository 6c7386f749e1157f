import stringWidth from 'fast-string-width';

/** Latin letters, figures and signs (Unicode's first blocks, no controls, no soft hyphen): each takes one column. */
const latin = /^[ -~\u00a0-\u00ac\u00ae-\u02af]*$/;

/** Columns that a text takes on a terminal. Most texts are plain, and the expressions that tell wide signs from narrow ones are slow to wake. */
export const widthOf = (text: string): number => (latin.test(text) ? text.length : stringWidth(text));

export const padEnd = (text: string, width: number): string => text + ' '.repeat(Math.max(0, width - widthOf(text)));
export const padStart = (text: string, width: number): string => ' '.repeat(Math.max(0, width - widthOf(text))) + text;

/** Breaks at spaces so that no line is wider than `width`; a word that is wider stands alone on its line. */
export const wrap = (text: string, width: number): readonly string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line === '') line = word;
    else if (widthOf(line) + 1 + widthOf(word) <= width) line += ` ${word}`;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
};
