import { type Block, type Report, type Speech, sayAll } from '@fayplate/core';
import type { Lettering } from '@fayplate/drawing';
import { layoutReport } from '@fayplate/layout';
import {
  type MachinistTable,
  assembledReport,
  assembledWith,
  midwayReport,
  prove,
  proveReport,
  tableReport,
  inSetting,
  settingTag,
} from '@fayplate/machining';
import {
  chainPicture,
  clockingPicture,
  facePicture,
  layoutPicture,
  platePicture,
  sectionPicture,
  settingPicture,
} from '@fayplate/pictures';
import { type Side, movesReport, oldDecides, oldReport, plateReport, stackReport } from '@fayplate/plate';
import { locateReport } from '@fayplate/survey';
import type { PrintSection } from '../printing.js';
import type { Study } from '../types.js';
import { restReport } from '../rest.js';
import { trialSheet } from '../trial.js';
import { type Section, assemblyPictures, assemblySection } from './assembly.js';
import { appendixSheet, bringReport, shortSections, summarySheet } from './short.js';
import { unsettledOf } from '../verdict.js';
import { verdictBlocks } from '../verdict-words.js';

/**
 * The section as the printed packet sets it: no picture takes more than half a page but one that is read at the
 * machine.
 */
const printedSection = (s: Section): PrintSection => ({
  title: s.title,
  behind: true,
  items: [
    { kind: 'report', report: s.report },
    ...s.pictures.map(({ drawing, whole }) => ({
      kind: 'picture' as const,
      picture: drawing,
      share: whole === true ? 1 : 0.5,
    })),
  ],
});

/** Fewer settings than this are read as well from half a page. */
const FEW = 4;

const isFull = (table: MachinistTable, side: Side): boolean =>
  new Set(table.rows.filter((r) => r.side === side).map((r) => r.hole)).size >= FEW;

/** Hole → the number of its first cut in a setting. */
const firstCuts = (table: MachinistTable, side: Side): ReadonlyMap<string, number> =>
  new Map(
    table.rows
      .filter((r) => r.side === side)
      .toReversed()
      .map((r) => [r.hole, r.n]),
  );

/** The verdict block of a report, so that the summary repeats no room's judgement in other words. */
const verdictsOf = (report: Report): Report => report.filter((b) => b.kind === 'verdict');

/** While readings are not settled nothing that rests on them is ticked. */
const ticked = (verdicts: Report, settled: boolean): Report =>
  settled
    ? verdicts
    : [{ kind: 'verdict', ok: false, answer: 'not yet', text: 'It depends on readings that are not settled.' }];

/** Every room's own answer by itself. */
const roomVerdicts = (study: Study, sections: readonly Section[]): Report =>
  sections.flatMap((s): Report => {
    const verdicts = s.saysWhole === true ? [] : verdictsOf(s.report);
    return verdicts.length === 0
      ? []
      : [
          { kind: 'heading', level: 3, text: s.title },
          ...ticked(verdicts, unsettledOf(study) === null || s.own === true),
        ];
  });

/** The packet in every form that it takes. */
interface PacketSections {
  /** On the web page, and one picture a file: everything, in the order of the work. */
  readonly whole: readonly Section[];
  /** On paper: what the work needs, and behind the templates the rest where it is asked for. */
  readonly printed: readonly PrintSection[];
  /** The verdict and every room's own answer, for the terminal. */
  readonly verdicts: Report;
}

