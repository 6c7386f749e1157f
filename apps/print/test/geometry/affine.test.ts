import { circlePath, signedArea } from '@fayplate/core';
import { type Shape, group, line, pathShape, pens } from '@fayplate/drawing';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Affine, carry, carryPath, chain, inverse, mirrored, scaleShape } from '../../src/geometry/affine.js';

const number = fc.double({ min: -5, max: 5, noNaN: true });
const place = fc.record({ x: number, y: number });
const matrix = fc
  .tuple(number, number, number, number, number, number)
  .filter(([a, b, c, d]) => Math.abs(a * d - b * c) > 0.1);

describe('matrices', () => {
  test('the way back undoes the way there, and a chain is one after the other', () => {
    fc.assert(
      fc.property(matrix, matrix, place, (first, second, p) => {
        const back = carry(inverse(first), carry(first, p));
        expect([back.x, back.y]).toEqual([expect.closeTo(p.x, 6), expect.closeTo(p.y, 6)]);
        const both = carry(chain(first, second), p);
        const stepwise = carry(second, carry(first, p));
        expect([both.x, both.y]).toEqual([expect.closeTo(stepwise.x, 6), expect.closeTo(stepwise.y, 6)]);
      }),
      { seed: 12, numRuns: 100 },
    );
  });

  test('a mirror turns a path round, a scale does not, and its area grows by the square', () => {
    const path = circlePath({ x: 3, y: 1 }, 2);
    const twice: Affine = [2, 0, 0, 2, 7, -4];
    expect(signedArea(carryPath(mirrored, path))).toBeCloseTo(-signedArea(path), 9);
    expect(signedArea(carryPath(twice, path))).toBeCloseTo(4 * signedArea(path), 9);
  });
});

test(
  'a shape made a quarter of its size: lines in groups in groups too, ' +
    'their width and dashes by the root of that, and never more',
  () => {
    const pen = { ...pens.hidden };
    const shape = group('outer', [
      group('inner', [line('note', { x: 1, y: 2 }, { x: 3, y: 5 }, pen)]),
      pathShape('mark', circlePath({ x: 0, y: 0 }, 1), null),
    ]);
    const flat = (s: Shape): readonly Shape[] => (s.kind === 'group' ? s.shapes.flatMap(flat) : [s]);
    const [long, round] = flat(scaleShape(0.25, { x: 10, y: 0 }, shape));
    if (long?.kind !== 'path' || round?.kind !== 'path') throw new Error('two paths');
    expect(long.path.start).toEqual({ x: 10.25, y: 0.5 });
    expect(long.path.edges[0]?.to).toEqual({ x: 10.75, y: 1.25 });
    expect(long.stroke).toMatchObject({ width: pen.width / 2, dash: pen.dash.map((d) => d / 2) });
    expect(round.stroke).toBeNull();
    expect(signedArea(round.path)).toBeCloseTo(Math.PI / 16, 9);
    const [wider] = flat(scaleShape(2, { x: 0, y: 0 }, shape));
    expect(wider?.kind === 'path' ? wider.stroke : null).toEqual(pen);
  },
);
