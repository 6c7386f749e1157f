import type { Finding } from '../checks/check.js';
import type { Check, Cure } from '../types.js';
import { candidates } from './candidates.js';
import type { Change } from './change.js';
import type { Trying } from './trying.js';

/** Most cures told for one check. */
const TOLD = 4;

/** The findings of a changed job, or null where no plate can be drawn from it. */
export type Retry = (change: Change) => readonly Finding[] | null;

const about = (f: Finding): string => [f.rule, ...f.of.toSorted()].join('|');

/**
 * Cures of every failed check: each candidate is drawn and checked again, and only one that puts its own check right is
 * told; those that break nothing else come first.
 */
export const withCures = (findings: readonly Finding[], tryingFor: (f: Finding) => Trying, retry: Retry): readonly Check[] => {
  const tried = new Map<string, readonly Finding[] | null>();
  const again = (change: Change): readonly Finding[] | null => {
    const key = JSON.stringify(change.cure);
    const known = tried.get(key);
    if (known !== undefined) return known;
    const found = retry(change);
    tried.set(key, found);
    return found;
  };
  const failing = new Set(findings.filter((f) => !f.ok).map(about));
  const curesOf = (f: Finding): readonly Cure[] => {
    const cures: Cure[] = [];
    const said = new Set<string>();
    const settled = new Set<string>();
    for (const change of candidates(tryingFor(f), f)) {
      const key = JSON.stringify(change.cure);
      if (said.has(key) || settled.has(change.group ?? key)) continue;
      said.add(key);
      const after = again(change);
      if (after === null || after.some((g) => !g.ok && about(g) === about(f))) continue;
      const clean = after.every((g) => g.ok || failing.has(about(g)));
      cures.push({ ...change.cure, clean });
      if (clean) settled.add(change.group ?? key);
      if (cures.filter((c) => c.clean).length >= TOLD) break;
    }
    return [...cures.filter((c) => c.clean), ...cures.filter((c) => !c.clean)].slice(0, TOLD);
  };
  return findings.map((f) => ({ ...f, cures: f.ok ? [] : curesOf(f) }));
};
