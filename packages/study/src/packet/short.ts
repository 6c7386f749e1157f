import {
  type Block,
  type Report,
  type Requirement,
  type Speech,
  type TableBlock,
  cureFor,
  keepsFromYes,
} from '@fayplate/core';
import type { Lettering, Picture } from '@fayplate/drawing';
import {
  type MachinistTable,
  type Setup,
  inSetting,
  machineSheet,
  settingTitle,
  spindleCaution,
  tableTools,
} from '@fayplate/machining';
import { settingPicture } from '@fayplate/pictures';
import { bringHardware, gasketsOf, plateCautions, plateSizeWords, sayUnknown, workReport } from '@fayplate/plate';
import type { PrintSection } from '../printing.js';
import { type Section, EXPLODED } from './assembly.js';
import type { Study } from '../types.js';
import { unsettledOf } from '../verdict.js';
import { verdictBlocks } from '../verdict-words.js';

// The packet that the work needs: one page for the mill, one list for the counter, one sheet for each setting.

/** Capitals on a sheet that is read at arm's length, mm. */
const AT_THE_MACHINE = 2.5;

/** On the list for the counter, mm. */
const BRING = 2.3;

/** Of a page's height that the picture of the plate takes on the first page, and that of a setting above its cuts. */
const FIRST_PICTURE = 0.4;
const SETTING_PICTURE = 0.5;
const SHEET_PICTURE = 0.22;
const EXPLODED_PICTURE = 0.62;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const list = (title: string, items: readonly string[]): Report =>
  items.length === 0
    ? []
    : [
        { kind: 'heading', level: 3, text: title },
        { kind: 'list', items },
      ];

/**
 * What keeps the answer from Yes beside what the verdict already names, then what is not known and only worth saying.
 */
const openPoints = (study: Study, speech: Speech): Report => {
  const verdict = study.verdict();
  const sentence = (r: Requirement): string => {
    const cure = cureFor(r, speech);
    return `${capital(r.because)}${cure === null ? '' : `; ${cure}`}.`;
  };
  const others = verdict.requirements.filter((r) => keepsFromYes(r) && r !== verdict.first);
  const { plate } = study.plate();
  const said = others.map((r) => sentence(r));
  const notes = verdict.requirements.filter((r) => r.state === 'not known' && !keepsFromYes(r));
  const notChecked = [
    ...notes.map((r) => sayUnknown(r, speech)),
    ...(plate.alignment?.turns === true ? plate.alignment.unknowns : []),
  ];
  return [
    ...list('Also to be put right', said),
    ...list(
      'Not checked',
      [...new Set(notChecked)].filter((t) => !said.includes(t)),
    ),
  ];
};

/** In one frame: each sentence where the work gives reason for it. */
const cautions = (study: Study, speech: Speech): Report => [
  {
    kind: 'caution',
    text: [spindleCaution, ...plateCautions(study.plate().plate, speech)]
      .flatMap((b) => (b.kind === 'caution' ? [b.text] : []))
      .join(' '),
  },
];

/** Page 1: the verdict, what it is made of, the plate, what is open, and the cautions. */
export const summarySheet = (study: Study, speech: Speech): { readonly above: Report; readonly below: Report } => ({
  above: [
    ...verdictBlocks(study.verdict(), unsettledOf(study), speech),
    { kind: 'paragraph', text: capital(plateSizeWords(study.plate().plate, speech)) },
  ],
  below: [...openPoints(study, speech), ...cautions(study, speech)],
});

const toolTable = (study: Study, table: MachinistTable): TableBlock => ({
  kind: 'table',
  caption: 'Tools in order of use; ◆ marks what the usual sets lack',
  columns: [
    { title: 'Tool', align: 'left' },
    { title: 'To', align: 'left' },
    { title: 'At', align: 'left' },
    { title: '', align: 'left' },
  ],
  rows: tableTools(table, study.plate().plate, study.job.machine).map((t) => [
    t.tool,
    t.ops.join(', '),
    t.holes.length > 4 ? `${t.holes.length} places` : t.holes.join(' '),
    t.unusual === null ? '' : `◆ ${t.unusual}`,
  ]),
});

