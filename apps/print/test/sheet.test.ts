import { field, shapesBox, textBox } from '@fayplate/drawing';
import { describe, expect, test } from 'vitest';
import { frameOf } from '../src/sheet/frame.js';
import { edgeRulers } from '../src/sheet/furniture.js';
import { joinLines } from '../src/sheet/join-lines.js';
import { stockOf } from '../src/paper/paper.js';
import { planGrid } from '../src/tiles/grid.js';
import { markGroup, markRadius } from '../src/tiles/marks.js';
import { letters } from './fonts.js';
import { textsOf } from './shapes.js';

describe('what stands about the drawing on a sheet', () => {
  test('no number of a ruler touches the frame of the drawing or the strip', () => {
    for (const margin of [5, 8, 12]) {
      const frame = frameOf({ width: 210, height: 297 }, margin);
      const { shapes } = edgeRulers(frame, { right: 0, top: 0 });
      const numbers = textsOf(shapes);
      expect(numbers.length).toBeGreaterThan(40);
      for (const t of numbers) {
        const box = textBox(t, letters);
        // Digits have no tails: their room below the line is not ink.
        const ink =
          t.turn === 0
            ? { ...box, bottom: t.at.y, top: t.at.y + t.capital }
            : { ...box, left: t.at.x - t.capital, right: t.at.x };
        const { window, strip } = frame;
        expect([t.text, ink.top <= window.bottom - 0.3 || ink.right <= window.left - 0.3]).toEqual([t.text, true]);
        expect([t.text, ink.bottom >= strip.top - 0.6]).toEqual([t.text, true]);
      }
    }
  });

  test('a mark’s numbers reach no farther along a level join than its own figure, which stands whole on the sheet', () => {
    for (const n of [1, 14, 104]) {
      const group = markGroup({ id: `R${n}`, n, at: { x: 50, y: 20 }, along: 'across' }, 10);
      const box = shapesBox(textsOf([group]), letters);
      expect(box?.right).toBeLessThanOrEqual(50 + markRadius(10));
      expect(box?.left).toBeGreaterThanOrEqual(50 - markRadius(10));
    }
  });

  test('every join says what to do there, shorter where lines of the drawing leave less room', () => {
    const stock = stockOf('A4');
    const grid =
      stock === null
        ? null
        : planGrid({ left: 0, right: 300, bottom: 0, top: 200 }, [], {
            stock,
            margin: 8,
            overlap: 10,
            orientation: 'portrait',
          });
    if (grid === null) throw new Error('no grid');
    const words = (gap: number, column: number): readonly string[] => {
      const lines = Array.from(
        { length: 100 },
        (_, i) =>
          ({
            kind: 'segment',
            segment: { from: { x: -500, y: -1000 + i * gap }, to: { x: 500, y: -1000 + i * gap } },
          }) as const,
      );
      return textsOf(joinLines(grid, 0, column, { taken: field(lines), marks: [] }, letters)).map((t) => t.text);
    };
    expect(words(70, 1)).toEqual(['glue · the edge of sheet 1,1 comes to this line']);
    expect(words(45, 1)).toEqual(['glue · edge of sheet 1,1 to here']);
    expect(words(27, 1)).toEqual(['glue 1,1 to here']);
    expect(words(27, 0)).toEqual(['cut, lay on sheet 1,2']);
  });
});
