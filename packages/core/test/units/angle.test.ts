import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  DEGREE,
  formatClock,
  headingOfClock,
  parseAngle,
  parseAngleMeasure,
  parseClock,
  wrapAngle,
} from '../../src/index.js';
import { aTurn, seeded, within } from '../support.js';

describe('angles', () => {
  test.each([
    ['30', 30],
    ['30 deg', 30],
    ['30°', 30],
    ["30° 15'", 30.25],
    [`30° 15' 36"`, 30.26],
    ['-15', -15],
    ['22.5', 22.5],
    ['1/2 deg', 0.5],
  ])('%s', (text, degrees) => {
    const r = parseAngle(text);
    expect(r.ok && r.value / DEGREE).toBeCloseTo(degrees, 12);
  });

  test('radians', () => expect(parseAngle('0.5 rad')).toEqual({ ok: true, value: 0.5 }));
  test('the ± is in degrees unless the value is in radians', () => {
    expect(parseAngleMeasure("57° 15' ± 0.4 deg")).toEqual({
      ok: true,
      value: { value: 57.25 * DEGREE, plusMinus: 0.4 * DEGREE },
    });
    expect(parseAngleMeasure('0.5 ± 0.01 rad')).toEqual({ ok: true, value: { value: 0.5, plusMinus: 0.01 } });
  });
  test.each(['', "30° 70'", 'x', '3,5', '30 mm'])('refuses %s', (text) => expect(parseAngle(text).ok).toBe(false));

  test('12 is up, 3 to the right: clockwise as viewed', () => {
    expect(parseClock('12')).toEqual({ ok: true, value: Math.PI / 2 });
    expect(parseClock('3')).toEqual({ ok: true, value: 0 });
    const nine30 = parseClock('9:30');
    expect(nine30.ok && nine30.value).toBeCloseTo(165 * DEGREE, 12);
    for (const wrong of ['13', '9:75', '', '-1', '9.30']) expect(parseClock(wrong).ok).toBe(false);
  });

  test('a clock written and read differs by less than a minute', () => {
    fc.assert(
      fc.property(aTurn, (a) => {
        const read = parseClock(formatClock(a));
        expect(read.ok && Math.abs(wrapAngle(read.value - a)) <= 0.25 * DEGREE + 1e-12).toBe(true);
      }),
      seeded,
    );
  });

  test('turns of a whole circle change nothing', () => {
    fc.assert(
      fc.property(within(0, 12), (h) => {
        expect(Math.abs(wrapAngle(headingOfClock(h + 12) - headingOfClock(h)))).toBeLessThan(1e-9);
      }),
      { ...seeded, examples: [[6.0001]] },
    );
  });
});
