import { inSetting, machinistTable, tableJson, tableReport } from '@fayplate/machining';
import type { Command, Found, MadeFile } from '../command.js';
import { doubtsOf } from '../doubts.js';
import { type MachineFile, type MachineFormat, type MachineSource, machineFormats } from '../formats.js';
import type { Options } from '../options.js';
import { markedName, pictureFiles } from '../pictures.js';
import { Refusal, Unsettled, noTable } from '../refusal.js';
import { platedFaces } from '../located.js';
import { fittedWords, studyFor } from '../study.js';
import { noticeOf, verdictBlocks, verdictJson, withheld } from '../verdict-words.js';
import { unsettledOf } from '../verdict.js';

const pairOf = (names: readonly string[] | undefined): readonly [string, string] | null => {
  if (names === undefined) return null;
  const [a, b, more] = names;
  if (a === undefined || b === undefined || more !== undefined)
    throw new Refusal('--horizontal takes two places, such as --horizontal H1 H4');
  return [a, b];
};

/** The name for one of several files: `pump.cnc` → `pump-side-a.cnc`. */
const namedFor = (out: string, { name }: MachineFile): string => {
  const dot = out.lastIndexOf('.') > out.lastIndexOf('/') ? out.lastIndexOf('.') : out.length;
  return `${out.slice(0, dot)}-${name}${out.slice(dot)}`;
};

const made = async (
  format: MachineFormat,
  source: MachineSource,
  options: Options,
): Promise<readonly MachineFile[]> => {
  const why = withheld(format, source.notice, options);
  if (why !== null) throw new Unsettled(why);
  const made = await format.make(source);
  if (!made.ok) throw new Refusal(made.faults.join('\n'));
  return made.files;
};

/** What was asked for in place of words: a text where no file is named, else the files. */
const inPlaceOfWords = async (
  options: Options,
  source: MachineSource,
): Promise<Required<Pick<Found, 'files'>> & Pick<Found, 'instead'>> => {
  const format = machineFormats.find((f) => !f.beside && options[f.flag] === true);
  if (format === undefined) return { files: [] };
  const files = await made(format, source, options);
  const all = files.map((f) => f.text).join('\n');
  const { out } = options;
  if (out === undefined) return { files: [], instead: all };
  const [only] = files;
  if (out === '-' || files.length === 1) return { files: [{ name: out, says: only?.says ?? '', content: all }] };
  return { files: files.map((f) => ({ name: namedFor(out, f), says: f.says, content: f.text })) };
};

const besideWords = async (options: Options, source: MachineSource): Promise<readonly MadeFile[]> => {
  const files: MadeFile[] = [];
  for (const format of machineFormats.filter((f) => f.beside)) {
    const name = options[format.flag];
    if (typeof name !== 'string') continue;
    for (const f of await made(format, source, options)) files.push({ name, says: f.says, content: f.text });
  }
  return files;
};

/** The machinist's table: drilling coordinates, tool order, check distances; and the files for the machine. */
export const table: Command = async (task) => {
  const { job, options, speech } = task;
  const study = studyFor(task);
  const { plate, mated } = study.plate();
  const doubts = doubtsOf(study);
  const verdict = study.verdict();
  const unsettled = unsettledOf(study);
  const placed = machinistTable(
    plate,
    job,
    {
      origin: options.origin ?? null,
      horizontal: pairOf(options.horizontal),
      unit: speech.unit,
      oneSided: options.oneSided === true,
    },
    mated,
  );
  if (!placed.ok) throw noTable(placed.faults, verdict);
  const source: MachineSource = {
    plate,
    table: placed.table,
    name: markedName(job),
    notice: noticeOf(verdict, unsettled),
    dryRun: options.dryRun === true,
    g70G71: options.g70G71 === true,
  };
  const pictures = await pictureFiles(task, (draw, letters) =>
    placed.table.setups.map((setup) => ({
      name: `side-${setup.side}${setup.setting === undefined ? '' : `-${setup.setting}`}`,
      drawing: draw.settingPicture(plate, inSetting(placed.table, setup), setup.side, letters),
    })),
  );
  const asked = await inPlaceOfWords(options, source);
  const { contour } = placed.table;
  const without = options.cnc === true && contour?.ok === false ? contour.faults : [];
  for (const words of without) task.warn(`No program for the outline: ${words}.`);
  return {
    ...asked,
    exit: verdict.answer === 'yes' && without.length === 0 && placed.table.clear.every((c) => c.ok) ? 0 : 1,
    json: { ...tableJson(placed.table), suspects: doubts.suspects, verdict: verdictJson(verdict) },
    report: [...verdictBlocks(verdict, unsettled), ...tableReport(placed.table, speech)],
    more: fittedWords(study, platedFaces(job), speech),
    files: [...(await besideWords(options, source)), ...pictures, ...asked.files],
  };
};
