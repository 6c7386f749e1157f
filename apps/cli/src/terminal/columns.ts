import stringWidth from 'fast-string-width';

export const widthOf = (text: string): number => stringWidth(text);

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
