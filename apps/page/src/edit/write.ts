/** A value to put into a job file: a text as a person types it, a section, or a list. */
export type Written = string | boolean | { readonly [key: string]: Written } | readonly Written[];

const plain = /^[\p{L}\p{N}±.+\-/(][^,[\]{}#&*!|>'"%@`\\]*$/u;
const reserved = /^(?:null|true|false|yes|no|on|off|y|n|~)$/i;

/** A text as a YAML scalar that holds inside brackets too; quoted only where it must be. */
const scalar = (text: string): string =>
  plain.test(text) && !text.includes(': ') && !/[:\s]$/.test(text) && !/^-\s/.test(text) && !reserved.test(text)
    ? text
    : JSON.stringify(text);

/** A name as a YAML key. */
export const key = (name: string): string =>
  /^[\p{L}_][\p{L}\p{N}_ -]*$/u.test(name) && !/[\s]$/.test(name) && !reserved.test(name) ? name : JSON.stringify(name);

/** A reading stands outside brackets, where commas and brackets mean nothing. */
export const readingScalar = (text: string): string =>
  /^[\p{L}][^#"'\\]*$/u.test(text) && !text.includes(': ') && !/[:\s]$/.test(text) ? text : JSON.stringify(text);

/** A value in one line. */
export const flow = (value: Written): string => {
  if (typeof value === 'boolean') return String(value);
  if (typeof value === 'string') return scalar(value);
  if (Array.isArray(value)) return `[${value.map(flow).join(', ')}]`;
  const entries = Object.entries(value as { readonly [key: string]: Written });
  return entries.length === 0 ? '{}' : `{ ${entries.map(([k, v]) => `${key(k)}: ${flow(v)}`).join(', ')} }`;
};

/** Sections that people keep one line an entry; `*` stands for any name. */
const spread = [
  'instruments',
  'faces',
  'faces.*',
  'faces.*.features',
  'stack',
  'stack.links',
  'stack.limits',
  'plate',
  'plate.locate',
  'plate.fasten',
  'gaskets',
  'drilled',
  'assembled',
  'moves',
  'faces.*.places',
  'plate.cuts',
  'machine',
  'old',
  'trial',
  'trial.gaps',
  'print',
  'drawing',
  'work',
].map((p) => p.split('.'));

const isSpread = (path: readonly string[]): boolean =>
  spread.some((s) => s.length === path.length && s.every((part, i) => part === '*' || part === path[i]));

/** `key: value` as lines at an indent: sections of the file one entry a line, all else in one. */
export const entryLines = (path: readonly string[], value: Written, indent: string): readonly string[] => {
  const name = `${indent}${key(path.at(-1) ?? '')}:`;
  if (typeof value === 'string' || typeof value === 'boolean') return [`${name} ${flow(value)}`];
  if (Array.isArray(value)) {
    const list = value as readonly Written[];
    return path.at(-1) === 'readings' && list.length > 0
      ? [name, ...list.map((v) => `${indent}  - ${typeof v === 'string' ? readingScalar(v) : flow(v)}`)]
      : [`${name} ${flow(list)}`];
  }
  const entries = Object.entries(value as { readonly [key: string]: Written });
  return entries.length > 0 && isSpread(path)
    ? [name, ...entries.flatMap(([k, v]) => entryLines([...path, k], v, `${indent}  `))]
    : [`${name} ${flow(value)}`];
};
