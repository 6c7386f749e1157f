import { expect, test } from 'vitest';
import { calibration } from './calibration.js';

test('the chance said is the chance met, over plates of which about half go on', () => {
  const c = calibration(50, 0.3, 1);
  expect(c.went).toBeGreaterThan(0.2);
  expect(c.went).toBeLessThan(0.8);
  expect(Math.abs(c.said - c.went)).toBeLessThan(0.08);
  expect(c.brier).toBeLessThan(2 * c.brierDue + 0.03);
  expect(c.right).toBeGreaterThan(0.9);
});
