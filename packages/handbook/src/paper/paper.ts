import { LONGEST, MM_PER_INCH, parseLength, splitUnit } from '@fayplate/core';
import { type Source, type Table } from '../source.js';

/** Short side and long side, mm. */
const isoPaper: Table<readonly [name: string, short: number, long: number]> = {
  source: 'ISO 216: A5 to A2 read in two places, A1 and A0 from memory',
  rows: [
    ['A5', 148, 210],
    ['A4', 210, 297],
    ['A3', 297, 420],
    ['A2', 420, 594],
    ['A1', 594, 841],
    ['A0', 841, 1189],
  ],
};

/** Short side and long side, inches. */
const inchPaper: Table<readonly [name: string, short: number, long: number]> = {
  source: 'ASME Y14.1: A to D, Letter and Legal read in two places, E from memory',
  rows: [
    ['Letter', 8.5, 11],
    ['Legal', 8.5, 14],
    ['Tabloid', 11, 17],
    ['ANSI A', 8.5, 11],
    ['ANSI B', 11, 17],
    ['ANSI C', 17, 22],
    ['ANSI D', 22, 34],
    ['ANSI E', 34, 44],
  ],
};

/** A sheet held upright: `width` is its short side, mm, unless it was written the other way round. */
export interface Paper {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly source: Source;
}

/** Every sheet of the tables: ISO 216 and ASME Y14.1. */
export const papers: readonly Paper[] = [
  ...isoPaper.rows.map(([name, width, height]) => ({ name, width, height, source: isoPaper.source })),
  ...inchPaper.rows.map(([name, w, h]) => ({
    name,
    width: w * MM_PER_INCH,
    height: h * MM_PER_INCH,
    source: inchPaper.source,
  })),
];

const custom = (text: string): Paper | null => {
  const [first = '', second, extra] = text.split(/ ?[x×] ?/i);
  if (second === undefined || extra !== undefined) return null;
  const width = parseLength(first, splitUnit(second).factor ?? 1);
  const height = parseLength(second, splitUnit(first).factor ?? 1);
  if (
    !width.ok ||
    !height.ok ||
    !(width.value > 0) ||
    !(height.value > 0) ||
    Math.max(width.value, height.value) > LONGEST
  )
    return null;
  return { name: text, width: width.value, height: height.value, source: 'a size of its own' };
};

/**
 * `A4`, `letter`, `ANSI D`, `D`, `210 x 297 mm`, `8.5 x 14 in` (mm where no unit is written); null where it is none of
 * these.
 */
export const paper = (text: string): Paper | null => {
  const t = text.trim().replace(/\s+/g, ' ').slice(0, 60);
  const name = t.toLowerCase();
  return papers.find((p) => p.name.toLowerCase() === name || p.name.toLowerCase() === `ansi ${name}`) ?? custom(t);
};
