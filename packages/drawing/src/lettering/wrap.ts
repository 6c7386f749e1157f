import type { Lettering, Weight } from '../types.js';

/** Cuts a word that is wider than the line into pieces that fit. */
const pieces = (word: string, width: number, fits: (words: string) => boolean): readonly string[] => {
  if (fits(word) || width <= 0) return [word];
  const out: string[] = [];
  let run = '';
  for (const character of word) {
    if (run !== '' && !fits(run + character)) {
      out.push(run);
      run = '';
    }
    run += character;
  }
  return run === '' ? out : [...out, run];
};

/** A text in lines no wider than `width`, broken at spaces, or within a word that is wider than a line. */
export const wrapText = (words: string, width: number, capital: number, weight: Weight, lettering: Lettering): readonly string[] => {
  const fits = (line: string): boolean => lettering.width(line, capital, weight) <= width;
  const lines: string[] = [];
  let line = '';
  for (const word of words.split(' ').flatMap((w) => pieces(w, width, fits))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line === '' || fits(longer)) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
};