/** Everything a job has to say, in the order of the work; what the job does not have is left out. */
export const packetSections = (
  study: Study,
  table: MachinistTable,
  given: Speech,
  letters: Lettering,
  full: boolean,
): PacketSections => {
  const speech: Speech = { ...given, atBench: true };
  const { job } = study;
  const { plate, mated } = study.plate();
  const stack = study.stack();
  const faces: readonly Section[] = job.faces.map((face) => ({
    title: `Centres of ${face.name}`,
    own: true,
    report: locateReport(face, study.located(face), speech).slice(1),
    pictures: [{ name: `face-${face.name}`, drawing: facePicture(face, study.located(face), speech, letters) }],
  }));
  const layouts: readonly Section[] = job.faces.map((face) => ({
    title: `Layout of ${face.name}`,
    report: layoutReport(face, study.located(face), study.layout(face), speech).slice(1),
    pictures: [
      {
        name: `layout-${face.name}`,
        drawing: layoutPicture(face, study.located(face), study.layout(face), speech, letters),
      },
    ],
  }));
  const together = assemblySection(study, speech, assemblyPictures(study, speech, letters));
  const midway = study.midway();
  const proof: Section = {
    title: 'Proof',
    report: [
      ...assembledReport(assembledWith(job, plate, mated), plate, speech),
      ...proveReport(study.proof() ?? prove(job, plate, mated), speech),
      ...(midway === null ? [] : [...midwayReport(midway, speech), ...restReport(study, undefined, speech)]),
    ],
    pictures: [],
  };
  // What the work needs beside the machine sheets: on paper behind the templates, and in no appendix.
  const needed = job.drilled === null ? [together] : [proof, together];
  const sections: readonly Section[] = [
    ...faces,
    ...layouts,
    ...(stack === null || job.stack === null
      ? []
      : [
          {
            title: 'Stack',
            report: stackReport(stack, speech),
            pictures: [{ name: 'stack', drawing: chainPicture(job.stack, stack, speech, letters) }],
          },
        ]),
    ...(job.old === null || !oldDecides(job)
      ? []
      : [{ title: 'From the old plate', report: oldReport(job.old, speech).slice(1), pictures: [] }]),
    {
      title: 'Plate',
      saysWhole: true,
      report: plateReport(plate, speech, false, verdictBlocks(study.verdict(), unsettledOf(study), speech)),
      pictures: [
        { name: 'plate-side-b', drawing: platePicture(plate, mated, 'B', speech, letters) },
        { name: 'plate-side-a', drawing: platePicture(plate, mated, 'A', speech, letters) },
        { name: 'plate-section', drawing: sectionPicture(plate, speech, letters) },
        { name: 'plate-clocking', drawing: clockingPicture(plate, speech, letters) },
      ],
    },
    ...(study.moves() === null
      ? []
      : [{ title: 'What else moves', report: movesReport(study.moves(), speech).slice(1), pictures: [] }]),
    {
      title: 'Machinist’s table',
      report: tableReport(table, speech, { measuredElsewhere: true }),
      besideCuts: tableReport(table, speech, { measuredElsewhere: true, cutsElsewhere: true }),
      pictures: table.setups.map((setup) => {
        const { side } = setup;
        const here = inSetting(table, setup);
        return {
          name: `setting-${settingTag(setup)}`,
          drawing: settingPicture(plate, here, side, letters),
          whole: isFull(here, side),
          cuts: { side, first: firstCuts(here, side) },
        };
      }),
    },
    together,
    proof,
    ...(job.trial == null
      ? []
      : [{ title: 'Trial assembly', report: trialSheet(study, speech).slice(1), pictures: [] }]),
  ];
  const { above, below } = summarySheet(study, speech);
  const answers = roomVerdicts(study, sections);
  const whole = [
    {
      title: 'Summary',
      report: [...above, ...below, ...answers, origin(study)],
      pictures: [],
    },
    { title: 'Bring', report: bringReport(study, table, speech), pictures: [] },
    ...sections,
  ];
  const short = shortSections(
    study,
    table,
    speech,
    platePicture(plate, mated, 'B', speech, letters),
    letters,
    needed,
    full,
  );
  const appendix = [
    { title: 'Appendix', report: appendixSheet([...answers, origin(study)]), pictures: [] },
    ...sections
      .filter((s) => !needed.includes(s))
      .map((s) => (s.besideCuts === undefined ? s : { ...s, report: s.besideCuts, pictures: [] })),
  ].map((s): Section => ({ ...s, report: s.report.filter(unsaid(below)) }));
  return {
    whole,
    printed: [...short, ...(full ? appendix.map(printedSection) : [])],
    verdicts: [...verdictBlocks(study.verdict(), unsettledOf(study)), ...answers].filter((b) => b.kind !== 'paragraph'),
  };
};

/** A caution is said once on paper, and the first page says several in one frame. */
const unsaid =
  (first: Report) =>
  (b: Block): boolean =>
    b.kind !== 'caution' || !first.some((f) => f.kind === 'caution' && f.text.includes(b.text));

const origin = (study: Study): Block => ({
  kind: 'paragraph',
  text: `Worked out from the readings of ${sayAll(study.job.faces.map((f) => f.name))}; every ± holds 95 times in 100.`,
});
