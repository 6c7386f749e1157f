import { fileNameOf, say, sayAll } from '@fayplate/core';
import { captioned, svg } from '@fayplate/drawing';
import { machinistTable } from '@fayplate/machining';
import { assemblyPicture, explodedPicture, habitsOf } from '@fayplate/pictures';
import type { Found, Task } from '../command.js';
import { assemblySection } from '../packet/assembly.js';
import { workshopSheet } from '../packet/workshop.js';
import { markedName, withMark } from '../pictures.js';
import { printSettings } from '../print-settings.js';
import { Refusal, noTable } from '../refusal.js';
import type { Study } from '../types.js';
import { noticeOf, verdictBlocks, verdictJson } from '../verdict-words.js';
import { unsettledOf } from '../verdict.js';

/** The assembly sheet by itself. */
export const assemblySheet = async ({ job, options, speech, world }: Task, study: Study): Promise<Found> => {
  if (options.svg === true) throw new Refusal('the assembly sheet is a page of words: leave --svg out');
  const verdict = study.verdict();
  const unsettled = unsettledOf(study);
  const file = options.out ?? `${fileNameOf(job.name)}-assembly.pdf`;
  const [lettering, sheets] = await Promise.all([world.lettering(), world.sheets()]);
  const { paper, date } = printSettings(job, options, null);
  const { title, report } = assemblySection(study, speech, []);
  const drawing = assemblyPicture(study.plate().plate, lettering);
  const printed = await sheets.page(
    {
      title,
      items: [
        { kind: 'report', report: [...verdictBlocks(verdict, unsettled), ...report] },
        { kind: 'picture', picture: drawing, share: 0.5 },
      ],
    },
    { paper, date, lettering, job: markedName(job), foot: noticeOf(verdict, unsettled).across ?? 'assembly sheet' },
  );
  if (!printed.ok) throw new Refusal(printed.faults.join('\n'));
  return {
    exit: verdict.answer === 'yes' ? 0 : 1,
    json: {
      file,
      what: 'assembly',
      paper: printed.paper.name,
      pages: printed.pages,
      assembly: { ...study.plate().plate.assembly, enters: Object.fromEntries(study.plate().plate.assembly.enters) },
      warnings: printed.warnings,
      verdict: verdictJson(verdict),
    },
    report: [
      ...verdictBlocks(verdict, unsettled),
      {
        kind: 'paragraph',
        text:
          `${file}: the assembly sheet, ${printed.pages} ${printed.pages === 1 ? 'page' : 'pages'}, on ` +
          `${printed.paper.name}.`,
      },
      ...report,
    ],
    files: [{ name: file, says: 'the assembly sheet', content: printed.bytes }],
  };
};

/** Parts, gaskets and plate pulled apart along the shaft, as PDF or as one SVG. */
export const explodedSheet = async ({ job, options, speech, world }: Task, study: Study): Promise<Found> => {
  const { plate, mated } = study.plate();
  const verdict = study.verdict();
  const unsettled = unsettledOf(study);
  const [lettering, sheets] = await Promise.all([world.lettering(), world.sheets()]);
  const drawing = explodedPicture({ job, plate, mated, benches: study.benches() }, speech, lettering);
  const file = options.out ?? `${fileNameOf(job.name)}-exploded.${options.svg === true ? 'svg' : 'pdf'}`;
  const { paper, date } = printSettings(job, options, null);
  const report = verdictBlocks(verdict, unsettled);
  const printed =
    options.svg === true
      ? null
      : await sheets.page(
          {
            title: drawing.title,
            items: [
              { kind: 'report', report },
              { kind: 'picture', picture: { ...drawing, title: '' }, share: 1 },
            ],
          },
          {
            paper,
            date,
            lettering,
            job: markedName(job),
            foot: noticeOf(verdict, unsettled).across ?? 'exploded view',
          },
        );
  if (printed !== null && !printed.ok) throw new Refusal(printed.faults.join('\n'));
  const on =
    printed === null ? '' : `, ${printed.pages === 1 ? 'one page' : `${printed.pages} pages`} of ${printed.paper.name}`;
  return {
    exit: verdict.answer === 'yes' ? 0 : 1,
    json: {
      file,
      what: 'exploded',
      scale: drawing.scale,
      ...(printed === null ? {} : { paper: printed.paper.name, pages: printed.pages }),
      warnings: printed?.warnings ?? [],
      verdict: verdictJson(verdict),
    },
    report: [
      ...report,
      { kind: 'paragraph', text: `${file}: parts and plate pulled apart along the shaft${on}.` },
      { kind: 'list', items: drawing.notes },
    ],
    files: [
      {
        name: file,
        says: 'exploded view',
        content: printed === null ? svg(captioned(withMark(drawing, job), lettering), lettering) : printed.bytes,
      },
    ],
  };
};

/** The drawing for another shop, as PDF or as one SVG. */
export const drawingSheet = async ({ job, options, speech, world }: Task, study: Study): Promise<Found> => {
  const { plate, mated } = study.plate();
  const verdict = study.verdict();
  const unsettled = unsettledOf(study);
  const how = { origin: options.origin ?? null, horizontal: null, unit: job.units, oneSided: false };
  const placed = machinistTable(plate, job, how, mated);
  if (!placed.ok) throw noTable(placed.faults, study.verdict());
  const [lettering, sheets] = await Promise.all([world.lettering(), world.sheets()]);
  const { drawing, paper, zones } = workshopSheet(study, placed.table, options.paper, lettering);
  const file = options.out ?? `${fileNameOf(job.name)}-drawing.${options.svg === true ? 'svg' : 'pdf'}`;
  const printed =
    options.svg === true ? null : await sheets.sheet(drawing, { paper: paper.name, date: null, lettering });
  if (printed !== null && !printed.ok) throw new Refusal(printed.faults.join('\n'));
  const warnings = printed?.warnings ?? [];
  return {
    exit: verdict.answer === 'yes' ? 0 : 1,
    json: {
      file,
      what: 'drawing',
      paper: paper.name,
      standard: habitsOf(job),
      position: Object.fromEntries(zones),
      warnings,
      verdict: verdictJson(verdict),
    },
    report: [
      ...verdictBlocks(verdict, unsettled),
      { kind: 'paragraph', text: `${file}: a drawing for another shop, on ${paper.name}.` },
      {
        kind: 'list',
        items: [
          ...([...zones].filter(([, zone]) => zone <= 0).length === 0
            ? []
            : [
                'No room is left for the place of ' +
                  `${sayAll([...zones].flatMap(([id, zone]) => (zone <= 0 ? [id] : [])))}: ask for a larger hole or ` +
                  'measure the part better.',
              ]),
          `Places are those of \`table\`, from ${placed.table.origin}; position zones are what each fastener ` +
            'leaves, the tightest ' +
            `${say(Math.min(...zones.values(), Infinity), { ...speech, fraction: null }, speech.unit === 'in' ? 3 : 2)}.`,
          ...warnings,
        ],
      },
    ],
    files: [
      {
        name: file,
        says: 'a drawing for another shop',
        content: printed === null ? svg(drawing, lettering) : printed.bytes,
      },
    ],
  };
};
