/**
 * Controls, line and direction marks, lone surrogates: they would move the cursor, colour the terminal or turn the
 * reading direction. Each is shown as one �, so that columns stay true.
 */
const unsafe = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu;

/** Text from a file, made safe to show. */
export const inert = (text: string): string => text.replace(unsafe, '\ufffd');

/** At most `longest` characters, on one line, safe to show. */
export const shortened = (text: string, longest = 60): string => {
  const line = text.trim().split(/[\r\n]/, 1)[0] ?? '';
  const letters = Array.from(line.slice(0, longest * 2 + 2));
  return inert(letters.length > longest ? `${letters.slice(0, longest - 1).join('')}…` : line);
};
