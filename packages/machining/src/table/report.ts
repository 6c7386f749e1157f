import { type Block, type Report, type Speech, exactFraction, norm, say, sayNumber } from '@fayplate/core';
import { type PlaceColumns, placeColumns } from './csv.js';
import { placesIn } from '../frame/places.js';
import { eachPlaceOnce } from '../byhand/handwheel.js';
import { centreWords, workReport } from '@fayplate/plate';
import { CORNER, SIDES, SLOT_END, SLOT_SIZE } from '../operations/hole.js';
import type { MachinistTable, TableRow } from '../types.js';
import { planBlocks } from '../prove/plan-report.js';
import { byHandBlocks } from './byhand-report.js';
import { inSetting, settingTitle } from './settings.js';

/** What the words of a table may leave out. */
export interface TableReportOptions {
  /** What to measure stands elsewhere, with the proof. */
  readonly measuredElsewhere?: boolean;
  /** The cuts and all that is said of the metal, the settings and the tools stand on sheets of their own. */
  readonly cutsElsewhere?: boolean;
}

/** The table in words: where it is measured from, the rows of each side, what to measure afterwards, cautions once. */
export const tableReport = (
  t: MachinistTable,
  speech: Speech = { unit: t.unit, fraction: null },
  more: TableReportOptions = {},
): Report => {
  const own: Speech = { unit: t.unit, fraction: null };
  return [
    ...standing(t),
    { kind: 'paragraph', text: whereFrom(t, own) },
    // In the order of the work: metal, marks, packing and clamps are there before the first cut.
    ...(t.notes.length === 0 || more.cutsElsewhere === true ? [] : [{ kind: 'list' as const, items: t.notes }]),
    ...t.setups.flatMap((s) => {
      const here = inSetting(t, s);
      const title = settingTitle(s);
      return more.cutsElsewhere === true
        ? [placesTable(here, s.side, own)]
        : [
            { kind: 'heading' as const, level: 2 as const, text: `${title.charAt(0).toUpperCase()}${title.slice(1)}` },
            { kind: 'paragraph' as const, text: s.says },
            cutsTable(here, s.side, own),
            placesTable(here, s.side, own),
          ];
    }),
    {
      kind: 'paragraph',
      text:
        `Travel of the table in this order: ${say(t.travel.tableOrder, own, 0)}; in the order of the drawing it ` +
        `would be ${say(t.travel.asListed, own, 0)}.`,
    },
    ...(more.measuredElsewhere === true ? [] : planBlocks(t.plan, 'Measure when it is drilled', speech)),
    ...byHandBlocks(t, own),
    ...(more.cutsElsewhere === true ? [] : workReport(t.work ?? [], own)),
    spindleCaution,
  ];
};

/** Said once wherever cuts are listed. */
export const spindleCaution: Block = {
  kind: 'caution',
  text:
    'Clamp the plate so that no drill can spin it; no gloves, loose sleeves or long hair near a turning spindle; eye ' +
    'protection on; stop the spindle before you reach in to clear swarf or measure. Start below the speeds here if ' +
    'the work or the machine is not stiff.',
};

/** What must be put right before anything is cut; else what this is. */
const standing = (t: MachinistTable): Report => {
  const blocked = t.clear.filter((c) => !c.ok).length;
  const faults = [
    ...(t.plateOk ? [] : ['a check of the plate fails: read its checks before you cut']),
    ...(blocked === 0 ? [] : [blocked === 1 ? 'a clamp stands in the way' : `${blocked} clamps stand in the way`]),
  ];
  if (faults.length > 0) return [{ kind: 'verdict', ok: false, text: `Do not cut yet: ${faults.join('; ')}.` }];
  return [
    {
      kind: 'paragraph',
      text: (
        `${t.rows.length} cuts, measured from ${t.origin}, ${t.axes}. ` +
        centreWords(t, { unit: t.unit, fraction: null })
      ).trim(),
    },
  ];
};

/** Axes, zero, rounding and the ± of drilling in a few sentences. */
const whereFrom = (t: MachinistTable, own: Speech): string => {
  const level = t.horizontal === null ? '' : ` X runs along the line from ${t.horizontal}.`;
  const step =
    `Places are rounded to ${say(t.step, own)}, which moves a hole by at most ` +
    `${say(t.rounding, own, placesIn(t.unit) + 1)}.`;
  const sides =
    t.approach === null ? '' : ` Approach every hole from ${sideWords(t)}: rows marked “past” say where to turn.`;
  const off = say(t.drilling.plusMinus, own, t.unit === 'in' ? 4 : 2);
  const drilling = t.drilling.stated
    ? ` Every check assumes holes within ± ${off} of their places.`
    : ` The job does not say how closely holes are placed, so every check assumes ± ${off}, paper and punch; a ` +
      'read-out does better.';
  return `X is to the right and Y up, ${t.axes}; zero is ${t.origin}.${level} ${step}${drilling}${sides}`;
};

const sideWords = (t: MachinistTable): string => {
  const sign = (v: number, axis: string): readonly string[] => (v === 0 ? [] : [`${v < 0 ? '−' : '+'}${axis}`]);
  return [...sign(t.approach?.x ?? 0, 'X'), ...sign(t.approach?.y ?? 0, 'Y')].join(' and ');
};

export const rowsOf = (t: MachinistTable, side: 'A' | 'B'): readonly TableRow[] =>
  t.rows.filter((r) => r.side === side);

