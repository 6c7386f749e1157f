import type { Report } from '@fayplate/core';

/** What the handbook says of one thing: JSON (mm and degrees) and words, or why it has nothing and what comes closest. */
export type Looked =
  | {
      readonly ok: true;
      readonly kind: LookKind;
      readonly json: Readonly<Record<string, unknown>>;
      readonly report: Report;
    }
  | Refused;

export interface Refused {
  readonly ok: false;
  readonly why: string;
  readonly nearest: string | null;
}

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
] as const;
export type LookKind = (typeof lookKinds)[number];
