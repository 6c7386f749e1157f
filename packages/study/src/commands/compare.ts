import { fingerprintOf, readJob } from '@fayplate/job';
import type { Command } from '../command.js';
import { inputChanges } from '../compare/inputs.js';
import { plateChanges } from '../compare/moved.js';
import { type Comparison, compareJson, compareReport, isHeld } from '../compare/report.js';
import { partSheets, plateSheets } from '../compare/sheets.js';
import { stillGood } from '../compare/still-good.js';
import { Refusal } from '../refusal.js';
import type { Study } from '../types.js';
import { studyFor } from '../study.js';

/**
 * Two states of a job: what was changed, what moved, which sheets are stale, and whether a drilled plate is still good.
 */
export const compare: Command = async (task) => {
  const { job, options, speech, world } = task;
  if (options.earlier === undefined)
    throw new Refusal(
      'compare needs the earlier state as well: --with the job file as it was, such as --with pump-before.yaml',
    );
  const read = readJob(options.earlier, world.beside === undefined ? {} : { csv: world.beside });
  if (!read.ok) {
    const [first] = read.faults;
    throw new Refusal(
      `the earlier state cannot be read: line ${first?.line ?? 1}, column ${first?.column ?? 1}: found ` +
        `"${first?.found ?? ''}", expected ${first?.expected ?? 'a job'}`,
    );
  }
  const before = studyFor({ ...task, job: read.job, warn: () => undefined });
  const now = studyFor(task);
  const both = read.job.plate !== null && job.plate !== null;
  const old = both ? before.pieces() : null;
  const own = both ? now.pieces() : null;
  const pairs: readonly (readonly [piece: string | null, before: Study, now: Study])[] = !both
    ? []
    : old !== null && own !== null
      ? own.flatMap((p, i) => {
          const was = old[i];
          return was === undefined ? [] : [[p.name, was.study, p.study] as const];
        })
      : old === null && own === null
        ? [[null, before, now]]
        : [];
  const comparison: Comparison = {
    marks: [fingerprintOf(read.job), fingerprintOf(job)],
    inputs: inputChanges(read.job, job, speech),
    plates: pairs.map(([piece, was, is]) => {
      const changes = plateChanges(was.plate().plate, is.plate().plate);
      return { piece, changes, sheets: plateSheets(was, is, changes), drilled: stillGood(was, is) };
    }),
    split: both && pairs.length === 0 ? [old?.length ?? 1, own?.length ?? 1] : null,
    sheets: both ? partSheets(before, now) : [],
  };
  return {
    exit: isHeld(comparison) ? 0 : 1,
    json: compareJson(comparison),
    report: compareReport(comparison, speech),
  };
};
