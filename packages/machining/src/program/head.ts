import { type LengthUnit, type Speech, say } from '@fayplate/core';
import type { Plate, Side } from '@fayplate/plate';
import { finest } from '../frame/places.js';
import { AT_ASSEMBLY, CORNER, SIDES, SLOT_END, SLOT_SIZE } from '../operations/hole.js';
import type { Contour, MachinistTable, Setup, TableRow } from '../types.js';
import { contourWords } from './contour.js';
import { boxRow, pocketWords } from './pocket.js';
import { type Tape, comment, cycleWords } from './words.js';

/** `usual`: the words that most milling controls take; `standard`: those of ISO 6983-1 where the two differ. */
export type Dialect = 'usual' | 'standard';

/** What a program is to be like. */
export interface ProgramOptions {
  /** Job or plate name for the first comment. */
  readonly name?: string;
  /** Every cut 2 in above where it belongs, spindle stopped. */
  readonly dryRun?: boolean;
  /** G20 or G21 for inch or millimetre and G28 for the top of travel, or the standard's G70 or G71. */
  readonly dialect?: Dialect;
  /** What it says of the job at its head; `across`: readings are not settled, and it begins with a stop. */
  readonly notice?: { readonly line: string; readonly across: string | null };
}

/**
 * Cuts that have a program of their own, since a control does not let a tool be set, or a cutter be taken across,
 * within a stop.
 */
export const isAlone = (r: TableRow): boolean =>
  r.op === 'bore' ||
  (r.op === 'mill' && (r.note === SLOT_END || r.note === SLOT_SIZE || r.note === CORNER || r.note === SIDES));

/** Cuts that a person makes by the handwheels: facing, raised spigots, pockets that only clear. */
export const isByHand = (r: TableRow): boolean => cycleWords(r, 'mm', false) === null && !isAlone(r);

/** What one program is written from. */
export interface Writing {
  readonly plate: Plate;
  readonly table: MachinistTable;
  readonly side: Side;
  readonly options: ProgramOptions;
  readonly rows: readonly TableRow[];
  /** What the program is for alone; null for the drilling of a side. */
  readonly title: 'bore' | 'slot' | 'pocket' | 'notch' | 'outline' | null;
  /** How the plate lies; left out for the outline. */
  readonly setup?: Setup;
  /** Of the outline. */
  readonly contour?: Contour;
}

/** Heights above the flat, mm: of rapid moves, of where the feed starts, and by how much all is raised. */
export interface Levels {
  readonly safe: number;
  readonly feed: number;
  readonly lift: number;
}

const unitWords = {
  usual: { in: 'G20', mm: 'G21' },
  standard: { in: 'G70', mm: 'G71' },
} as const;

/** The comments at the head of a program, and the words that begin it. */
export const writeHead = (out: Tape, w: Writing, levels: Levels): void => {
  const { table, side, options, rows, title } = w;
  const { unit, blank, origin } = table;
  const own = { unit, fraction: null };
  const edge = side === 'B' ? -blank.left : blank.left + blank.width;
  out.say(comment('FAYPLATE JOB', options.name ?? 'ADAPTER PLATE'));
  const { notice } = options;
  if (notice !== undefined) out.say(comment('VERDICT', notice.line));
  if (notice?.across != null) out.say(comment('', notice.across));
  out.say(comment('SIDE', `${side} UPPERMOST - X RIGHT Y UP - Z ZERO ON ITS FLAT`));
  out.say(comment('ZERO', origin));
  out.say(comment('ZERO', `${say(edge, own)} FROM LEFT EDGE - ${say(-blank.bottom, own)} FROM LOWER EDGE OF BLANK`));
  for (const { face, words } of centresOf(w.plate, own)) out.say(comment('CENTRES', `OF ${face} ${words}`));
  if (side === 'A') out.say(comment('NOTE', 'PLATE TURNED OVER ABOUT ITS Y AXIS - X SIGNS ARE CHANGED'));
  if (w.setup?.setting !== undefined) {
    out.say(comment('SETTING', `${w.setup.setting} OF 2 - THE TABLE DOES NOT REACH ALL IN ONE`));
    if (w.setup.setting === 2) for (const text of w.setup.says.split(/[.;:] /)) out.say(comment('NOTE', text));
  }
  out.say(comment('UNIT', `${unit === 'in' ? 'INCH' : 'MILLIMETRE'} - ABSOLUTE - SAFE PLANE ${say(levels.safe, own)}`));
  out.say(comment('NOTE', 'SAFE PLANE MUST CLEAR EVERY CLAMP AND STUD'));
  out.say(comment('NOTE', `KEEP ALL CLEAR BELOW THE ${title === 'outline' ? 'OUTLINE' : 'HOLES'}`));
  out.say(comment('NOTE', 'START WITH THE SPINDLE UP AND G54 SET'));
  out.say(comment('NOTE', 'AT EACH STOP FIT THE TOOL - ITS LENGTH UNDER ITS H NUMBER'));
  for (const text of aside(w)) out.say(comment('NOTE', text));
  if (title === 'bore') for (const r of rows) for (const text of boreWords(r, unit)) out.say(comment('BORE', text));
  if (w.contour !== undefined) for (const text of contourWords(w.contour, unit)) out.say(comment('OUTLINE', text));
  if (title === 'slot') for (const text of slotWords(rows, unit)) out.say(comment('SLOT', text));
  if (title === 'pocket' || title === 'notch')
    for (const text of pocketWords(boxRow(w), unit)) out.say(comment(title.toUpperCase(), text));
  if (levels.lift > 0) out.say(comment('DRY RUN', `ALL Z RAISED BY ${say(levels.lift, own)} - SPINDLE STOPPED`));
  // Nothing moves before whoever runs it has said so.
  if (notice?.across != null) out.block('M00');
  out.block('G17', unitWords[options.dialect ?? 'usual'][unit], 'G40', 'G49', 'G80', 'G90', 'G94');
  out.block('G54');
};

