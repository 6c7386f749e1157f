import type { Block, Report, Speech } from '@fayplate/core';
import { minusSign, sayNumber } from '@fayplate/core';
import type { Side } from '@fayplate/plate';
import type { MachinistTable, Setup, TableRow } from '../types.js';
import { inSetting } from './settings.js';
import { limitWords, rowsOf } from './report.js';

/** One tool at one speed: `drill 8.5 mm: 2282 rev/min, 12.6 in/min`. */
const toolLine = (r: TableRow, own: Speech): string => {
  const speed = r.speed === null || r.op === 'tap' ? [] : [`${r.speed} rev/min`];
  const feed =
    r.feed === null || r.op === 'tap' ? [] : [`${sayNumber(r.feed, own, own.unit === 'in' ? 1 : 0)} ${own.unit}/min`];
  const passes = r.passes === null ? [] : [r.passes === 1 ? 'one light cut' : `${r.passes} cuts, the last one light`];
  const words = [...speed, ...feed, ...passes].join(', ');
  return words === '' ? r.tool : `${r.tool}: ${words}`;
};

/** The cuts of a setting, each tool and its speed once above its own, each cut with a box to tick. */
const cuts = (t: MachinistTable, side: Side, own: Speech): Block => {
  const rows = rowsOf(t, side);
  const said = rows.map((r) => toolLine(r, own));
  const besides = rows.map((r) => [limitWords(r, own), r.note ?? ''].filter((w) => w !== '').join('; '));
  const past = t.approach !== null;
  return {
    kind: 'table',
    cutsOf: side,
    caption: `Cuts in order, ${t.unit}; depth below the face of side ${side}, to the point of a drill`,
    columns: [
      { title: 'No.', align: 'right' },
      { title: 'Cut', align: 'left' },
      { title: 'Hole', align: 'left' },
      { title: `X, ${t.unit}`, align: 'point' },
      { title: `Y, ${t.unit}`, align: 'point' },
      ...(past ? [{ title: 'Past', align: 'left' as const }] : []),
      { title: 'Depth', align: 'point' },
      { title: 'Limits', align: 'left' },
    ],
    groups: said.flatMap((title, i) => (i > 0 && said[i - 1] === title ? [] : [{ from: i, title }])),
    rows: rows.map((r, i) => [
      String(r.n),
      r.op,
      r.hole,
      ...(r.op === 'face' ? ['', ''] : [sayNumber(r.set.x, own), sayNumber(r.set.y, own)]),
      ...(past ? [r.via === null ? '' : [r.via.x, r.via.y].map((v) => minusSign(sayNumber(v, own))).join(', ')] : []),
      sayNumber(r.depth, own, t.unit === 'in' ? 3 : 1),
      // What holds for the cut above with the same tool is not said again.
      i > 0 && said[i - 1] === said[i] && besides[i - 1] === besides[i] ? '' : (besides[i] ?? ''),
    ]),
  };
};

/**
 * What stands on the sheet of one setting, above its picture and below it: how the plate lies and where zero is; marks,
 * packing and clamps for the first setting, the edges and the saw for the last; and the cuts.
 */
export const machineSheet = (t: MachinistTable, s: Setup): { readonly above: Report; readonly below: Report } => {
  const own: Speech = { unit: t.unit, fraction: null };
  const list = (items: readonly string[]): Report => (items.length === 0 ? [] : [{ kind: 'list', items }]);
  return {
    above: [{ kind: 'paragraph', text: s.says }],
    below: [
      ...list([...(t.setups[0] === s ? t.notesFor.setting : []), ...(t.setups.at(-1) === s ? t.notesFor.last : [])]),
      cuts(inSetting(t, s), s.side, own),
    ],
  };
};
