import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseThread, threads } from '../../src/index.js';

describe('a thread as people write it', () => {
  test.each([
    ['3/8-16 UNC', '3/8-16 UNC'],
    ['3/8-16', '3/8-16 UNC'],
    ['3/8 unc', '3/8-16 UNC'],
    ['3/8 - 16 unc', '3/8-16 UNC'],
    ['3/8" - 16', '3/8-16 UNC'],
    ['3/8-16 UNC-2A', '3/8-16 UNC'],
    ['3/8 x 16', '3/8-16 UNC'],
    ['3/8-24', '3/8-24 UNF'],
    ['#10-24 UNC', '#10-24 UNC'],
    ['10-32', '#10-32 UNF'],
    ['No. 10-24', '#10-24 UNC'],
    ['# 10 - 24', '#10-24 UNC'],
    ['1-8', '1-8 UNC'],
    ['1-64', '#1-64 UNC'],
    ['#1-64', '#1-64 UNC'],
    ['1-14', '1-14 UNS'],
    ['1 1/8-7', '1 1/8-7 UNC'],
    ['1-1/8-7 UNC', '1 1/8-7 UNC'],
    ['1⅛-12', '1 1/8-12 UNF'],
    ['½ BSW', '1/2 BSW'],
    ['1/2 whitworth', '1/2 BSW'],
    ['1/2-12 BSW', '1/2 BSW'],
    ['5/16 BSF', '5/16 BSF'],
    ['5/16bsf', '5/16 BSF'],
    ['2 BA', '2 BA'],
    ['2ba', '2 BA'],
    ['BA 2', '2 BA'],
    ['0 BA', '0 BA'],
    ['M10', 'M10'],
    ['m 10', 'M10'],
    ['M10x1.5', 'M10'],
    ['M10x1.25', 'M10x1.25'],
    ['M10 x 1.25', 'M10x1.25'],
    ['M10×1.25', 'M10x1.25'],
    ['M10-6g', 'M10'],
    ['M10 coarse', 'M10'],
    ['M2.5', 'M2.5'],
    ['M15x1', 'M15x1'],
  ])('%s is %s', (text, name) => expect(parseThread(text)?.name).toBe(name));

  test.each([
    '',
    '3/8',
    '10',
    '3/8-17',
    '1/2-12',
    'M13',
    'M10x1.4',
    'M10x1,25',
    'M15',
    '17 BA',
    '#7-20',
    '3/8-16 BSF',
    'UNC',
    'bolt',
    '3/8-16 UNC-3A',
    '1'.repeat(500),
  ])('no thread: %s', (text) => expect(parseThread(text)).toBeNull());

  test('every name of the tables reads back to itself in any case and spacing', () => {
    fc.assert(
      fc.property(fc.constantFrom(...threads), fc.boolean(), fc.constantFrom('', ' ', '  '), (t, upper, gap) => {
        const name = (upper ? t.name.toUpperCase() : t.name.toLowerCase())
          .replace(/-(?=\d+ )/, `${gap}-${gap}`)
          .replace(/x/i, `${gap}x${gap}`);
        expect(parseThread(name)).toBe(t);
      }),
      { seed: 20_261, numRuns: 500 },
    );
  });

  test('names are unique', () => expect(new Set(threads.map((t) => t.name)).size).toBe(threads.length));

  test('any text at all gives a thread or null', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (s) => {
        expect(parseThread(s)?.name ?? '').toBeTypeOf('string');
      }),
      { seed: 20_261, numRuns: 2000 },
    );
  });
});
