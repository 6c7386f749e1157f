import { fileNameOf } from '@fayplate/core';
import type { Found, Task } from '../command.js';
import { assemblySection } from '../packet/assembly.js';
import { printSettings } from '../print-settings.js';
import { Refusal } from '../refusal.js';
import type { Study } from '../study.js';
import { noticeOf, unsettledOf, verdictBlocks, verdictJson } from '../verdict.js';

/** The assembly sheet by itself. */
export const assemblySheet = async ({ job, options, speech, world }: Task, study: Study): Promise<Found> => {
  if (options.svg === true) throw new Refusal('the assembly sheet is a page of words: leave --svg out');
  const verdict = study.verdict();
  const unsettled = unsettledOf(study);
  const file = options.out ?? `${fileNameOf(job.name)}-assembly.pdf`;
  const [lettering, sheets] = await Promise.all([world.lettering(), world.sheets()]);
  const { paper, date } = printSettings(job, options, null);
  const { title, report, pictures } = assemblySection(study, speech, lettering);
  const printed = await sheets.page(
    {
      title,
      items: [
        { kind: 'report', report: [...verdictBlocks(verdict, unsettled), ...report] },
        ...pictures.map(({ drawing }) => ({ kind: 'picture' as const, picture: drawing, share: 0.5 })),
      ],
    },
    { paper, date, lettering, job: job.name, foot: noticeOf(verdict, unsettled).across ?? 'assembly sheet' },
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
        text: `${file}: the assembly sheet, ${printed.pages} ${printed.pages === 1 ? 'page' : 'pages'}, on ${printed.paper.name}.`,
      },
      ...report,
    ],
    files: [{ name: file, says: 'the assembly sheet', content: printed.bytes }],
  };
};
