import type { TableBlock } from '@fayplate/core';
import { type Shape, type TextShape, wrapText } from '@fayplate/drawing';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layColumns, shareOut } from '../../src/packet/columns.js';
import { type FlowedPage, flow } from '../../src/packet/flow.js';
import { type Piece, piece } from '../../src/packet/piece.js';
import { tablePieces } from '../../src/packet/table.js';
import { letters } from '../fonts.js';

const texts = (shapes: readonly Shape[]): readonly TextShape[] =>
  shapes.flatMap((s) => (s.kind === 'text' ? [s] : s.kind === 'group' ? texts(s.shapes) : []));
const textsOn = (page: FlowedPage): readonly TextShape[] => page.laid.flatMap((l) => texts(l.piece.shapes));
const widthOf = (t: TextShape): number => letters.width(t.text, t.capital, t.weight);
const leftOf = (t: TextShape): number =>
  t.anchor === 'start' ? t.at.x : t.anchor === 'end' ? t.at.x - widthOf(t) : t.at.x - widthOf(t) / 2;

const cell = fc.oneof(
  fc.double({ min: -999, max: 999, noNaN: true }).map((v) => v.toFixed(3)),
  fc.integer({ min: -99, max: 9999 }).map(String),
  fc.constant(''),
  fc.constant('3 17/32'),
);
const tables = fc
  .array(fc.tuple(fc.stringMatching(/^[A-Za-z0-9 ,]{0,60}$/), cell, cell), { minLength: 1, maxLength: 30 })
  .map((rows): TableBlock => ({
    kind: 'table',
    caption: 'Places',
    columns: [
      { title: 'Hole and feature', align: 'left' },
      { title: 'x, mm', align: 'point' },
      { title: 'Depth', align: 'right' },
    ],
    rows,
  }));

describe('tables', () => {
  test('decimal points stand one under the other, and nothing leaves its table', () => {
    fc.assert(
      fc.property(tables, fc.integer({ min: 60, max: 180 }), (table, width) => {
        const rows = tablePieces(table, width, letters).slice(2);
        const points = rows.flatMap((r) =>
          texts(r.shapes)
            .filter((t) => /^\.\d/.test(t.text))
            .map((t) => t.at.x),
        );
        for (const x of points) expect(x).toBeCloseTo(points[0] ?? Number.NaN, 9);
        const layout = layColumns(
          { ...table, rows: table.rows.map((r) => r.map((c) => c.replace(/^-/, '−'))) },
          width,
          letters,
        );
        for (const t of rows.flatMap((r) => texts(r.shapes))) {
          expect(leftOf(t)).toBeGreaterThan(-1e-6);
          expect(leftOf(t) + widthOf(t)).toBeLessThan(layout.width + 1e-6);
        }
      }),
      { seed: 21, numRuns: 60 },
    );
  });

  test('a word among numbers stands on their right edge', () => {
    const table: TableBlock = {
      kind: 'table',
      caption: null,
      columns: [{ title: '±, in', align: 'point' }],
      rows: [['exact'], ['0.0025'], ['12.5']],
    };
    const [word] = tablePieces(table, 100, letters)
      .slice(1)
      .flatMap((r) => texts(r.shapes));
    const { columns } = layColumns(table, 100, letters);
    expect(word?.text).toBe('exact');
    expect(leftOf(word as TextShape) + widthOf(word as TextShape)).toBeCloseTo(
      (columns[0]?.left ?? 0) + (columns[0]?.width ?? 0),
      6,
    );
  });

  test('a cell that is as the one above is said again where the table goes on over a page, and only there', () => {
    const rows = ['drill 5 mm', '', '', '', 'tap M6', '', '', ''].map((tool, i) => [tool, `H${i + 1}`]);
    const table: TableBlock = {
      kind: 'table',
      caption: null,
      columns: [
        { title: 'Tool', align: 'left', runsOn: true },
        { title: 'Hole', align: 'left' },
      ],
      rows,
    };
    const tools = (height: number): readonly (readonly string[])[] =>
      flow(tablePieces(table, 100, letters), height).map((p) =>
        textsOn(p)
          .map((t) => t.text)
          .filter((t) => / /.test(t)),
      );
    const row = tablePieces(table, 100, letters)[1]?.height ?? 0;
    expect(tools(200)).toEqual([['drill 5 mm', 'tap M6']]);
    expect(tools(3.5 * row)).toEqual([['drill 5 mm'], ['drill 5 mm'], ['tap M6'], ['tap M6']]);
    expect(tools(4.5 * row)).toEqual([['drill 5 mm'], ['drill 5 mm', 'tap M6'], ['tap M6']]);
  });

  test('a caption too long for the page is broken, not cut', () => {
    const caption = 'Places of side B from the spigot of the pump: absolute, step from the hole before, and polar';
    const [head] = tablePieces(
      { kind: 'table', caption, columns: [{ title: 'a', align: 'left' }], rows: [['1']] },
      60,
      letters,
    );
    const lines = texts(head?.shapes ?? []);
    expect(lines.map((l) => l.text).join(' ')).toBe(caption);
    for (const l of lines) expect(widthOf(l)).toBeLessThanOrEqual(60);
  });

  test('columns do not run into each other', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const { columns } = layColumns(table, 100, letters);
        for (const [i, c] of columns.slice(1).entries())
          expect(c.left).toBeGreaterThan((columns[i]?.left ?? 0) + (columns[i]?.width ?? 0) + 3);
      }),
      { seed: 22, numRuns: 40 },
    );
  });

  test('small wants are met in full, large ones get equal parts', () => {
    expect(shareOut([10, 2, 30], 24)).toEqual([10, 2, 12]);
    expect(shareOut([20, 2, 30], 24)).toEqual([11, 2, 11]);
    expect(shareOut([1, 2], 10)).toEqual([1, 2]);
  });

  test('a negative number carries the minus sign, a range and a name their hyphen', () => {
    const rows = tablePieces(
      { kind: 'table', caption: null, columns: [{ title: 'a', align: 'left' }], rows: [['-3.5'], ['3-17/32'], ['-']] },
      100,
      letters,
    );
    expect(
      rows
        .slice(1)
        .flatMap((r) => texts(r.shapes))
        .map((t) => t.text),
    ).toEqual(['−3.5', '3-17/32', '-']);
  });
});

