const unsafe =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/**
 * Text that somebody else wrote, safe to show in a line: control characters, marks that turn the writing direction,
 * invisible characters and broken surrogates are shown as their code (`[U+202E]`), so that no name can hide or
 * overwrite another.
 */
export const inert = (text: string): string =>
  text.replace(unsafe, (c) => `[U+${c.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}]`);

/**
 * A word as it is typed in a POSIX shell, so that a command shown runs as it stands when it is pasted: quoted where it
 * must be.
 */
export const shellWord = (text: string): string =>
  /^[\w@%+:,./][\w@%+=:,./-]*$/.test(text) ? text : `'${text.replaceAll("'", `'\\''`)}'`;

/** The name of a file as it is typed in a POSIX shell; one that begins with a dash would be read as an option. */
export const shellPath = (path: string): string => shellWord(/^-./.test(path) ? `./${path}` : path);

/** A file name made from a name: letters, figures, - and _ only, never empty, never a path, at most 60 characters. */
export const fileNameOf = (name: string): string => {
  const plain = name
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9_-]+/g, '-')
    .slice(0, 60)
    .replace(/^-+|(?<!-)-+$/g, '');
  return plain === '' ? 'unnamed' : plain.toLowerCase();
};

/**
 * A number's hyphen becomes the minus sign, as wide as a plus: for paper and pages, not for what a person may copy into
 * a program.
 */
export const minusSign = (cell: string): string => cell.replace(/^-(?=[\d.])/, '−');

/** Order of words by code unit: the same on every machine, and no table of any language need be loaded for it. */
export const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Names in a sentence: `A`, `A and B`, `A, B and C`; '' for none. */
export const sayAll = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;

/** How often something happens, from 0 to 1: `85 % of the time`, `0.3 % of the time`, `less than 0.1 % of the time`. */
export const sayChance = (p: number): string => {
  if (p < 0.001) return 'less than 0.1 % of the time';
  const percent = Number((100 * p).toFixed(p < 0.02 ? 1 : 0));
  return percent >= 100 ? 'more than 99 % of the time' : `${percent} % of the time`;
};

/** Odds as a person says them: `97 in 100`, `998 in 1000`; the far ends are not overstated. */
export const sayOdds = (odds: number): string => {
  if (odds >= 0.9995) return 'more than 999 in 1000';
  if (odds >= 0.985) return `${Math.floor(odds * 1000)} in 1000`;
  if (odds < 0.0005) return 'less than 1 in 1000';
  if (odds < 0.015) return `${Math.max(1, Math.round(odds * 1000))} in 1000`;
  return `${Math.round(odds * 100)} in 100`;
};

/** A chance counted in trials, from 0 to 1: `97.3 times in 100`, with one place more near either end. */
export const sayTimes = (p: number): string =>
  `${Number((100 * p).toFixed(p > 0.99 || p < 0.01 ? 2 : 1))} times in 100`;
