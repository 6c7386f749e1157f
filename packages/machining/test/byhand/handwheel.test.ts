import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dialSetting, handwheel } from '../../src/byhand/handwheel.js';
import { dialWords } from '../../src/table/byhand-report.js';
import { machinistTable } from '../../src/index.js';
import { job, plate } from '../fixture.js';

describe('handwheels', () => {
  // Textbook arithmetic: ten threads to the inch, a hundred divisions of 0.001 in.
  test.each([
    [3.531, 35, 31],
    [-0.2505, -2, -50],
    [0.1, 1, 0],
    [0, 0, 0],
  ])('%d in on a 10 t.p.i. screw: %i turns %i divisions', (inches, turns, divisions) => {
    const s = dialSetting(inches * 25.4, 2.54, 0.0254);
    expect([s.turns, s.divisions]).toEqual([turns, divisions]);
    expect(Math.abs(s.error)).toBeLessThanOrEqual(0.0127 + 1e-9);
  });

  test('turns and divisions lead back to the place, whatever the screw', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -500, max: 500, noNaN: true }),
        fc.constantFrom([5, 0.02], [4, 0.05], [2.54, 0.0254], [3.175, 0.0254], [1.5, 0.01]),
        (travel, [pitch, division]) => {
          const s = dialSetting(travel, pitch, division);
          const perTurn = Math.round(pitch / division);
          expect(s.turns * pitch + (s.divisions * pitch) / perTurn + s.error).toBeCloseTo(travel, 9);
          expect(Math.abs(s.divisions)).toBeLessThan(perTurn);
          expect(s.turns * s.divisions).toBeGreaterThanOrEqual(0);
        },
      ),
      { seed: 5, numRuns: 400 },
    );
  });

  test('a table’s worst error is no more than half a division each way', () => {
    const t = machinistTable(plate, job);
    if (!t.ok) throw new Error();
    const h = handwheel(t.table.rows, 5, null);
    expect(h.division).toBeCloseTo(0.02, 12);
    expect(h.worst).toBeGreaterThan(0);
    expect(h.worst).toBeLessThanOrEqual(0.01 * Math.SQRT2 + 1e-9);
  });
});

// By hand, 100 divisions a turn: −18.77 turns is 18 whole turns and 77 back from zero, and a dial that counts up shows
// 100 − 77 = 23.
test.each([
  [-18.77, { turns: -18, divisions: -77, dial: 23 }, 'back 18 turns and 77, dial 23'],
  [18.77, { turns: 18, divisions: 77, dial: 77 }, '18 turns, dial 77'],
  [-0.01, { turns: 0, divisions: -1, dial: 99 }, 'back 1, dial 99'],
  [-3, { turns: -3, divisions: 0, dial: 0 }, 'back 3 turns, dial 0'],
  [1.5, { turns: 1, divisions: 50, dial: 50 }, '1 turn, dial 50'],
  [0.2, { turns: 0, divisions: 20, dial: 20 }, 'dial 20'],
  [0, { turns: 0, divisions: 0, dial: 0 }, 'zero'],
])('%d turns: what the dial shows', (turns, setting, words) => {
  const s = dialSetting(turns * 5, 5, 0.05);
  expect(s).toMatchObject(setting);
  expect(dialWords(s)).toBe(words);
  expect(dialWords(s)).not.toMatch(/[−-]0/);
});
