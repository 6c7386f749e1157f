import { expect, test } from 'vitest';
import { punchWords } from '../../src/template/marks.js';

// By hand: 0.405 in lies under 13/32 (0.40625); 10.3 mm under 10.5.
test.each([
  [0.405 * 25.4, 'in', 'punch 13/32 in'],
  [0.376 * 25.4, 'in', 'punch 3/8 in'],
  [10.3, 'mm', 'punch 10.5 mm'],
  [10.03, 'mm', 'punch 10 mm'],
] as const)('the nearest punch for %d mm in %s', (diameter, unit, words) =>
  expect(punchWords(diameter, null, { unit, fraction: null })).toBe(words),
);