/** Page 2: what to have on the bench before the first cut. */
export const bringReport = (study: Study, table: MachinistTable, speech: Speech): Report => {
  const { plate, mated } = study.plate();
  const gaskets = gasketsOf({ job: study.job, plate, mated, benches: study.benches() });
  const hardware = bringHardware(plate, study.job, gaskets.ok ? gaskets.gaskets : [], study.stack(), speech);
  const metal = plate.material === null ? '' : ` (${plate.material.name})`;
  const [stock = '', ...others] = table.notesFor.stock;
  return [
    { kind: 'heading', level: 2, text: 'Stock' },
    { kind: 'list', items: [stock.replace('Blank:', `Blank${metal}:`), ...others] },
    ...(plate.joint?.takes === true
      ? [
          {
            kind: 'paragraph' as const,
            text: `The screws and dowels of the joint are on the list of ${plate.joint.face}.`,
          },
        ]
      : []),
    ...(hardware.rows.length === 0 ? [] : [hardware]),
    toolTable(study, table),
    ...list('About the tools', table.notesFor.tools),
  ];
};

const settingSection = (study: Study, table: MachinistTable, setup: Setup, letters: Lettering): PrintSection => {
  const { above, below } = machineSheet(table, setup);
  const picture: Picture = settingPicture(study.plate().plate, inSetting(table, setup), setup.side, letters);
  return {
    title: `On the machine, ${settingTitle(setup)}`,
    least: 0.7,
    items: [
      { kind: 'report', report: above, capital: AT_THE_MACHINE },
      // What its notes say stands in the words and the cuts of the sheet.
      { kind: 'picture', picture: { ...picture, title: '', notes: [] }, share: SETTING_PICTURE },
      { kind: 'report', report: below, capital: AT_THE_MACHINE },
    ],
  };
};

/** The work on the parts, a sheet for the machine of its own; none where there is none. */
const workSection = (table: MachinistTable, speech: Speech): readonly PrintSection[] => {
  const [, ...report] = workReport(table.work ?? [], speech);
  return report.length === 0
    ? []
    : [{ title: 'Work on the parts', items: [{ kind: 'report', report, capital: AT_THE_MACHINE }] }];
};

/** A sheet of words with its picture under them, for when plate and gaskets are made. */
const printedSheet = (s: Section): PrintSection => ({
  title: s.title,
  behind: true,
  items: [
    { kind: 'report', report: s.report },
    ...s.pictures.map(({ name, drawing }) => ({
      kind: 'picture' as const,
      picture: drawing,
      share: name === EXPLODED ? EXPLODED_PICTURE : SHEET_PICTURE,
    })),
  ],
});

/**
 * The short packet on paper: what is wanted up to the last cut, and behind the templates what is `needed` then, such as
 * how it goes together.
 */
export const shortSections = (
  study: Study,
  table: MachinistTable,
  speech: Speech,
  plateDrawing: Picture,
  letters: Lettering,
  needed: readonly Section[],
  full: boolean,
): readonly PrintSection[] => {
  const { above, below } = summarySheet(study, speech);
  return [
    {
      title: 'Summary',
      // With all the contents above it, it would shrink beyond reading.
      least: full ? 0.8 : 0.5,
      items: [
        { kind: 'report', report: above },
        // Its first note says the thickness and the centres again.
        { kind: 'picture', picture: { ...plateDrawing, notes: plateDrawing.notes.slice(1) }, share: FIRST_PICTURE },
        { kind: 'report', report: below },
      ],
    },
    { title: 'Bring', items: [{ kind: 'report', report: bringReport(study, table, speech), capital: BRING }] },
    ...table.setups.map((setup) => settingSection(study, table, setup, letters)),
    ...workSection(table, speech),
    ...needed.map(printedSheet),
  ];
};

/** The first sheet of what stands behind the templates. */
export const appendixSheet = (verdicts: Report): Report => {
  const note: Block = {
    kind: 'paragraph',
    text:
      'What the answer rests on: the centres, the layouts with their odds, the stack, every check with its source, ' +
      'and the readings that prove the plate. The work itself does not need it.',
  };
  return [note, ...verdicts];
};
