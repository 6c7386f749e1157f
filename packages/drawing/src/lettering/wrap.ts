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

/** A space where a line may end: not after ± ≥ ≤, not between a number and its unit, not within `95 in 100`. */
const BREAK = /(?<![±≥≤]) (?!(?<=\d )(?:mm|in)(?!\w))(?!(?<=\d in )\d)/g;

/** Letters that stand one beside another as they are written: each is one glyph. */
const plain = /^[\x20-\x7e]+$/;

/** Plain text set once and cut at its spaces; null where a word is wider than the line. */
const cutAtSpaces = (
  words: string,
  width: number,
  capital: number,
  weight: Weight,
  lettering: Lettering,
): readonly string[] | null => {
  const { glyphs, scale } = lettering.lay(words, capital, weight);
  if (glyphs.length !== words.length) return null;
  const span = (from: number, to: number): number => {
    const [first, last] = [glyphs[from], glyphs[to - 1]];
    return first === undefined || last === undefined || to <= from
      ? 0
      : last.at - first.at + lettering.glyph(last.id, weight).advance * scale;
  };
  const lines: string[] = [];
  let [start, end] = [0, 0];
  const ends = [...Array.from(words.matchAll(BREAK), (m) => m.index), words.length];
  let from = 0;
  for (const to of ends) {
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

/**
 * A text in lines no wider than `width`, broken at spaces where it reads on well, or within a word that is wider than a
 * line.
 */
export const wrapText = (
  words: string,
  width: number,
  capital: number,
  weight: Weight,
  lettering: Lettering,
): readonly string[] => {
  const cut = plain.test(words) ? cutAtSpaces(words, width, capital, weight, lettering) : null;
  if (cut !== null) return cut;
  const fits = (line: string): boolean => lettering.width(line, capital, weight) <= width;
  const lines: string[] = [];
  let line = '';
  for (const word of words
    .split(BREAK)
    .flatMap((w) => (fits(w) ? [w] : w.split(' ').flatMap((part) => pieces(part, width, fits))))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line === '' || fits(longer)) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
};
