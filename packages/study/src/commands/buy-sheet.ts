import { fileNameOf, sayAll } from '@fayplate/core';
import { facePicture } from '@fayplate/pictures';
import { LIKELY, buyJson, buySheet } from '@fayplate/plate';
import type { Found, Task } from '../command.js';
import { markedName } from '../pictures.js';
import { printSettings } from '../print-settings.js';
import { Refusal } from '../refusal.js';
import { platedFaces } from '../located.js';
import type { Study } from '../types.js';
import { boughtIn } from './buy.js';

/**
 * The sheet to hold while one asks a seller: the odds, the window for the thickness, and what to have measured, with
 * room to write.
 */
export const buyingSheet = async (task: Task, study: Study): Promise<Found> => {
  const { job, options, speech, world } = task;
  if (options.svg === true) throw new Refusal('the sheet for a seller is a page of words: leave --svg out');
  const { buying: b, sold } = boughtIn(task, study);
  const file = options.out ?? `${fileNameOf(job.name)}-buy.pdf`;
  const [lettering, sheets] = await Promise.all([world.lettering(), world.sheets()]);
  const { paper, date } = printSettings(job, options, null);
  const report = buySheet(b, sold, speech);
  const faces = platedFaces(job).filter((f) => f.seller != null);
  const printed = await sheets.page(
    {
      title: `Before buying: ${sayAll(sold)}`,
      items: [
        { kind: 'report', report },
        ...faces.map((f) => ({
          kind: 'picture' as const,
          picture: { ...facePicture(f, study.located(f), speech, lettering), title: `${f.name}: as its seller has it` },
          share: 0.5,
        })),
      ],
    },
    { paper, date, lettering, job: markedName(job), foot: 'before buying' },
  );
  if (!printed.ok) throw new Refusal(printed.faults.join('\n'));
  return {
    exit: b.odds >= LIKELY ? 0 : 1,
    json: {
      file,
      what: 'buy',
      paper: printed.paper.name,
      pages: printed.pages,
      warnings: printed.warnings,
      buy: buyJson(b),
    },
    report: [
      ...report,
      {
        kind: 'paragraph',
        text:
          `${file}: a sheet for the seller, ${printed.pages} ${printed.pages === 1 ? 'page' : 'pages'}, on ` +
          `${printed.paper.name}.`,
      },
    ],
    files: [{ name: file, says: 'what to ask a seller for', content: printed.bytes }],
  };
};
