import { circlePath, polar } from '@fayplate/core';
import { circle, group, line, pens, text } from '@fayplate/drawing';
import { describe, expect, test } from 'vitest';
import { glyphBook } from '../../src/pdf/glyph-book.js';
import { factor, mm, pathOps } from '../../src/pdf/path-ops.js';
import { shapeOps } from '../../src/pdf/shape-ops.js';
import { letters } from '../fonts.js';

const ops = (...shapes: Parameters<typeof shapeOps>[0]): readonly string[] =>
  shapeOps(shapes, letters, glyphBook()).split('\n');

/** Points along the Bézier pieces of a path's operators. */
const along = (lines: readonly string[]): readonly { readonly x: number; readonly y: number }[] => {
  let pen = { x: 0, y: 0 };
  return lines.flatMap((l) => {
    const n = l.split(' ').slice(0, -1).map(Number);
    const at = (i: number) => ({ x: n[i] ?? 0, y: n[i + 1] ?? 0 });
    if (!l.endsWith('c')) {
      if (n.length === 2) pen = at(0);
      return [];
    }
    const [p, a, b, q] = [pen, at(0), at(2), at(4)];
    pen = q;
    return Array.from({ length: 21 }, (_, i) => {
      const t = i / 20;
      const mix = (k: 'x' | 'y'): number =>
        (1 - t) ** 3 * p[k] + 3 * (1 - t) ** 2 * t * a[k] + 3 * (1 - t) * t * t * b[k] + t ** 3 * q[k];
      return { x: mix('x'), y: mix('y') };
    });
  });
};

describe('shapes as page operators', () => {
  test('a plain line is a filled bar of its width, with a corner more than a rectangle has', () => {
    expect(ops(line('mark', { x: 1, y: 2 }, { x: 11, y: 2 }, pens.narrow))).toEqual([
      '/OC /mark BDC',
      '0 g',
      '1 1.875 m',
      '11 1.875 l',
      '11 2.125 l',
      '1 2.125 l',
      '1 2 l',
      'h',
      'f',
      'EMC',
    ]);
  });

  test('a broken line stays a stroke with its dashes', () => {
    expect(ops(line('note', { x: 0, y: 0 }, { x: 9, y: 0 }, pens.hidden))).toEqual([
      '/OC /note BDC',
      '0 G 0.25 w [3 0.75] 0 d',
      '0 0 m',
      '9 0 l',
      'S',
      'EMC',
    ]);
  });

  test('each run of one layer is marked once, in painting order', () => {
    const a = circle('cut', { x: 0, y: 0 }, 1, null, 0);
    const out = ops(a, group('g', [a, text('note', { x: 0, y: 0 }, 'H1')]), a);
    expect(out.filter((o) => o.endsWith('BDC') || o === 'EMC')).toEqual([
      '/OC /cut BDC',
      'EMC',
      '/OC /note BDC',
      'EMC',
      '/OC /cut BDC',
      'EMC',
    ]);
  });

  test('a group’s layer overrules that of what it holds', () => {
    expect(ops(group(null, [circle('cut', { x: 0, y: 0 }, 1, null, 0)], 'note'))[0]).toBe('/OC /note BDC');
  });

  test.each([0.5, 5, 60, 300, 1500])('a circle of radius %d mm strays less than 0.0001 mm', (radius) => {
    const centre = polar(200, 1);
    const stray = along(pathOps(circlePath(centre, radius))).map((p) =>
      Math.abs(Math.hypot(p.x - centre.x, p.y - centre.y) - radius),
    );
    expect(stray.length).toBeGreaterThan(100);
    expect(Math.max(...stray)).toBeLessThan(1e-4);
  });

  test('numbers have no exponent and no lost ten-thousandth', () => {
    expect([mm(1e-9), mm(-1e-9), mm(0.00004), mm(123.456789), mm(-7), mm(1e7)]).toEqual([
      '0',
      '0',
      '0.00004',
      '123.45679',
      '-7',
      '10000000',
    ]);
    expect([factor(72 / 25.4), factor(1), factor(-1), factor(1e-15)]).toEqual(['2.834645669291', '1', '-1', '0']);
    // A page of five metres by this factor: true to a millionth of a point.
    expect(Math.abs(Number(factor(72 / 25.4)) - 72 / 25.4) * 5000).toBeLessThan(1e-6);
  });
});