/** What of this side is not in this program. */
const aside = ({ table, side, title }: Writing): readonly string[] => {
  if (title !== null) return [];
  const own = table.rows.filter((r) => r.side === side);
  const names = (rows: readonly TableRow[]): string => [...new Set(rows.map((r) => r.hole))].join(' ');
  const later = own.filter((r) => r.note === AT_ASSEMBLY);
  const hand = own.filter((r) => isByHand(r) && r.op !== 'face');
  const others = own.filter((r) => r.note !== AT_ASSEMBLY && isAlone(r));
  return [
    ...(own.some((r) => r.op === 'face') ? ['FACE THE BLANK TO THICKNESS FIRST - BY HAND'] : []),
    ...(hand.length === 0 ? [] : [`${names(hand)} BY HAND - NOT HERE`]),
    ...(table.contour?.ok === true && table.contour.contour.side === side ? ['OUTLINE LAST - PROGRAM OF ITS OWN'] : []),
    ...(others.length === 0 ? [] : [`${names(others)} - PROGRAM OF ITS OWN`]),
    ...(later.length === 0 ? [] : [`${names(later)} - REAM AT ASSEMBLY - NOT HERE`]),
  ];
};

const boreWords = (r: TableRow, unit: LengthUnit): readonly string[] => {
  const own = { unit, fraction: null };
  const to = r.limits === null ? say(r.toolDiameter, own) : `${say(r.limits[0], own)} TO ${say(r.limits[1], own)}`;
  return [
    `${r.hole} DIA ${to}`,
    ...(r.passes === null ? [] : [`RUN ONCE FOR EACH CUT - ${r.passes} CUTS - SET THE HEAD OUT BETWEEN RUNS`]),
    'LAST CUT LIGHT - MEASURE BEFORE IT',
  ];
};

const slotWords = (rows: readonly TableRow[], unit: LengthUnit): readonly string[] => {
  const size = rows.find((r) => r.note === SLOT_SIZE);
  const own = { unit, fraction: null };
  return size?.limits == null
    ? []
    : [
        `${size.hole} WIDTH ${say(size.limits[0], own)} TO ` +
          `${say(size.limits[1], own)} - MEASURE AND RUN AGAIN IF SMALL`,
      ];
};

/** Which centres the plate has, where that is known. */
const centresOf = (plate: Plate, own: Speech): readonly { readonly face: string; readonly words: string }[] =>
  plate.centres.map((c) => ({
    face: c.face,
    words:
      'AS ' +
      c.from.toUpperCase() +
      (c.differs === null || c.differs < finest(own.unit) / 2
        ? ''
        : ' - ' + (c.from === 'measured' ? 'LAYOUT' : 'MEASURED') + ` UP TO ${say(c.differs, own)} OFF`),
  }));
