import { expect, test } from 'vitest';
import { nearestName } from '../../src/index.js';

test.each([
  ['calliper', ['caliper', 'rule'], 'caliper'],
  ['CALIPER', ['caliper', 'rule'], 'caliper'],
  ['calpier', ['caliper', 'rule'], 'caliper'],
  ['inch', ['in', 'mm'], 'in'],
  ['P11', ['P1', 'P10', 'P12'], 'P1'],
  ['5/16', ['M16', '3/16', '5/16-18 UNC', '5/16 BSF'], '5/16-18 UNC'],
  ['saw', ['sow', 'saw bench'], 'saw bench'],
  ['Z', ['A', 'B'], null],
  ['micrometer', ['caliper', 'rule'], null],
  ['', ['a'], null],
  ['x'.repeat(100), ['x'.repeat(99)], null],
] as const)('%s among %j is %s', (word, names, nearest) => expect(nearestName(word, names)).toBe(nearest));
