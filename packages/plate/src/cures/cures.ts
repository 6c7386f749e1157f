import type { Finding } from '../checks/check.js';
import type { Check, Cure } from '../types.js';
import { candidates } from './candidates.js';
import type { Change } from './change.js';
import type { Trying } from './trying.js';

/** Most cures told for one check. */
const TOLD = 4;

/** The findings of a changed job, or null where no plate can be drawn from it. */
export type Retry = (change: Change) => readonly Finding[] | null;

/** What fails after a change, and whether all of it failed before. */
interface Outcome {
  readonly fails: ReadonlySet<string>;
  readonly clean: boolean;
}

const about = (f: Finding): string => [f.rule, ...f.of.toSorted()].join('|');

/**
 * Cures of every failed check: each candidate is drawn and checked again, and only one that puts its own check right is
 * told; those that break nothing else come first.
 */
export const withCures = (findings: readonly Finding[], tryingFor: (f: Finding) => Trying, retry: Retry): readonly Check[] => {
  const failing = new Set(findings.filter((f) => !f.ok).map(about));
  const tried = new Map<string, Outcome | null>();
  const again = (change: Change): Outcome | null => {
    const key = JSON.stringify(change.cure);
    const known = tried.get(key);
    if (known !== undefined) return known;
    const after = retry(change);
    const fails = after === null ? null : new Set(after.filter((g) => !g.ok).map(about));
    const outcome = fails === null ? null : { fails, clean: [...fails].every((f) => failing.has(f)) };
    tried.set(key, outcome);
    return outcome;
  };
  const curesOf = (f: Finding): readonly Cure[] => {
    const cures: Cure[] = [];
    const said = new Set<string>();
    const settled = new Set<string>();
    for (const change of candidates(tryingFor(f), f)) {
      const key = JSON.stringify(change.cure);
      if (said.has(key) || settled.has(change.group ?? key)) continue;
      said.add(key);
      const after = again(change);
      if (after === null || after.fails.has(about(f))) continue;
      const { clean } = after;
      cures.push({ ...change.cure, clean });
      if (clean) settled.add(change.group ?? key);
      if (cures.filter((c) => c.clean).length >= TOLD) break;
    }
    return [...cures.filter((c) => c.clean), ...cures.filter((c) => !c.clean)].slice(0, TOLD);
  };
  return findings.map((f) => ({ ...f, cures: f.ok ? [] : curesOf(f) }));
};
