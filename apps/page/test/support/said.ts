import { parse, parseDocument } from 'yaml';

/** What a job holds, each value as its text, so that 10 and "10" are the same job. */
export type Said = string | readonly Said[] | { readonly [key: string]: Said };

export const said = (text: string): Said => parse(text, { schema: 'failsafe', uniqueKeys: false }) as Said;

/** What stands at a path; '' for nothing. */
export const partOf = (all: Said, path: readonly string[]): Said =>
  path.reduce<Said>((part, key) => (part as Readonly<Record<string, Said>>)[key] ?? '', all);

/** The text without what stands at a path. */
export const without = (text: string, path: readonly string[]): string => {
  const document = parseDocument(text);
  document.deleteIn(path);
  return document.toString({ lineWidth: 0 });
};
