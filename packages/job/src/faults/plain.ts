import { inert } from '@fayplate/core';

/** At most `longest` characters, on one line, safe to show. */
export const shortened = (text: string, longest = 60): string => {
  const line = text.trim().split(/[\r\n]/, 1)[0] ?? '';
  const letters = Array.from(line.slice(0, longest * 2 + 2));
  return inert(letters.length > longest ? `${letters.slice(0, longest - 1).join('')}…` : line);
};
