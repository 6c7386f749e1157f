const unsafe =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/**
 * Text that somebody else wrote, safe to show in a line: control characters, marks that turn the writing direction,
 * invisible characters and broken surrogates are shown as their code (`[U+202E]`), so that no name can hide or overwrite another.
 */
export const inert = (text: string): string =>
  text.replace(unsafe, (c) => `[U+${c.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}]`);

/** A word as it is typed in a POSIX shell, so that a command shown runs as it stands when it is pasted: quoted where it must be. */
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

/** A number's hyphen becomes the minus sign, as wide as a plus: for paper and pages, not for what a person may copy into a program. */
export const minusSign = (cell: string): string => cell.replace(/^-(?=[\d.])/, '−');

/** Order of words by code unit: the same on every machine, and no table of any language need be loaded for it. */
export const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Names in a sentence: `A`, `A and B`, `A, B and C`; '' for none. */
export const sayAll = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;

/** A chance from 0 to 1 as a person says it: `85 times in 100`, `3 times in 1000`, `less than once in 1000`. */
export const sayChance = (p: number): string => {
  if (p < 0.001) return 'less than once in 1000';
  const [times, of] = p < 0.02 ? [Math.round(p * 1000), 1000] : [Math.round(p * 100), 100];
  if (times >= of) return `more than ${of - 1} times in ${of}`;
  return times === 1 ? `once in ${of}` : `${times} times in ${of}`;
};
