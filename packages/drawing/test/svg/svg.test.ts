import { describe, expect, test } from 'vitest';
import { type Drawing, circle, group, line, pens, svg, text } from '../../src/index.js';
import { letters, outline } from '../fonts.js';

const drawing = (shapes: Drawing['shapes'], title = 'a drawing'): Drawing => ({
  title,
  box: { left: -10, bottom: -20, right: 90, top: 180 },
  shapes,
});

/**
 * Where each step of path data ends, its relative ones added up: what a reader of SVG 2, 9.3 does with M, m, l, q, c
 * and z.
 */
const ends = (data: string): readonly (readonly [number, number])[] => {
  const out: (readonly [number, number])[] = [];
  let pen = [0, 0] as readonly [number, number];
  let start = pen;
  for (const [, command = '', numbers = ''] of data.matchAll(/([Mmlqcz])([^Mmlqcz]*)/g)) {
    const values = numbers.trim().split(/\s+/).map(Number);
    if (command === 'z') {
      pen = start;
      continue;
    }
    const [x = 0, y = 0] = values.slice(-2);
    pen = command === 'M' ? [x, y] : [pen[0] + x, pen[1] + y];
    if (command === 'M' || command === 'm') start = pen;
    out.push(pen);
  }
  return out;
};

describe('SVG at true scale', () => {
  test('width, height and user units are millimetres', () => {
    expect(svg(drawing([]), letters)).toContain('width="100mm" height="200mm" viewBox="-10 -180 100 200"');
  });

  test('y points down on the page and circles stay arcs', () => {
    const out = svg(drawing([circle('cut', { x: 3, y: 70 }, 5, pens.wide)]), letters);
    expect(out).toContain('d="M 8 -70 A 5 5 0 0 0 -2 -70 A 5 5 0 0 0 8 -70 Z"');
  });

  test('each layer is one group, whatever the nesting', () => {
    const a = line('mark', { x: 0, y: 0 }, { x: 1, y: 0 }, pens.narrow);
    const b = line('cut', { x: 0, y: 0 }, { x: 2, y: 0 }, pens.narrow);
    const out = svg(drawing([group('H1', [a, b]), group('H2', [a], 'note')]), letters);
    for (const id of ['cut', 'mark', 'note']) expect(out.split(`<g id="${id}">`)).toHaveLength(2);
    const cut = out.slice(out.indexOf('<g id="cut">'));
    expect(cut).toContain('M 0 0 L 2 0');
    expect(cut).not.toContain('M 0 0 L 1 0');
    expect(out.slice(out.indexOf('<g id="note">'), out.indexOf('<g id="mark">'))).toContain('data-name="H2"');
  });

  test('names and words are inert, and text is outlines', () => {
    const nasty = '"><script>alert(1)</script>\u202E\u0000&';
    const out = svg(drawing([group(nasty, [text('note', { x: 0, y: 0 }, nasty)])], nasty), letters);
    expect(out).not.toMatch(/<script|<text|\u202E|\u0000|&(?!amp;|lt;|gt;|quot;|#39;)/);
    expect(out).toContain('[U+202E][U+0000]');
  });

  test('letters drawn in steps end where their outlines do, however they are turned', () => {
    const words = 'Ø8 ± ½" éi%';
    for (const [turn, anchor] of [
      [0, 'start'],
      [Math.PI / 2, 'middle'],
      [2.3, 'end'],
    ] as const) {
      const at = { x: 31.4, y: 15.9 };
      const out = svg(drawing([text('note', at, words, { capital: 3.5, turn, anchor })]), letters);
      const data = / d="([^"]*)"/.exec(out.slice(out.indexOf('aria-label')))?.[1] ?? '';
      const { contours, width } = outline(words, 3.5);
      const back = { start: 0, middle: width / 2, end: width }[anchor];
      const onPage = (p: { readonly x: number; readonly y: number }) => [
        at.x + Math.cos(turn) * (p.x - back) - Math.sin(turn) * p.y,
        -(at.y + Math.sin(turn) * (p.x - back) + Math.cos(turn) * p.y),
      ];
      const expected = contours.flat().map(onPage);
      const found = ends(data);
      expect(found).toHaveLength(expected.length);
      for (const [i, [x, y]] of found.entries()) {
        expect(Math.abs(x - (expected[i]?.[0] ?? 0))).toBeLessThan(2e-4);
        expect(Math.abs(y - (expected[i]?.[1] ?? 0))).toBeLessThan(2e-4);
      }
    }
  });
});
