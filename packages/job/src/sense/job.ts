import type { JobFile } from '../schema/file.js';
import type { Job } from '../types.js';
import { type Context, entriesAt } from './context.js';
import { assembledOf } from './assembled.js';
import { drilledOf } from './drilled.js';
import { faceOf } from './face.js';
import { drawingOf, gasketsOf, instruments, machineOf, printOf } from './shop.js';
import { movesOf, movesWanted } from './places.js';
import { plateOf } from './plate.js';
import { oldOf, oldWanted } from './old.js';
import { stackOf } from './stack.js';
import { afterWork, workOf } from './work.js';
import { trialOf } from './trial.js';
import { warnOfUnlikely } from './unlikely.js';

/** What was read of the file → the job, every name looked up. It is one only where no fault was found on the way. */
export const jobOf = (context: Context, sheet: JobFile): Job => {
  const known = instruments(context, sheet);
  const read = entriesAt(context, ['faces'], sheet.faces).map(([name, f]) => faceOf(context, name, f, known));
  const faces = read.map((r) => r.face);
  const plated = faces.filter((f) => sheet.plate === undefined || sheet.plate.between.includes(f.name));
  const assembled = sheet.assembled === undefined ? null : assembledOf(context, sheet.assembled, known, plated);
  const plate = sheet.plate === undefined ? null : plateOf(context, sheet.plate, faces);
  const drilled = sheet.drilled === undefined ? null : drilledOf(context, sheet.drilled, known, faces, plate?.pieces);
  const job: Job = {
    name: sheet.job,
    units: sheet.units,
    instruments: known,
    faces,
    plate,
    machine: sheet.machine === undefined ? null : machineOf(context, sheet.machine),
    stack: sheet.stack === undefined ? null : stackOf(context, sheet.stack),
    old: sheet.old === undefined ? null : oldOf(context, sheet.old, known),
    gaskets: sheet.gaskets === undefined ? [] : gasketsOf(context, sheet.gaskets),
    drilled: null,
    ...drilled?.job,
    ...(sheet.moves === undefined ? {} : { moves: movesOf(context, sheet.moves, plated) }),
    ...(assembled === null ? {} : { assembled: assembled.readings }),
    print: sheet.print === undefined ? null : printOf(context, sheet.print),
    ...(sheet.trial === undefined ? {} : { trial: trialOf(context, sheet.trial, faces, known) }),
    ...(sheet.drawing === undefined ? {} : { drawing: drawingOf(sheet.drawing) }),
  };
  const work = sheet.work === undefined ? [] : workOf(context, sheet.work, job);
  oldWanted(context, job);
  movesWanted(context, job);
  warnOfUnlikely(context, job, [
    ...read.map((r) => r.taken),
    ...(drilled?.taken ?? []),
    ...(assembled === null ? [] : [assembled.taken]),
  ]);
  return afterWork(job, work);
};
