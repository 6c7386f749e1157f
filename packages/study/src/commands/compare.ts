import { fingerprintOf, readJob } from '@fayplate/job';
import type { Command } from '../command.js';
import { inputChanges } from '../compare/inputs.js';
import { plateChanges } from '../compare/moved.js';
import { compareJson, compareReport, isHeld } from '../compare/report.js';
import { sheetStates } from '../compare/sheets.js';
import { stillGood } from '../compare/still-good.js';
import { Refusal } from '../refusal.js';
import { studyFor } from '../study.js';

/** Two states of a job: what was changed, what moved, which sheets are stale, and whether a drilled plate is still good. */
export const compare: Command = async (task) => {
  const { job, options, speech, world } = task;
  if (options.earlier === undefined)
    throw new Refusal(
      'compare wants the earlier state as well: --with the job file as it was, such as --with pump-before.yaml',
    );
  const read = readJob(options.earlier, world.beside === undefined ? {} : { csv: world.beside });
  if (!read.ok) {
    const [first] = read.faults;
    throw new Refusal(
      `the earlier state cannot be read: line ${first?.line ?? 1}, column ${first?.column ?? 1}: found "${first?.found ?? ''}", expected ${first?.expected ?? 'a job'}`,
    );
  }
  const before = studyFor({ ...task, job: read.job, warn: () => undefined });
  const now = studyFor(task);
  const marks = [fingerprintOf(read.job), fingerprintOf(job)] as const;
  const both = read.job.plate !== null && job.plate !== null;
  const plates = both ? ([before.plate().plate, now.plate().plate] as const) : null;
  const plate = plates === null ? null : plateChanges(...plates);
  const comparison = {
    marks,
    inputs: inputChanges(read.job, job, speech),
    plate,
    sheets:
      plates === null || plate === null
        ? []
        : sheetStates({ job: read.job, plate: plates[0] }, { job, plate: plates[1] }, plate),
    drilled: both ? stillGood(before, now) : null,
  };
  return {
    exit: isHeld(comparison) ? 0 : 1,
    json: compareJson(comparison),
    report: compareReport(comparison, speech),
  };
};
