import { type Block, type Column, type Report, type TableBlock, formatLength } from '@fayplate/core';
import { closest } from 'fastest-levenshtein';

/**
 * What the handbook says of one thing: JSON (mm and degrees) and words, or why it has nothing and what comes closest.
 */
export type Looked =
  | {
      readonly ok: true;
      readonly kind: LookKind;
      readonly json: Readonly<Record<string, unknown>>;
      readonly report: Report;
    }
  | Refused;

/** Why nothing was found, in words for a person, and the name that comes closest. */
export interface Refused {
  readonly ok: false;
  readonly why: string;
  readonly nearest: string | null;
}

/** What may be looked up, in the order that help shows. */
export const lookKinds = [
  'thread',
  'drill',
  'clearance',
  'tap drill',
  'hardware',
  'dowel',
  'fit',
  'material',
  'paper',
  'face',
] as const;
/** One of `lookKinds`. */
export type LookKind = (typeof lookKinds)[number];

/** Both units side by side: the handbook is read with either caliper in hand. */
export const both = (mm: number): string => `${formatLength(mm, 'mm')} mm (${formatLength(mm, 'in')} in)`;
/** A drill and its size, the size once: `8.5 mm (0.3346 in)`, `5/16, 7.938 mm (0.3125 in)`. */
export const drillInWords = (d: { readonly name: string; readonly diameter: number }): string =>
  d.name.endsWith(' mm') ? `${d.name} (${formatLength(d.diameter, 'in')} in)` : `${d.name}, ${both(d.diameter)}`;
export const mmAndInch = (mm: number): readonly [string, string] => [formatLength(mm, 'mm'), formatLength(mm, 'in')];
export const percent = (share: number): string => `${(share * 100).toFixed(0)} %`;

/** Nothing is judged here, so the answer is a heading and no verdict. */
export const answer = (text: string): Block => ({ kind: 'heading', level: 1, text });
export const source = (text: string): Block => ({ kind: 'paragraph', text: `Source: ${text}.` });

export const left = (title: string): Column => ({ title, align: 'left' });
export const figures = (title: string): Column => ({ title, align: 'point' });

export const table = (
  caption: string | null,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
): TableBlock => ({
  kind: 'table',
  caption,
  columns,
  rows,
});

/** A name of the tables close to what was written; names are compared without case and spaces. */
export const nearestOf = (what: string, names: readonly string[]): string | null => {
  const plain = (s: string): string => s.toLowerCase().replace(/\s+/g, '');
  const byPlain = new Map(names.map((n) => [plain(n), n]));
  const asked = plain(what.slice(0, 60));
  return names.length === 0 || asked === '' ? null : (byPlain.get(closest(asked, [...byPlain.keys()])) ?? null);
};

export const refuse = (what: string, expected: string, names: readonly string[]): Refused => {
  const nearest = nearestOf(what, names);
  const asked = what.trim().slice(0, 60);
  return {
    ok: false,
    why: `${asked === '' ? 'nothing was asked' : `“${asked}” is not in the tables`}; write ${expected}`,
    nearest,
  };
};