describe('text in lines', () => {
  test('no word is lost and no line is too long', () => {
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-z]{1,40}$/), { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 12, max: 170 }),
        (words, width) => {
          const lines = wrapText(words.join(' '), width, 2.2, 'regular', letters);
          expect(lines.join('').replaceAll(' ', '')).toBe(words.join(''));
          for (const l of lines) expect(letters.width(l, 2.2, 'regular')).toBeLessThanOrEqual(width + 1e-9);
        },
      ),
      { seed: 23, numRuns: 80 },
    );
  });
});

describe('pieces over pages', () => {
  const pieces = fc.array(
    fc.record({
      height: fc.double({ min: 1, max: 60, noNaN: true }),
      withNext: fc.boolean(),
      above: fc.double({ min: 0, max: 8, noNaN: true }),
    }),
    { minLength: 1, maxLength: 40 },
  );
  const drawn = (
    p: { readonly height: number; readonly withNext: boolean; readonly above: number },
    i: number,
  ): Piece =>
    piece(
      p.height,
      [
        {
          kind: 'text',
          layer: 'note',
          at: { x: 0, y: 0 },
          text: String(i),
          capital: 1,
          weight: 'regular',
          anchor: 'start',
          turn: 0,
          grey: 0,
        },
      ],
      { withNext: p.withNext, above: p.above },
    );

  test('each is drawn once and in order, no page overflows, none is empty', () => {
    fc.assert(
      fc.property(pieces, (all) => {
        const pages = flow(all.map(drawn), 100);
        expect(pages.flatMap((p) => textsOn(p).map((t) => Number(t.text)))).toEqual(all.map((_, i) => i));
        for (const p of pages) {
          expect(p.used).toBeLessThanOrEqual(100 + 1e-6);
          expect(p.laid.length).toBeGreaterThan(0);
        }
      }),
      { seed: 24, numRuns: 200 },
    );
  });

  test('a heading never stands at the foot of a page without what it heads', () => {
    const all = [piece(90, []), piece(8, [], { withNext: true }), piece(20, [])].map(drawn);
    expect(flow(all, 100).map((p) => textsOn(p).map((t) => t.text))).toEqual([['0'], ['1', '2']]);
  });
});
