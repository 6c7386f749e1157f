import type { Clockwise, Point, Speech } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { Change } from '../cures/change.js';
import type { Draft } from '../draft.js';
import type { Check, CheckId } from '../types.js';

/**
 * What failing a check means: the parts do not go together (`apart`), they may not (`chance`), the plate is weaker than
 * it should be (`weak`), or the shafts run out of line (`line`).
 */
export type Meaning = 'apart' | 'chance' | 'weak' | 'line';

/** A check before its cures are looked for. */
export type Finding = Omit<Check, 'cures'>;

/** What a search finds, before it has the name of its check. */
export type Found = Omit<Finding, 'id' | 'rule'>;

/** A failed check's surroundings: what its cures are tried on. */
export interface Trying {
  readonly job: Job;
  readonly draft: Draft;
  readonly findings: readonly Finding[];
  /** Radians clockwise; null where turning cures nothing. */
  readonly turn: Clockwise | null;
  readonly say: (mm: number) => string;
}

/** All that there is to know of one check; `all.ts` lists them. */
export interface CheckKind {
  readonly id: CheckId;
  /** For people, in tables and pictures. */
  readonly title: string;
  readonly meaning: Meaning;
  /** What it finds on a drawn plate: all that fail, and at least the one nearest to its limit. */
  readonly find: (draft: Draft) => readonly Found[];
  /** How far a finding is from its limit, in its own unit; negative where it fails. */
  readonly margin: (f: Found) => number;
  /** What might mend a failure, best first; each is tried before it is offered. */
  readonly cures: (t: Trying, f: Finding) => readonly Change[];
  /** What is wrong, as one would say it at the bench. */
  readonly say: (c: Finding, speech: Speech) => string;
}

/** A smaller shortfall is rounding: mm, diameters or degrees alike. */
export const SLACK = 1e-9;

export const found = (
  of: readonly string[],
  value: number,
  limit: number,
  more: {
    readonly source: string;
    readonly at?: (Point & { readonly z?: number | null }) | null;
    readonly unit?: Check['unit'];
    readonly sense?: Check['sense'];
  },
): Found => {
  const sense = more.sense ?? 'least';
  const ok = sense === 'least' ? value >= limit - SLACK : value <= limit + SLACK;
  const at = more.at == null ? null : { x: more.at.x, y: more.at.y };
  const level = more.at?.z ?? null;
  const found = { of, value, limit, unit: more.unit ?? 'mm', sense, ok, source: more.source, at };
  return level === null ? found : { ...found, level };
};

/** How far a check is from its limit, in its own unit; negative where it fails. The one margin of every check. */
export const marginOf = (f: Pick<Check, 'sense' | 'value' | 'limit'>): number =>
  f.sense === 'least' ? f.value - f.limit : f.limit - f.value;

/** What fails, and the one nearest to its limit. */
export const failingAndLeast = (all: readonly Found[]): readonly Found[] => {
  const [least] = all.toSorted((a, b) => marginOf(a) - marginOf(b));
  return all.filter((f) => !f.ok || f === least);
};

/** Findings under the name of their check. */
export const named =
  (kind: CheckKind) =>
  (f: Found): Finding => ({ id: kind.id, rule: kind.title, ...f });
