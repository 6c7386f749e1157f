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

/** Letters that stand one beside another as they are written: each is one glyph. */
const plain = /^[\x20-\x7e]+$/;

/** Plain text set once and cut at its spaces; null where a word is wider than the line. */
const cutAtSpaces = (words: string, width: number, capital: number, weight: Weight, lettering: Lettering): readonly string[] | null => {
  const { glyphs, scale } = lettering.lay(words, capital, weight);
  if (glyphs.length !== words.length) return null;
  const span = (from: number, to: number): number => {
    const [first, last] = [glyphs[from], glyphs[to - 1]];
    return first === undefined || last === undefined || to <= from ? 0 : last.at - first.at + lettering.glyph(last.id, weight).advance * scale;
  };
  const lines: string[] = [];
  let [start, end] = [0, 0];
  for (let from = 0; from <= words.length; ) {
    const space = words.indexOf(' ', from);
    const to = space < 0 ? words.length : space;
    if (span(from, to) > width) return null;
    if (from > start && span(start, to) > width) {
      lines.push(words.slice(start, end));
      start = from;
    }
    end = to;
    from = to + 1;
  }
  return [...lines, words.slice(start, end)];
};

/** A text in lines no wider than `width`, broken at spaces, or within a word that is wider than a line. */
export const wrapText = (words: string, width: number, capital: number, weight: Weight, lettering: Lettering): readonly string[] => {
  const cut = plain.test(words) ? cutAtSpaces(words, width, capital, weight, lettering) : null;
  if (cut !== null) return cut;
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
