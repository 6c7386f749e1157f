import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/index.js';
import { jobOf, shop } from '../support.js';

const feature = (written: string, readings: readonly string[] = []) =>
  jobOf(shop(readings).replace('      A:', `      X: ${written}\n      A:`)).faces[0]?.features.find(
    (f) => f.id === 'X',
  );

/**
 * Where neither a diameter nor a `dia` reading is given, the middle of the thread's class limits ± half their width.
 * Printed limits: ISO 965-2 (M8 6g, M10 6H) and ASME B1.1 (3/8-16 UNC 2A and 2B), from memory.
 * They are printed to 0.001 mm, to 0.0001 in (studs) and to 0.001 in (holes): half of that is allowed.
 */
describe('diameters from threads', () => {
  test.each([
    ['{ kind: stud, thread: M8 }', 7.76, 7.972, 0.0005],
    ['{ kind: hole, thread: M10 }', 8.376, 8.676, 0.0005],
    ['{ kind: stud, thread: 3/8-16 UNC }', 0.3643 * 25.4, 0.3737 * 25.4, 0.00127],
    ['{ kind: hole, thread: 3/8-16 UNC }', 0.307 * 25.4, 0.321 * 25.4, 0.0127],
  ])('%s', (written, least, most, printed) => {
    const f = feature(written);
    expect(f?.diameterFrom).toBe('thread');
    const { value = 0, plusMinus = null } = f?.diameter ?? {};
    expect(Math.abs(value - (plusMinus ?? 0) - least)).toBeLessThanOrEqual(printed);
    expect(Math.abs(value + (plusMinus ?? 0) - most)).toBeLessThanOrEqual(printed);
  });

  test('a written diameter goes before', () =>
    expect(feature('{ kind: stud, thread: M8, diameter: 7.9 }')).toMatchObject({
      diameterFrom: 'job',
      diameter: { value: 7.9, plusMinus: null },
    }));
  test('so does a reading of it', () =>
    expect(feature('{ kind: stud, thread: M8 }', ['dia X = 7.9 by rule'])).toMatchObject({
      diameterFrom: null,
      diameter: null,
    }));
  test('but not one set aside', () =>
    expect(feature('{ kind: stud, thread: M8 }', ['aside dia X = 7.9 by rule'])?.diameterFrom).toBe('thread'));
  test('a dowel has no thread to take it from', () =>
    expect(feature('{ kind: dowel }')).toMatchObject({ diameterFrom: null, diameter: null }));
});

test('what a feature may carry', () => {
  expect(
    feature('{ kind: stud, thread: M8, stands: 28 mm, lean: ± 0.5 deg, vacant: true, clock: "9:30" }'),
  ).toMatchObject({
    thread: 'M8',
    stands: 28,
    lean: Math.PI / 360,
    vacant: true,
    clock: expect.closeTo((165 * Math.PI) / 180, 12),
    deep: null,
    height: null,
  });
  expect(feature('{ kind: hole, thread: M8, deep: 20 mm }')).toMatchObject({ deep: 20, vacant: false });
  expect(feature('{ kind: boss, diameter: 22 mm, height: 6 mm }')).toMatchObject({ height: 6 });
  expect(feature('{ kind: edge }')).toMatchObject({ kind: 'edge', diameter: null });
});

describe('how far a feature stands out', () => {
  test.each([
    ['{ kind: spigot, diameter: 60, height: 4 }', /how far a spigot stands out is "stands"/],
    ['{ kind: stud, diameter: 8, height: 20 }', /how far a stud stands out is "stands"/],
    ['{ kind: boss, diameter: 20, stands: 6 }', /how far a boss stands out is "height"/],
    ['{ kind: hole, diameter: 8, height: 6 }', /only$/],
  ])('%s is refused with the word for its kind', (written, advice) => {
    const read = readJob(shop([]).replace('      A:', `      X: ${written}\n      A:`));
    expect(read.ok ? [] : read.faults.map((f) => f.expected)).toEqual([expect.stringMatching(advice)]);
  });
});
