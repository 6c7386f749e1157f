import type { Finding, Trying } from '../checks/check.js';
import { checks } from '../checks/all.js';
import type { Check, CheckId, Cure } from '../types.js';
import type { Change } from './change.js';

/** Most cures told for one check. */
const TOLD = 4;

/** Most changes that are tried with a turn as well, where nothing does alone. */
const TURNED = 6;

/** Most changes that a second one is looked for. */
const PAIRED = 4;

interface Trials {
  readonly tryingFor: (f: Finding) => Trying;
  /** What a finding is about, whatever number its hole has. */
  readonly about: (f: Finding) => string;
  /** What fails in a changed job, or null where no plate can be drawn from it. */
  readonly retry: (change: Change) => ReadonlySet<string> | null;
  /** The same change and the turn that suits it; null where no turn does. */
  readonly turnToo: (change: Change) => Change | null;
  /** The same change with each second one that what it leaves, or breaks, calls for. */
  readonly second: (first: Change, f: Finding) => readonly Change[];
}

/** What turning has a say in. */
const turnable = new Set<CheckId>([
  'web-between-cuts',
  'floor-between-cuts',
  'socket-room',
  'head-seat',
  'hole-to-edge',
  'metal-to-edge',
]);

/** What fails after a change, and whether all of it failed before. */
interface Outcome {
  readonly fails: ReadonlySet<string>;
  readonly clean: boolean;
}

interface Cured {
  readonly checks: readonly Check[];
  /** A change that cures something else, told as a cure: whether it breaks a check is looked into as for all others. */
  readonly asCure: (change: Change) => Cure;
}

/**
 * Cures of every failed check: each candidate is drawn and checked again, and only one that puts its own check right is
 * told; those that break nothing else come first.
 */
export const withCures = (
  findings: readonly Finding[],
  { tryingFor, about, retry, turnToo, second }: Trials,
): Cured => {
  const failing = new Set(findings.filter((f) => !f.ok).map(about));
  const tried = new Map<string, Outcome | null>();
  const again = (change: Change): Outcome | null => {
    const key = JSON.stringify(change.cure);
    const known = tried.get(key);
    if (known !== undefined) return known;
    const fails = retry(change);
    const outcome = fails === null ? null : { fails, clean: [...fails].every((f) => failing.has(f)) };
    tried.set(key, outcome);
    return outcome;
  };
  const paired = new Map<CheckId, readonly Change[]>();
  const alsoTurned = new Map<string, Change | null>();
  const turned = (change: Change): readonly Change[] => {
    const key = JSON.stringify(change.cure);
    const known = alsoTurned.get(key);
    const both = known === undefined ? turnToo(change) : known;
    alsoTurned.set(key, both);
    return both === null ? [] : [both];
  };
  const curesOf = (f: Finding): readonly Cure[] => {
    const single = checks[f.id].cures(tryingFor(f), f);
    const alone = firstThatDo(
      f,
      single.filter((c) => c.lastResort !== true),
    );
    if (alone.some((c) => c.clean)) return alone;
    const both = turnable.has(f.id)
      ? single
          .filter((c) => c.cure.kind !== 'turn' && c.lastResort !== true)
          .slice(0, TURNED)
          .flatMap(turned)
      : [];
    const clean = firstThatDo(f, both).filter((c) => c.clean);
    const last =
      clean.length > 0
        ? []
        : firstThatDo(
            f,
            single.filter((c) => c.lastResort === true),
          ).filter((c) => c.clean);
    if (clean.length + last.length > 0) return [...clean, ...last, ...alone];
    // What was looked for once serves the next failure of its kind: it is tried again, not looked for again.
    const known = paired.get(f.id);
    const pairs =
      known ??
      single
        .filter((c) => c.lastResort !== true && c.cure.kind !== 'together')
        .slice(0, PAIRED)
        .flatMap((c) => second(c, f));
    paired.set(f.id, pairs);
    return [...firstThatDo(f, pairs).filter((c) => c.clean), ...alone];
  };
  const firstThatDo = (f: Finding, changes: readonly Change[]): readonly Cure[] => {
    const cures: Cure[] = [];
    const said = new Set<string>();
    const settled = new Set<string>();
    for (const change of changes) {
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
  return {
    checks: findings.map((f) => ({ ...f, cures: f.ok ? [] : curesOf(f) })),
    asCure: (change) => ({ ...change.cure, clean: again(change)?.clean ?? false }),
  };
};
