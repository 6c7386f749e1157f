import type { Command } from '../command.js';
import { Refusal, noTable } from '../refusal.js';
import { platedFaces } from '../located.js';
import { fittedWords, studyFor } from '../study.js';
import { verdictJson } from '../verdict-words.js';
import { packetFiles } from '../packet/files.js';

/** All of it, as one packet: PDF, web page, templates, tables, files for the machine. */
export const packet: Command = async (task) => {
  const { job, options, speech, warn, world } = task;
  const out = options.out ?? 'packet';
  if (out === '-' || out.trim() === '')
    throw new Refusal('a packet is many files: give --out a folder, such as . for this one');
  const press = await world.press();
  const study = studyFor(task, { next: true });
  const made = await packetFiles(study, task, press).finally(press.stop);
  if (!made.ok) throw noTable(made.faults, study.verdict());
  for (const w of made.warnings) warn(w);
  return {
    exit: made.sound ? 0 : 1,
    json: { out, files: made.files.map((f) => f.name), ok: made.sound, verdict: verdictJson(made.verdict) },
    more: fittedWords(study, platedFaces(job), speech),
    report: [
      ...made.verdicts,
      {
        kind: 'table',
        caption: `Written to ${out}`,
        columns: [
          { title: 'File', align: 'left' },
          { title: 'What it is', align: 'left' },
        ],
        rows: made.files.map((f) => [f.name, f.says]),
      },
    ],
    files: made.files,
  };
};
