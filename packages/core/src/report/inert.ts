const unsafe =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/**
 * Text that somebody else wrote, safe to show in a line: control characters, marks that turn the writing direction,
 * invisible characters and broken surrogates are shown as their code (`[U+202E]`), so that no name can hide or overwrite another.
 */
export const inert = (text: string): string =>
  text.replace(unsafe, (c) => `[U+${c.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}]`);

/** A file name made from a name: letters, figures, - and _ only, never empty, never a path, at most 60 characters. */
export const fileNameOf = (name: string): string => {
  const plain = name
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9_-]+/g, '-')
    .slice(0, 60)
    .replace(/^-+|(?<!-)-+$/g, '');
  return plain === '' ? 'unnamed' : plain.toLowerCase();
};
