import type { Motion } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import { type AlreadyCut, withAlreadyCut } from './already-cut.js';
import { checkDraft } from './checks/all.js';
import { findTurning } from './clocking/turning.js';
import { layDesk } from './desk.js';
import { type Drafted, drawDraft } from './draft.js';
import { putTogether } from './fit/together.js';
import { statedClocking } from './mate/mate.js';
import type { AngleSpan, Check, MatedFace, Plate, StackResult, Turning } from './types.js';
import { wholePlate } from './whole.js';

/** How a plate is tried: the chain as solved, and what departs from the job. */
export interface TryOptions {
  readonly stack: StackResult | null;
  readonly benches?: ReadonlyMap<string, Motion | null>;
  /** Radians clockwise; a range: the angle in it with the widest margin; left out: as the job says. */
  readonly clocking?: number | AngleSpan;
  /** Holes that are cut already; left out: none. */
  readonly already?: AlreadyCut;
  /** Trials of whether it goes on; 200 where not said. */
  readonly trials?: number;
  readonly seed?: number;
}

/** A plate that was tried, with what fails of it. */
export type PlateTried =
  | {
      readonly ok: true;
      readonly plate: Plate;
      readonly mated: readonly [MatedFace, MatedFace];
      readonly fails: readonly Check[];
    }
  | { readonly ok: false; readonly faults: readonly string[] };

const USUAL_TRIALS = 200;

const noTurning = (clocking: number): Turning => ({
  range: { from: clocking, to: clocking },
  spans: [],
  best: null,
  plot: [],
});

/**
 * The whole plate with every check, as `designPlate` has it, but without cures and without what turning would change:
 * for trying many. Angles are radians clockwise. What stands in the way of any plate comes back as faults in words.
 */
export const tryPlate = (job: Job, used: ReadonlyMap<string, UsedPattern>, options: TryOptions): PlateTried => {
  const { stack, benches, already, trials = USUAL_TRIALS, seed } = options;
  const draw = (clocking: number, setNewDowels = true): Drafted => {
    const laid = layDesk(job, used, { stack, clocking, setNewDowels, ...(benches === undefined ? {} : { benches }) });
    if (!laid.ok) return laid;
    const drafted = drawDraft(laid.desk);
    return drafted.ok && already !== undefined ? { ok: true, draft: withAlreadyCut(drafted.draft, already) } : drafted;
  };
  const spec = job.plate?.clocking ?? { at: 0 };
  const asked =
    options.clocking ?? ('search' in spec ? { from: spec.search[0], to: spec.search[1] } : statedClocking(job));
  const at = typeof asked === 'number' ? asked : bestAngle(draw, asked, statedClocking(job));
  const drafted = draw(at);
  if (!drafted.ok) return drafted;
  const { draft } = drafted;
  const { findings, unknowns } = checkDraft(draft);
  const together = putTogether(draft, { trials, ...(seed === undefined ? {} : { seed }) });
  const checks = [...findings, ...together.findings].map((f): Check => ({ ...f, cures: [] }));
  const plate = wholePlate({
    draft,
    used,
    checks,
    unknowns: [...unknowns, ...together.unknowns],
    together,
    turning: noTurning(at),
    clockings: null,
  });
  return { ok: true, plate, mated: draft.desk.mated, fails: checks.filter((c) => !c.ok) };
};

const bestAngle = (
  draw: (clocking: number, setNewDowels: boolean) => Drafted,
  range: AngleSpan,
  usual: number,
): number => {
  const first = draw(usual, false);
  return first.ok ? (findTurning(first.draft, range).turning.best?.angle ?? usual) : usual;
};
