import { type Motion, say } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import { checkDraft, checks as kinds, findingsOf } from './checks/all.js';
import { findTurning, spansToTurn } from './clocking/turning.js';
import { aboutIn } from './cures/about.js';
import { type Change, withOpened } from './cures/change.js';
import { withCures } from './cures/cures.js';
import { nearestTurn } from './clocking/best.js';
import { type Drafted, drawDraft } from './draft.js';
import { layDesk } from './desk.js';
import { putTogether } from './fit/together.js';
import { statedClocking } from './mate/mate.js';
import type { AngleSpan, Check, MatedFace, Plate, StackResult } from './types.js';
import { withOpenedHoles } from './work/operations.js';
import { wholePlate } from './whole.js';

/** What a plate is designed with beside the job. */
export interface DesignOptions {
  /** The solved chain, where the job has one. */
  readonly stack: StackResult | null;
  /** Trials of whether it goes on; 5,000 where not said. */
  readonly trials?: number;
  readonly seed?: number;
  readonly progress?: (done: number, of: number) => void;
  /**
   * Face → from the bench frame of its `rim` points into its own (`LocatedFace.bench`), for outlines and cover by the
   * part's rim.
   */
  readonly benches?: ReadonlyMap<string, Motion | null>;
}

/** The plate and its two faces in its frame, or why there is none, a sentence a fault. */
type Designed =
  | { readonly ok: true; readonly plate: Plate; readonly mated: readonly [MatedFace, MatedFace] }
  | { readonly ok: false; readonly faults: readonly string[] };

const draftAt = (
  job: Job,
  used: ReadonlyMap<string, UsedPattern>,
  options: DesignOptions,
  clocking: number,
  setNewDowels = true,
): Drafted => {
  const laid = layDesk(job, used, {
    stack: options.stack,
    clocking,
    setNewDowels,
    ...(options.benches === undefined ? {} : { benches: options.benches }),
  });
  return laid.ok ? drawDraft(laid.desk) : laid;
};

const WHOLE_TURN: AngleSpan = { from: -Math.PI, to: Math.PI };

/**
 * From both patterns in use to the plate with every check. Where a clocking is searched for, the plate is drawn at the
 * angle with the widest margin. What stands in the way of any plate comes back as faults in words.
 */
export const designPlate = (job: Job, measured: ReadonlyMap<string, UsedPattern>, options: DesignOptions): Designed => {
  const used = withOpenedHoles(measured, job.work ?? []);
  const stated = statedClocking(job);
  const first = draftAt(job, used, options, stated, false);
  if (!first.ok) return first;
  const clockingSpec = job.plate?.clocking ?? { at: 0 };
  const search: AngleSpan | null =
    'search' in clockingSpec ? { from: clockingSpec.search[0], to: clockingSpec.search[1] } : null;
  const { turning, curable } = findTurning(first.draft, search ?? WHOLE_TURN);
  const clocking = search === null ? stated : (turning.best?.angle ?? stated);
  const drafted = draftAt(job, used, options, clocking);
  if (!drafted.ok) return drafted;
  const draft = drafted.draft;
  const { findings, unknowns } = checkDraft(draft);
  const turn = nearestTurn(clocking, turning.spans, turning.range);
  const redraw = (change: Change, setNewDowels = true): Drafted =>
    draftAt(change.job, withOpened(used, change.opened), options, change.clocking ?? clocking, setNewDowels);
  const sayLength = (mm: number): string => say(mm, { unit: job.units, fraction: null }, job.units === 'in' ? 3 : 2);
  const { checks, asCure } = withCures(findings, {
    tryingFor: (f) => ({
      job,
      draft,
      findings,
      turn: curable(f) ? turn : null,
      say: sayLength,
    }),
    about: aboutIn(draft),
    retry: (change) => {
      const again = redraw(change);
      return again.ok
        ? new Set(
            findingsOf(again.draft)
              .filter((f) => !f.ok)
              .map(aboutIn(again.draft)),
          )
        : null;
    },
    second: (first, f) => {
      const again = redraw(first);
      if (!again.ok || first.cure.kind === 'together') return [];
      const found = findingsOf(again.draft);
      const [before, after] = [aboutIn(draft), aboutIn(again.draft)];
      const failed = new Set(findings.filter((x) => !x.ok).map(before));
      // What it leaves of its own failure, else what it breaks.
      const left =
        found.find((x) => !x.ok && after(x) === before(f)) ?? found.find((x) => !x.ok && !failed.has(after(x)));
      if (left === undefined) return [];
      const trying = { job: first.job, draft: again.draft, findings: found, turn: null, say: sayLength };
      return kinds[left.id].cures(trying, left).flatMap((c): readonly Change[] =>
        c.cure.kind === 'together' || c.lastResort === true || first.cure.kind === 'together'
          ? []
          : [
              {
                ...c,
                clocking: first.clocking,
                ...(c.opened === undefined && first.opened !== undefined ? { opened: first.opened } : {}),
                cure: { kind: 'together', steps: [first.cure, c.cure] },
              },
            ],
      );
    },
    turnToo: (change) => {
      const again = redraw(change, false);
      const by = again.ok ? nearestTurn(clocking, spansToTurn(again.draft, turning.range), turning.range) : null;
      return by === null || by === 0 || change.cure.kind === 'together'
        ? null
        : {
            ...change,
            clocking: clocking + by,
            cure: { kind: 'together', steps: [{ kind: 'turn', by }, change.cure] },
          };
    },
  });
  const together = putTogether(draft, options);
  const chances = together.findings.map((f): Check => ({
    ...f,
    cures: f.ok ? [] : f.id === 'goes-on' ? (together.cures.get(f.of[0] ?? '') ?? []).map(asCure) : [],
  }));
  const all = [...checks, ...chances];
  const open = [...unknowns, ...together.unknowns];
  const plate = wholePlate({
    draft,
    used,
    checks: all,
    unknowns: open,
    together,
    turning,
    clockings: search === null ? null : turning.spans,
  });
  return { ok: true, plate, mated: draft.desk.mated };
};
