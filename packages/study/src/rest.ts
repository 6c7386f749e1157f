import { type Report, type Speech, sayNumber } from '@fayplate/core';
import { type MachinistTable, type Midway, type Way, restTable, wayWords } from '@fayplate/machining';
import type { MadeFile, Task } from './command.js';
import { type MachineSource, machineFormats } from './formats.js';
import { marked, markedName } from './pictures.js';
import { printSettings } from './print-settings.js';
import { printerFor } from './printers.js';
import { Refusal } from './refusal.js';
import type { Study } from './types.js';
import { noticeOf } from './verdict-words.js';
import { unsettledOf } from './verdict.js';

/** The ways that do, in the order of the report. */
const waysThatDo = (m: Midway): readonly Way[] => m.ways.filter((w) => w.holds);

/** The way asked for by its number, else the best; null where only scrap is left or nothing was asked. */
const chosen = (m: Midway, n: number | undefined): Way | null => {
  const does = waysThatDo(m);
  if (n === undefined) return does.find((w) => w.kind !== 'scrap') ?? null;
  const way = does[n - 1];
  if (way === undefined)
    throw new Refusal(
      `--way ${n}: there ${does.length === 1 ? 'is 1 way' : `are ${does.length} ways`} to go on; \`fayplate ` +
        `prove\` lists them`,
    );
  return way;
};

const tableOf = (way: Way, study: Study, speech: Speech): MachinistTable | null => {
  const wrong = (study.midway()?.wrong ?? []).map((w) => w.id);
  const made = restTable(way, wrong, study.named(), { unit: speech.unit });
  if (made !== null && !made.ok) throw new Refusal(made.faults.join('\n'));
  return made?.table ?? null;
};

/** What the best way, or the one asked for, leaves to drill: each hole once, from a zero on a drilled hole. */
export const restReport = (study: Study, n: number | undefined, speech: Speech): Report => {
  const m = study.midway();
  const way = m === null ? null : chosen(m, n);
  const table = m === null || way === null ? null : tableOf(way, study, speech);
  if (m === null || way === null || table === null) return [];
  const last = new Map(table.rows.map((r) => [r.hole, r]));
  return [
    { kind: 'heading', level: 2, text: 'What is left to drill' },
    {
      kind: 'paragraph',
      text:
        `By this way: ${wayWords(way, m, speech)}. ` +
        (table.horizontal === null
          ? `Zero at ${table.origin}.`
          : `Zero at ${table.origin}; X runs along the line ${table.horizontal}. Set the machine by these drilled ` +
            'holes, not by the edge.'),
    },
    {
      kind: 'table',
      caption: `Places from ${table.origin}, ${speech.unit}, seen from side B`,
      columns: [
        { title: 'Hole', align: 'left' },
        { title: 'X', align: 'point' },
        { title: 'Y', align: 'point' },
        { title: 'Last cut', align: 'left' },
      ],
      rows: [...last].map(([hole, r]) => [
        hole,
        sayNumber(r.x, { ...speech, fraction: null }),
        sayNumber(r.y, { ...speech, fraction: null }),
        `${r.op} ${r.tool}`,
      ]),
    },
  ];
};

/**
 * The table, programs and template of what is left to drill, called after `out`: `pump-table.csv`, `pump-side-b.cnc`,
 * `pump-drill.pdf`.
 */
export const restFiles = async (study: Study, { job, options, speech, world }: Task): Promise<readonly MadeFile[]> => {
  if (options.out === undefined) return [];
  if (options.out === '-')
    throw new Refusal('--out makes several files: give the name that they begin with, such as pump-rest');
  const m = study.midway();
  const way = m === null ? null : chosen(m, options.way);
  const table = way === null ? null : tableOf(way, study, speech);
  if (way?.made == null || table === null)
    throw new Refusal(
      m === null
        ? 'there is no plate that is drilled in part: say in the job which ' +
            'holes are drilled, such as drilled: { so far: [H1, H2] }'
        : 'that way leaves nothing to drill',
    );
  const { plate, mated } = way.made;
  const notice = {
    ...noticeOf(study.verdict(), unsettledOf(study)),
    line: `The rest: ${m === null ? '' : wayWords(way, m, speech)}`,
  };
  const source: MachineSource = { plate, table, name: `${markedName(job)}: the rest`, notice };
  const files: MadeFile[] = [];
  for (const format of machineFormats.filter((f) => f.flag !== 'step')) {
    const made = await format.make(source);
    if (!made.ok) throw new Refusal(made.faults.join('\n'));
    for (const f of made.files)
      files.push({
        name: `${options.out}-${f.name}.${format.extension}`,
        says: `${f.says}, what is left`,
        content: f.text,
      });
  }
  const [lettering, sheets] = await Promise.all([world.lettering(), world.sheets()]);
  const file = `${options.out}-drill.pdf`;
  const printed = await sheets.pdf(
    { job: marked(job), plate, mated, benches: study.benches() },
    {
      ...printSettings(job, options, printerFor(options.printer, job, world)),
      speech,
      notice,
      file,
      what: 'drill',
      lettering,
    },
  );
  if (!printed.ok) throw new Refusal(printed.faults.join('\n'));
  return [...files, { name: file, says: 'the template of what is left, drilled holes dashed', content: printed.bytes }];
};
