import { perUnit } from '@fayplate/core';
import { placeColumns } from '../frame/columns.js';
import { placesIn } from '../frame/rounding.js';
import type { MachinistTable } from '../types.js';

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
] as const;

/** One row for each cut, RFC 4180, CRLF; lengths in the table's unit as set on the machine, angles in degrees, feed in unit/min. */
export const tableCsv = (t: MachinistTable): string => {
  const number = (mm: number, places = placesIn(t.unit)): string => plain(mm / perUnit(t.unit), places);
  const lines = t.setups.flatMap(({ side }) => {
    const rows = t.rows.filter((r) => r.side === side);
    const columns = placeColumns(rows);
    return rows.flatMap((r, i): readonly (readonly string[])[] => {
      const c = columns[i];
      if (c === undefined) return [];
      return [
        [
          String(r.n),
          side,
          csvText(r.hole),
          r.op,
          csvText(r.tool),
          number(c.absolute.x),
          number(c.absolute.y),
          number(c.incremental.x),
          number(c.incremental.y),
          number(c.polar.radius),
          plain(c.polar.angle, 4),
          number(r.depth),
          r.speed === null ? '' : plain(r.speed, 0),
          r.feed === null ? '' : number(r.feed, t.unit === 'in' ? 2 : 0),
          csvText(r.note ?? ''),
        ],
      ];
    });
  });
  const headings = head.map((h) =>
    ['x', 'y', 'dx', 'dy', 'radius', 'depth'].includes(h)
      ? `${h} ${t.unit}`
      : h === 'angle'
        ? 'angle deg'
        : h === 'feed'
          ? `feed ${t.unit}/min`
          : h === 'note'
            ? 'note (Fayplate)'
            : h,
  );
  return [headings, ...lines].map((cells) => `${cells.join(',')}\r\n`).join('');
};

const plain = (v: number, places: number): string => {
  const text = v.toFixed(places);
  return /^-0\.?0*$/.test(text) ? text.slice(1) : text;
};

/**
 * A name that a spreadsheet takes for text, whatever it starts with: = + - @ and control characters get a leading apostrophe, which
 * spreadsheets read as 'this is text'; commas, quotes and line ends are quoted (RFC 4180).
 */
export const csvText = (text: string): string => {
  const inert = /^[\s]*[=+\-@\t\r＝＋－＠]/.test(text) ? `'${text}` : text;
  return /[",\r\n\t;']/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert;
};
