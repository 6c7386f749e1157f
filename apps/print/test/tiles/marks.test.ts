import type { Shape } from '@fayplate/drawing';
import { describe, expect, test } from 'vitest';
import { stockOf } from '../../src/paper/paper.js';
import { planGrid } from '../../src/tiles/grid.js';
import { longRulersOf } from '../../src/tiles/long-rulers.js';
import { markGroup } from '../../src/tiles/marks.js';

const texts = (s: Shape): readonly (Shape & { readonly kind: 'text' })[] =>
  s.kind === 'group' ? s.shapes.flatMap(texts) : s.kind === 'text' ? [s] : [];

describe('a mark on a join', () => {
  // Cut along the join, either half must still carry the number.
  test.each(['up', 'across'] as const)('that runs %s has its number on both sides of it', (along) => {
    const at = { x: 100, y: 200 };
    const numbers = texts(markGroup({ id: 'R7', n: 7, at, along }, 10));
    expect(numbers.map((t) => t.text)).toEqual(['7', '7']);
    const sides = numbers.map((t) =>
      along === 'up' ? Math.sign(t.at.x - at.x) : Math.sign(t.at.y + t.capital / 2 - at.y),
    );
    expect(sides.toSorted((a, b) => a - b)).toEqual([-1, 1]);
    // Outside the mark, and growing away from it.
    for (const t of numbers) {
      if (along === 'up')
        expect([t.anchor, Math.abs(t.at.x - at.x) > 5 / 2]).toEqual([t.at.x < at.x ? 'end' : 'start', true]);
      else expect(t.at.y > at.y + 5 / 2 || t.at.y + t.capital < at.y - 5 / 2).toBe(true);
    }
  });
});

test('rulers over all joins lie within what the sheets cover, whole tens of millimetres long', () => {
  const stock = stockOf('A4');
  const grid =
    stock === null
      ? null
      : planGrid({ left: 0, bottom: 0, right: 500, top: 600 }, [], {
          stock,
          margin: 8,
          overlap: 10,
          orientation: 'any',
        });
  if (grid === null) throw new Error('no grid');
  const { left, right, bottom, top } = grid.covered;
  const rulers = longRulersOf(grid).flatMap((r) => r.lines);
  expect(rulers).toHaveLength(2);
  for (const { from, to, length } of rulers) {
    expect(
      Math.min(from.x, to.x) >= left &&
        Math.max(from.x, to.x) <= right &&
        Math.min(from.y, to.y) >= bottom &&
        Math.max(from.y, to.y) <= top,
    ).toBe(true);
    expect(length).toBeCloseTo(Math.hypot(to.x - from.x, to.y - from.y), 9);
    expect(length / 10).toBeCloseTo(Math.round(length / 10), 9);
  }
  // Less than three tens are left over at the ends.
  expect(rulers.map((r, i) => r.length > (i === 0 ? right - left : top - bottom) - 30)).toEqual([true, true]);
});
