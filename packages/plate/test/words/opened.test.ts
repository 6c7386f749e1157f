import { expect, test } from 'vitest';
import { sayOpened } from '../../src/words/say.js';

// 10.5 mm and 13/32 in (10.319 mm) are drills as they are sold; F is 0.257 in (6.528 mm): ANSI/ASME B94.11M, from
// memory.
test.each([
  [10.5, '10.5 mm', 'mm', '10.5 mm'],
  [10.5, '10.5 mm', 'in', '0.413 in (10.5 mm drill)'],
  [10.31875, '13/32', 'in', '13/32 in'],
  [10.31875, '13/32', 'mm', '10.32 mm (drill 13/32)'],
  [6.5278, 'F', 'in', '0.257 in (drill F)'],
  [12.7, null, 'in', '0.500 in'],
] as const)('a hole of %s mm by drill %s in a job in %s', (diameter, drill, unit, said) =>
  expect(sayOpened(diameter, drill, unit)).toBe(said),
);
