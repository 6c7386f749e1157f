import { type LengthUnit, MM_PER_INCH, type Speech, say } from '@fayplate/core';
import type { Plate, Side } from '@fayplate/plate';
import { AT_ASSEMBLY, SLOT_END, SLOT_SIZE } from '../operations/hole.js';
import { PACKING } from '../table/notes.js';
import type { MachinistTable, TableRow } from '../types.js';
import { slotMoves } from './slot.js';
import { type Tape, comment, cycleWords, dimension, feedWord, tape } from './words.js';

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

/** One program: the drilling of a side, or one bore or slot of it, for which the machine is set by hand. */
export interface Program {
  readonly side: Side;
  /** `side-b`, `side-b-bore-c1`: what its file is called. */
  readonly name: string;
  /** What it is, for a list of files. */
  readonly says: string;
  readonly text: string;
}

/** Every program of a table, or what stands in their way, in words. */
export type ProgramMade =
  | { readonly ok: true; readonly programs: readonly Program[] }
  | { readonly ok: false; readonly faults: readonly string[] };

/** Feed starts this far above the highest metal of the side, mm. */
export const FEED_FROM = 2;

/** Cuts that have a program of their own, since a control does not let a tool be set, or a cutter be taken across, within a stop. */
const isAlone = (r: TableRow): boolean =>
  r.op === 'bore' || (r.op === 'mill' && (r.note === SLOT_END || r.note === SLOT_SIZE));

/** Cuts that a person makes by the handwheels: facing, raised spigots, pockets that only clear. */
const isByHand = (r: TableRow): boolean => cycleWords(r, 'mm', false) === null && !isAlone(r);

/**
 * Programs of a table: absolute, with plane, unit, feed, offset and compensation said at the start, Z zero on the flat of the side that is uppermost,
 * no move before a zero and the tool's length are set, rapid moves on the safe plane alone, a stop at every tool. Refused where the plate's material,
 * and with it every speed, is not known, or where a tool is longer than the room that the job states.
 */
export const iso6983 = (plate: Plate, table: MachinistTable, options: ProgramOptions = {}): ProgramMade => {
  const faults = faultsIn(plate, table);
  if (faults.length > 0) return { ok: false, faults };
  return {
    ok: true,
    programs: table.setups.flatMap(({ side }): readonly Program[] => {
      const own = table.rows.filter((r) => r.side === side && r.note !== AT_ASSEMBLY);
      const drilled = own.filter((r) => !isAlone(r) && !isByHand(r));
      const low = side.toLowerCase();
      const base = { plate, table, side, options };
      const alone = [...new Set(own.filter(isAlone).map((r) => r.hole))];
      return [
        ...(drilled.length === 0
          ? []
          : [
              {
                side,
                name: `side-${low}`,
                says: `program for the drilling of side ${side}`,
                text: written({ ...base, rows: drilled, title: null }),
              },
            ]),
        ...alone.map((hole): Program => {
          const rows = own.filter((r) => r.hole === hole && isAlone(r));
          const what = rows[0]?.op === 'bore' ? 'bore' : 'slot';
          return {
            side,
            name: `side-${low}-${what}-${hole.toLowerCase()}`,
            says: `program for ${what} ${hole} on side ${side}${what === 'bore' ? ', run once for each cut of the boring head' : ''}`,
            text: written({ ...base, rows, title: what }),
          };
        }),
      ];
    }),
  };
};

const faultsIn = (plate: Plate, table: MachinistTable): readonly string[] => {
  const cut = table.rows.filter((r) => !isByHand(r));
  if (cut.some((r) => r.speed === null || r.feed === null))
    return [
      'speeds are not known: name the plate’s material (plate: material: aluminium, for example) so that the program can state them',
    ];
  const room = table.room === null ? Infinity : table.room - plate.outline.blank.thickness - PACKING;
  const long = [...new Map(cut.filter((r) => r.toolLength > room).map((r) => [r.tool, r])).values()];
  const own = { unit: table.unit, fraction: null };
  return long.map(
    (r) =>
      `${r.tool} is about ${say(r.toolLength, own, 1)} long and the machine has ${say(room, own, 1)} over the plate: list a shorter drill, or state more room`,
  );
};

interface Writing {
  readonly plate: Plate;
  readonly table: MachinistTable;
  readonly side: Side;
  readonly options: ProgramOptions;
  readonly rows: readonly TableRow[];
  /** What the program is for alone; null for the drilling of a side. */
  readonly title: 'bore' | 'slot' | null;
}

const written = (w: Writing): string => {
  const { plate, table, side, options, rows } = w;
  const proud = Math.max(
    0,
    ...plate.bores.filter((b) => b.kind === 'spigot' && b.side === side).map((b) => b.depth ?? 0),
  );
  const dry = options.dryRun === true;
  const lift = dry ? dryLift(rows) : 0;
  const levels = { safe: proud + table.safePlane + lift, feed: proud + FEED_FROM + lift, lift };
  const out = tape();
  writeHead(out, w, levels);
  const groups = byTool(rows);
  for (const [k, group] of groups.entries())
    writeTool(out, group, { number: k + 1, unit: table.unit, levels, dry, dialect: options.dialect ?? 'usual' });
  out.block('M30');
  return out.text();
};

/** 2 in, or as many whole inches as keep the deepest cut off the work. */
const dryLift = (rows: readonly TableRow[]): number =>
  Math.max(2, Math.ceil((Math.max(0, ...rows.map((r) => r.depth)) + 5) / MM_PER_INCH)) * MM_PER_INCH;

const unitWords = {
  usual: { in: 'G20', mm: 'G21' },
  standard: { in: 'G70', mm: 'G71' },
} as const;

