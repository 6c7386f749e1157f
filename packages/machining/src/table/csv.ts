import { type Point, heading, norm, perUnit, subtract, toDegrees } from '@fayplate/core';
import { placesIn } from '../frame/places.js';
import type { MachinistTable, TableRow } from '../types.js';
import { inSetting } from './settings.js';

/** A hole's place said three ways, all from the places as set, so that a row read any way leads to the same hole. */
export interface PlaceColumns {
  readonly hole: string;
  readonly absolute: Point;
  /** From the place before it; from the origin for the first of a side. A cut in the same place is no step. */
  readonly incremental: Point;
  /** mm, and degrees counter-clockwise from +x in [0, 360). */
  readonly polar: { readonly radius: number; readonly angle: number };
}

/** One entry for each row of one side, in the order of the table. */
export const placeColumns = (rows: readonly TableRow[]): readonly PlaceColumns[] =>
  rows.map((row, i) => {
    const before = rows[i - 1]?.set ?? { x: 0, y: 0 };
    const angle = toDegrees(heading(row.set));
    return {
      hole: row.hole,
      absolute: row.set,
      incremental: subtract(row.set, before),
      polar: { radius: norm(row.set), angle: angle < 0 ? angle + 360 : angle },
    };
  });

const head = [
  'n',
  'side',
  'hole',
  'op',
  'tool',
  'x',
  'y',
  'dx',
  'dy',
  'radius',
  'angle',
  'depth',
  'speed',
  'feed',
  'note',
  'size from',
  'size to',
  'depth from',
  'depth to',
  'cuts',
] as const;

const LENGTHS: ReadonlySet<string> = new Set('x,y,dx,dy,radius,depth,size from,size to,depth from,depth to'.split(','));

/**
 * One row for each cut, RFC 4180, CRLF; lengths in the table's unit as set on the machine, angles in degrees, feed in
 * unit/min.
 * `says`: what is said of the whole job, the heading of a last column that stays empty; left out: no such column.
 */
export const tableCsv = (t: MachinistTable, says: string | null = null): string => {
  const number = (mm: number, places = placesIn(t.unit)): string => plain(mm / perUnit(t.unit), places);
  const lines = t.setups.flatMap((s) => {
    const rows = inSetting(t, s).rows.filter((r) => r.side === s.side);
    // The whole face has no place, and the first hole no step from it.
    const placed = rows.filter((r) => r.op !== 'face');
    const columns = placeColumns(placed);
    return rows.flatMap((r): readonly (readonly string[])[] => {
      const c = columns[placed.indexOf(r)];
      return [
        [
          String(r.n),
          `${s.side}${s.setting === undefined ? '' : ` setting ${s.setting}`}`,
          csvText(r.hole),
          r.op,
          csvText(r.tool),
          ...(c === undefined
            ? ['', '', '', '', '', '']
            : [
                number(c.absolute.x),
                number(c.absolute.y),
                number(c.incremental.x),
                number(c.incremental.y),
                number(c.polar.radius),
                plain(c.polar.angle, 4),
              ]),
          number(r.depth),
          r.speed === null ? '' : plain(r.speed, 0),
          r.feed === null ? '' : number(r.feed, t.unit === 'in' ? 2 : 0),
          csvText(r.note ?? ''),
          ...[r.limits, r.depthLimits].flatMap((l) => (l === null ? ['', ''] : l.map((v) => number(v)))),
          r.passes === null ? '' : String(r.passes),
        ],
      ];
    });
  });
  const headings = head.map((h) =>
    LENGTHS.has(h)
      ? `${h} ${t.unit}`
      : h === 'angle'
        ? 'angle deg'
        : h === 'feed'
          ? `feed ${t.unit}/min`
          : h === 'note'
            ? 'note (Fayplate)'
            : h,
  );
  const last = (i: number): readonly string[] => (says === null ? [] : [i === 0 ? csvText(says) : '']);
  return [headings, ...lines].map((cells, i) => `${[...cells, ...last(i)].join(',')}\r\n`).join('');
};

const plain = (v: number, places: number): string => {
  const text = v.toFixed(places);
  return /^-0\.?0*$/.test(text) ? text.slice(1) : text;
};

/**
 * A name that a spreadsheet takes for text, whatever it starts with: = + - @ and control characters get a leading
 * apostrophe, which spreadsheets read as 'this is text'; commas, quotes and line ends are quoted (RFC 4180).
 */
export const csvText = (text: string): string => {
  const inert = /^[\s]*[=+\-@\t\r＝＋－＠]/.test(text) ? `'${text}` : text;
  return /[",\r\n\t;']/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert;
};
