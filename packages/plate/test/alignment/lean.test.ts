import { expect, test } from 'vitest';
import { tiltOf } from '../../src/alignment/shaft.js';
import { plateFrom } from '../support/from-text.js';

/**
 * A dial at a radius r on a face travels 2 r times the lean of the axis in one turn: a chord of the face under that
 * angle. Worked by hand. Two shafts that each lean out of their faces add as arrows: both up (as drawn) is twice, one
 * up and one down is nothing.
 */
const text = (pump: string, motor: string, more = ''): string => `
job: leaning
units: mm
instruments: { readout: ± 0.02, dial: ± 0.006 }
faces:
${[
  ['pump', 60, pump],
  ['motor', 80, motor],
]
  .map(
    ([name, r, line]) => `  ${name}:
    centre: S
    up: N
    features:
      S: { kind: bore, diameter: 40 ± 0.01, deep: 8 }
      N: { kind: hole, thread: M8, deep: 20 }
      E: { kind: hole, thread: M8, deep: 20 }
      W: { kind: hole, thread: M8, deep: 20 }
    readings:
      - at S = (0, 0) by readout
      - at N = (0, ${r}) by readout
      - at E = (${r}, 0) by readout
      - at W = (-${r}, 0) by readout
${line === '' ? '' : `      - ${line}\n`}`,
  )
  .join('')}
plate:
  between: [pump, motor]
  thickness: 20 mm
  bore: { diameter: 30 }
  clocking: 45 deg
  locate: { pump: { register: 39.98, fit: h6 }, motor: { dowels: 2, diameter: 6 } }
  fasten: { pump: { as: clearance }, motor: { as: clearance } }
  ${more}
`;

const swept = (high: string): string => `runout face about S at 50 mm = 0.1${high} by dial`;
/** 0.1 over 100 mm, in degrees. */
const one = (Math.atan(0.001) * 180) / Math.PI;
const tilt = (pump: string, motor: string, more?: string) => {
  const { alignment } = plateFrom(text(pump, motor, more));
  if (alignment === null) throw new Error('no shafts');
  return alignment;
};

test.each([
  // The second face is seen the other way round and turned by 45° clockwise: its N lies at 1:30, its W at 4:30 as
  // drawn.
  ['one alone', swept(' high toward N'), '', one],
  ['both the same way as drawn', swept(' high toward 45 deg'), swept(' high toward N'), 2 * one],
  ['against each other', swept(' high toward 225 deg'), swept(' high toward N'), 0],
  ['square to each other', swept(' high toward 45 deg'), swept(' high toward W'), Math.SQRT2 * one],
])('as drawn: %s', (_, pump, motor, want) => {
  expect((tilt(pump, motor).tilt.nominal * 180) / Math.PI).toBeCloseTo(want, 6);
});

test('at the worst the dial’s ±, and what a direction’s ± makes, lie on top; so does one of no direction', () => {
  const worst = (high: string): number => tilt(swept(high), '', 'parallel: ± 0.01 mm').tilt.worst ?? NaN;
  const none = tilt('', '', 'parallel: ± 0.01 mm').tilt.worst ?? NaN;
  expect(worst('') - none).toBeCloseTo(Math.atan(0.001) + Math.atan(0.006 / 100), 9);
  const turned = Math.atan(0.001) * ((10 * Math.PI) / 180);
  expect(worst(' high toward N ± 10 deg') - none).toBeCloseTo(
    Math.atan(0.001) + Math.hypot(Math.atan(0.006 / 100), turned),
    9,
  );
});

test('more than the coupling takes fails, though nothing is said of how parallel the plate is', () => {
  const bears = (degrees: number) => tilt(swept(' high toward N'), '', `alignment: { tilt: ${degrees} deg }`).tilt.ok;
  expect(bears(0.04)).toBe(false);
  expect(bears(0.06)).toBeNull();
});

test('arrows add, and what has none is open', () => {
  const lean = { face: 'pump', by: 0.001, plusMinus: 0.0001 };
  const t = tiltOf([
    { ...lean, toward: { x: 0.001, y: 0 } },
    { ...lean, toward: { x: 0, y: 0.001 } },
    { ...lean, toward: null },
  ]);
  expect(t.known).toBeCloseTo(0.001 * Math.SQRT2, 12);
  expect(t.open).toBe(0.001);
  expect(t.worst).toBeCloseTo(0.0003, 12);
});
