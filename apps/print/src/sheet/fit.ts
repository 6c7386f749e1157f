import type { Lettering } from '@fayplate/drawing';

type Weight = 'regular' | 'bold';

/** The text, or as much of its start as fits the width with an ellipsis. */
export const fitText = (
  words: string,
  width: number,
  capital: number,
  weight: Weight,
  lettering: Lettering,
): string => {
  if (lettering.width(words, capital, weight) <= width) return words;
  const characters = Array.from(words);
  let lo = 0;
  let hi = characters.length;
  while (lo < hi) {
    const mid = (lo + hi + 1) >> 1;
    if (lettering.width(`${characters.slice(0, mid).join('')}…`, capital, weight) <= width) lo = mid;
    else hi = mid - 1;
  }
  return `${characters.slice(0, lo).join('').trimEnd()}…`;
};