const writeHead = (out: Tape, w: Writing, levels: Levels): void => {
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
  out.say(comment('UNIT', `${unit === 'in' ? 'INCH' : 'MILLIMETRE'} - ABSOLUTE - SAFE PLANE ${say(levels.safe, own)}`));
  out.say(comment('NOTE', 'SAFE PLANE MUST CLEAR EVERY CLAMP AND STUD'));
  out.say(comment('NOTE', 'KEEP ALL CLEAR BELOW THE HOLES'));
  out.say(comment('NOTE', 'START WITH THE SPINDLE UP AND G54 SET'));
  out.say(comment('NOTE', 'AT EACH STOP FIT THE TOOL - ITS LENGTH UNDER ITS H NUMBER'));
  for (const text of aside(w)) out.say(comment('NOTE', text));
  if (title === 'bore') for (const r of rows) for (const text of boreWords(r, unit)) out.say(comment('BORE', text));
  if (title === 'slot') for (const text of slotWords(rows, unit)) out.say(comment('SLOT', text));
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
        `${size.hole} WIDTH ${say(size.limits[0], own)} TO ${say(size.limits[1], own)} - MEASURE AND RUN AGAIN IF SMALL`,
      ];
};

/** Runs of rows that one tool cuts without a change. */
const byTool = (rows: readonly TableRow[]): readonly (readonly TableRow[])[] => {
  const groups: TableRow[][] = [];
  for (const row of rows) {
    const last = groups.at(-1);
    if (last?.[0]?.tool === row.tool) last.push(row);
    else groups.push([row]);
  }
  return groups;
};

/** Heights above the flat, mm: of rapid moves, of where the feed starts, and by how much all is raised. */
interface Levels {
  readonly safe: number;
  readonly feed: number;
  readonly lift: number;
}

interface Hold {
  readonly number: number;
  readonly unit: LengthUnit;
  readonly levels: Levels;
  readonly dry: boolean;
  readonly dialect: Dialect;
}

/** One tool: fitted with the spindle up and stopped, its length taken up with the first move, and sent up again for the next. */
const writeTool = (out: Tape, rows: readonly TableRow[], hold: Hold): void => {
  const [first] = rows;
  if (first === undefined) return;
  const { number, unit, levels, dry } = hold;
  const turns = (speed: number | null): void => {
    if (!dry) out.block(`S${speed ?? 0}`, 'M03');
  };
  const alone = isAlone(first);
  // A note on some of its cuts stands at those.
  const note = alone || rows.some((r) => r.note !== first.note) ? null : first.note;
  out.say(comment('TOOL', `${number} ${first.tool}${note === null ? '' : ` - ${note}`}`));
  if (first.op === 'tap') out.say(comment('NOTE', 'NEEDS A FLOATING TAP HOLDER - ELSE SKIP THIS TOOL AND TAP BY HAND'));
  if (first.op === 'countersink' || first.op === 'chamfer')
    out.say(comment('NOTE', 'DEPTH IS TO THE SHARP POINT OF ITS CONE'));
  out.block(`T${number}`, 'M06');
  out.block('M00');
  turns(first.speed);
  out.block('G00', 'G43', dimension('Z', levels.safe, unit), `H${number}`);
  const running = first.op === 'mill' ? slotMoves(out, rows, { ...hold, turns }) : holes(out, rows, hold, turns);
  if (running) out.block('G80');
  out.block('G00', dimension('Z', levels.safe, unit));
  out.block('M05');
  goHome(out, hold);
};

/** Up for the next tool: to the top of travel, or where the standard has no word for it to a stop at which the spindle is raised. */
const goHome = (out: Tape, { dialect }: Hold): void => {
  if (dialect === 'usual') {
    out.block('G91', 'G28', 'Z0');
    out.block('G90', 'G49');
  } else {
    out.say(comment('NOTE', 'RAISE THE SPINDLE BY HAND'));
    out.block('M00');
    out.block('G49');
  }
};

/** Canned cycles at every place of one tool; whether one still runs at the end. */
const holes = (
  out: Tape,
  rows: readonly TableRow[],
  { unit, levels, dry }: Hold,
  turns: (speed: number | null) => void,
): boolean => {
  const apart = rows.some((r) => r.note !== rows[0]?.note);
  let running: string | null = null;
  let speed = rows[0]?.speed ?? null;
  for (const row of rows) {
    if (row.speed !== speed) {
      speed = row.speed;
      turns(speed);
    }
    const cycle = cycleWords(row, unit, dry) ?? [];
    if (running !== null && row.via !== null) {
      out.block('G80');
      running = null;
    }
    if (row.via !== null) out.block('G00', dimension('X', row.via.x, unit), dimension('Y', row.via.y, unit));
    const place = [dimension('X', row.set.x, unit), dimension('Y', row.set.y, unit)];
    const full = [
      ...cycle,
      dimension('Z', levels.lift - row.depth, unit),
      dimension('R', levels.feed, unit),
      feedWord(row.feed ?? 0, unit, row.op === 'tap'),
    ];
    const key = full.join(' ');
    out.say(comment('HOLE', apart && row.note !== null ? `${row.hole} - ${row.note}` : row.hole));
    if (key === running) out.block(...place);
    else out.block('G98', full[0] ?? '', ...place, ...full.slice(1));
    running = key;
  }
  return running !== null;
};

/** Which centres the plate has, where that is known. */
const centresOf = (plate: Plate, own: Speech): readonly { readonly face: string; readonly words: string }[] =>
  plate.centres.map((c) => ({
    face: c.face,
    words: `${c.from === 'measured' ? 'AS MEASURED' : 'AS LAID OUT'}${c.differs === null ? '' : ` - ${c.from === 'measured' ? 'LAYOUT' : 'MEASURED'} UP TO ${say(c.differs, own)} OFF`}`,
  }));