/** Sizes and depths that a cut must leave: `5.5020 to 5.5036, 0.125 to 0.133 deep`. */
export const limitWords = (r: TableRow, own: Speech): string => {
  const depths = own.unit === 'in' ? 3 : 2;
  const size =
    r.limits === null
      ? []
      : [
          (r.op === 'face' ? 'thick ' : r.note === SLOT_SIZE || r.note === SIDES ? 'wide ' : '⌀ ') +
            `${sayNumber(r.limits[0], own, r.op === 'face' ? depths : undefined)} ` +
            `to ${sayNumber(r.limits[1], own, r.op === 'face' ? depths : undefined)}`,
        ];
  const deep =
    r.depthLimits === null
      ? []
      : [
          `${sayNumber(r.depthLimits[0], own, depths)} to ${sayNumber(r.depthLimits[1], own, depths)} ` +
            (r.op === 'turn' ? 'high' : 'deep'),
        ];
  return [...size, ...deep].join(', ');
};

const noteWords = (r: TableRow): string =>
  [
    ...(r.passes === null ? [] : [r.passes === 1 ? 'one light cut' : `${r.passes} cuts, the last one light`]),
    r.note ?? '',
  ]
    .filter((w) => w !== '')
    .join('; ');

const cutsTable = (t: MachinistTable, side: 'A' | 'B', own: Speech): Block => {
  const past = t.approach !== null;
  return {
    kind: 'table',
    cutsOf: side,
    caption: `Cuts in order, ${t.unit}; depth below the face of side ${side}, to the point of a drill`,
    columns: [
      { title: 'No.', align: 'right' },
      { title: 'Tool', align: 'left', runsOn: true },
      { title: 'Cut', align: 'left' },
      { title: 'Hole', align: 'left' },
      { title: `X, ${t.unit}`, align: 'point' },
      { title: `Y, ${t.unit}`, align: 'point' },
      ...(past ? [{ title: 'Past', align: 'left' as const }] : []),
      { title: 'Depth', align: 'point' },
      { title: 'Rev/min', align: 'right' },
      { title: `Feed, ${t.unit}/min`, align: 'right' },
      { title: 'Limits', align: 'left' },
      { title: 'Note', align: 'left' },
    ],
    rows: rowsOf(t, side).map((r, i, all) => [
      String(r.n),
      r.tool === all[i - 1]?.tool ? '' : r.tool,
      r.op,
      r.hole,
      ...(r.op === 'face' ? ['', ''] : [sayNumber(r.set.x, own), sayNumber(r.set.y, own)]),
      ...(past ? [r.via === null ? '' : `${sayNumber(r.via.x, own)}, ${sayNumber(r.via.y, own)}`] : []),
      sayNumber(r.depth, own, t.unit === 'in' ? 3 : 1),
      // A tap goes by hand; its speed is for the program alone.
      r.speed === null || r.op === 'tap' ? '' : String(r.speed),
      r.feed === null || r.op === 'tap' ? '' : sayNumber(r.feed, own, t.unit === 'in' ? 1 : 0),
      // Said once for a tool, as its name is.
      all[i - 1]?.tool === r.tool && limitWords(all[i - 1] ?? r, own) === limitWords(r, own) ? '' : limitWords(r, own),
      noteWords(r),
    ]),
  };
};

/**
 * Each hole once, absolute and polar, with steps from the hole before it in the table's first round; fractions where
 * both are exact sixty-fourths.
 */
const placesTable = (t: MachinistTable, side: 'A' | 'B', own: Speech): Block => {
  const once = eachPlaceOnce(rowsOf(t, side).filter((r) => r.op !== 'face'));
  const columns = placeColumns(once);
  const fraction = (mm: number): string => exactFraction(mm) ?? '';
  const both = (c: PlaceColumns): string =>
    norm(c.absolute) > 0 && fraction(c.absolute.x) !== '' && fraction(c.absolute.y) !== ''
      ? `${fraction(c.absolute.x)}, ${fraction(c.absolute.y)}`
      : '';
  const fractions = t.unit === 'in' && columns.some((c) => both(c) !== '');
  return {
    kind: 'table',
    caption:
      `Places of side ${side} from ${t.origin}: absolute, step from the hole before, and polar (degrees ` +
      'anticlockwise from +X)',
    columns: [
      { title: 'Hole', align: 'left' },
      { title: `X, ${t.unit}`, align: 'point' },
      { title: `Y, ${t.unit}`, align: 'point' },
      ...(fractions ? [{ title: 'As 64ths', align: 'left' as const }] : []),
      { title: 'Step X', align: 'point' },
      { title: 'Step Y', align: 'point' },
      { title: 'Radius', align: 'point' },
      { title: 'Angle, °', align: 'point' },
    ],
    rows: columns.map((c, i) => [
      once[i]?.note === SLOT_END || once[i]?.note === CORNER
        ? `${c.hole} ${once[i].note === CORNER ? 'corner' : 'end'}`
        : c.hole,
      sayNumber(c.absolute.x, own),
      sayNumber(c.absolute.y, own),
      ...(fractions ? [both(c)] : []),
      sayNumber(c.incremental.x, own),
      sayNumber(c.incremental.y, own),
      sayNumber(c.polar.radius, own),
      c.polar.angle.toFixed(3),
    ]),
  };
};
