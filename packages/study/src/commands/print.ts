import { fileNameOf, sayAll } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import { type TableRow, machinistTable } from '@fayplate/machining';
import { isLarge, viewedWords } from '@fayplate/pictures';
import type { Command, Found, Task } from '../command.js';
import { doubtsOf } from '../doubts.js';
import { platedFaces } from '../located.js';
import { measuringSheets } from '../measuring.js';
import { marked, markedName } from '../pictures.js';
import { printSettings } from '../print-settings.js';
import { printerFor } from '../printers.js';
import type { PartSheet, StopDepth } from '../printing.js';
import { Refusal, noTable } from '../refusal.js';
import { fittedWords, studyFor } from '../study.js';
import type { Study } from '../types.js';
import { noticeOf, verdictBlocks, verdictJson } from '../verdict-words.js';
import { unsettledOf } from '../verdict.js';
import { buyingSheet } from './buy-sheet.js';
import { reportOf } from './print-report.js';
import { assemblySheet, drawingSheet, explodedSheet } from './print-sheets.js';

/** Sheets to fill in at the bench: they ask for no plate, and judge nothing. */
const readings = async ({ job, options, world }: Task, study: Study): Promise<Found> => {
  if (options.svg === true) throw new Refusal('measuring sheets are pages to write on: leave --svg out');
  const file = options.out ?? `${fileNameOf(job.name)}-readings.pdf`;
  const [lettering, sheets] = await Promise.all([world.lettering(), world.sheets()]);
  const { paper, date } = printSettings(job, options, null);
  const asked = measuringSheets(study, lettering);
  const printed = await sheets.readings(asked, { paper, date, lettering, job: markedName(job) });
  if (!printed.ok) throw new Refusal(printed.faults.join('\n'));
  const { pages } = printed;
  return {
    exit: 0,
    json: {
      file,
      what: 'readings',
      paper: printed.paper.name,
      pages,
      readings: asked.flatMap((s) => s.lines.map((l) => ({ of: s.of, ...l }))),
      warnings: printed.warnings,
    },
    report: [
      {
        kind: 'paragraph',
        text:
          `${file}: ${pages.length} measuring ${pages.length === 1 ? 'sheet' : 'sheets'}, on ${printed.paper.name}: ` +
          `${sayAll([...new Set(asked.map((s) => s.of))])}.`,
      },
      {
        kind: 'list',
        items: [
          'Take the readings in the order of their numbers; the arrows show the two edges of each.',
          'Type each into the job file as it stands on its line.',
          ...printed.warnings,
        ],
      },
    ],
    files: [{ name: file, says: 'measuring sheets', content: printed.bytes }],
  };
};

const partSheet = (study: Study, face: Face): PartSheet => {
  const located = study.located(face);
  return {
    name: face.name,
    looked: viewedWords(face).toLowerCase(),
    features: face.features.flatMap((f) => {
      const at = located.features.get(f.id);
      if (at === undefined || f.vacant) return [];
      const diameter = at.radius === null ? null : 2 * at.radius;
      return [{ id: f.id, x: at.x, y: at.y, diameter, plusMinus: at.ellipse95.major, large: isLarge(f) }];
    }),
  };
};

/**
 * Each part alone at true scale, a file for each: laid on the part it shows whether the readings are its own, before
 * there is a plate.
 */
const parts = async ({ job, options, speech, world }: Task, study: Study): Promise<Found> => {
  if (options.svg === true) throw new Refusal('part templates are printed as PDF: leave --svg out');
  const drawn = job.faces.map((face) => partSheet(study, face)).filter((p) => p.features.length > 1);
  if (drawn.length === 0)
    throw new Refusal(
      'no part has two features that its readings fix: take more readings (`fayplate check` says which)',
    );
  const [lettering, sheets] = await Promise.all([world.lettering(), world.sheets()]);
  const settings = { ...printSettings(job, options, printerFor(options.printer, job, world)), speech };
  const stem = options.out?.replace(/\.pdf$/i, '') ?? `${fileNameOf(job.name)}-part`;
  const made = [];
  for (const part of drawn) {
    const file = drawn.length === 1 && options.out !== undefined ? options.out : `${stem}-${fileNameOf(part.name)}.pdf`;
    const printed = await sheets.part(markedName(job), part, { ...settings, file, lettering });
    if (!printed.ok) throw new Refusal(printed.faults.join('\n'));
    made.push({ file, printed });
  }
  return {
    exit: 0,
    json: { what: 'part', files: made.map((m) => m.printed.json) },
    report: made.flatMap((m) => reportOf(m.printed, m.file, speech)),
    files: made.map((m) => ({ name: m.file, says: 'a part at true scale', content: m.printed.bytes })),
  };
};

/** Cuts that are made to a stop: each tool, side and depth once, in the order in which they are first met. */
const stopDepths = (rows: readonly TableRow[]): readonly StopDepth[] => {
  const found = new Map<string, { readonly depth: StopDepth; readonly holes: Set<string> }>();
  for (const { tool, op, side, depth, hole } of rows) {
    if (!STOPPED.has(op) || depth <= 0) continue;
    const key = `${tool} ${op} ${side} ${depth.toFixed(3)}`;
    const already = found.get(key);
    if (already === undefined) found.set(key, { depth: { tool, op, side, depth, holes: [] }, holes: new Set([hole]) });
    else already.holes.add(hole);
  }
  return [...found.values()].map(({ depth, holes }) => ({ ...depth, holes: [...holes] }));
};

const STOPPED: ReadonlySet<TableRow['op']> = new Set([
  'spot',
  'pilot',
  'drill',
  'ream',
  'counterbore',
  'spotface',
  'countersink',
  'tap',
]);

/**
 * Strips as long as the depths of the drill stop; they rest on the same plate as the table, and say what stands against
 * it.
 */
const depths = async ({ job, options, speech, world }: Task, study: Study): Promise<Found> => {
  if (options.svg === true) throw new Refusal('depth strips are printed as PDF: leave --svg out');
  const { plate, mated } = study.plate();
  const how = { origin: null, horizontal: null, unit: speech.unit, oneSided: false };
  const placed = machinistTable(plate, job, how, mated);
  if (!placed.ok) throw noTable(placed.faults, study.verdict());
  const verdict = study.verdict();
  const unsettled = unsettledOf(study);
  const file = options.out ?? `${fileNameOf(job.name)}-depths.pdf`;
  const [lettering, sheets] = await Promise.all([world.lettering(), world.sheets()]);
  const printed = await sheets.depths(markedName(job), stopDepths(placed.table.rows), {
    ...printSettings(job, options, printerFor(options.printer, job, world)),
    speech,
    notice: noticeOf(verdict, unsettled),
    file,
    lettering,
  });
  if (!printed.ok) throw new Refusal(printed.faults.join('\n'));
  return {
    exit: verdict.answer === 'yes' ? 0 : 1,
    json: { ...printed.json, verdict: verdictJson(verdict) },
    report: [...verdictBlocks(verdict, unsettled), ...reportOf(printed, file, speech)],
    files: [{ name: file, says: 'depths for the drill stop', content: printed.bytes }],
  };
};

/** A template at true scale: the drilling template or the gaskets, as PDF tiled over any paper, or as one SVG. */
export const print: Command = async (task) => {
  const { job, options, speech, world } = task;
  const study = studyFor(task);
  if (options.what === 'readings') return readings(task, study);
  if (options.what === 'part') return parts(task, study);
  if (options.what === 'buy') return buyingSheet(task, study);
  // Its meshing is wanted for it alone.
  if (options.what === 'test-piece') return (await import('./test-piece.js')).testPieceFiles(task, study);
  if (options.kerf !== undefined || options.thick !== undefined)
    throw new Refusal('--kerf and --thick are of a test piece: add --what test-piece, or leave them out');
  const { plate, mated } = study.plate();
  const doubts = doubtsOf(study);
  const verdict = study.verdict();
  const unsettled = unsettledOf(study);
  const exit = verdict.answer === 'yes' ? 0 : 1;
  const said = verdictBlocks(verdict, unsettled);
  if (options.what === 'depths') return depths(task, study);
  if (options.what === 'assembly') return assemblySheet(task, study);
  if (options.what === 'drawing') return drawingSheet(task, study);
  if (options.what === 'exploded') return explodedSheet(task, study);
  if (options.what === 'exploded') return explodedSheet(task, study);
  const what = options.what ?? 'drill';
  if (what !== 'drill' && what !== 'gasket')
    throw new Refusal(
      '--what takes drill, gasket, part, depths, readings, assembly, exploded, drawing, buy or test-piece',
    );
  const file = options.out ?? `${fileNameOf(job.name)}-${what}.${options.svg === true ? 'svg' : 'pdf'}`;
  const settings = {
    ...printSettings(job, options, printerFor(options.printer, job, world)),
    speech,
    notice: noticeOf(verdict, unsettled),
  };
  const input = { job: marked(job), plate, mated, benches: study.benches() };
  const [lettering, sheets] = await Promise.all([world.lettering(), world.sheets()]);
  if (options.svg === true) {
    const drawn = sheets.svg(input, { what, side: settings.side, speech, lettering, notice: settings.notice });
    if (!drawn.ok) throw new Refusal(drawn.faults.join('\n'));
    return {
      exit,
      json: {
        file,
        what,
        side: settings.side,
        warnings: drawn.warnings,
        suspects: doubts.suspects,
        verdict: verdictJson(verdict),
      },
      report: [
        ...said,
        { kind: 'paragraph', text: `${file}: one drawing at true scale.` },
        ...drawn.warnings.map((text) => ({ kind: 'paragraph', text }) as const),
      ],
      files: [{ name: file, says: 'one drawing at true scale', content: drawn.text }],
    };
  }
  const printed = await sheets.pdf(input, { ...settings, lettering, file, what });
  if (!printed.ok) throw new Refusal(printed.faults.join('\n'));
  return {
    exit,
    json: { ...printed.json, suspects: doubts.suspects, verdict: verdictJson(verdict) },
    report: [...said, ...reportOf(printed, file, speech)],
    more: fittedWords(study, platedFaces(job), speech),
    files: [{ name: file, says: 'a template at true scale', content: printed.bytes }],
  };
};
