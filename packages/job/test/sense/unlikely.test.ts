import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/index.js';
import { shop, unmarked } from '../support.js';

const warnings = (text: string) => {
  const read = readJob(text);
  return read.ok ? read.warnings : [];
};

/** Where the warnings in these words stand, against the mark «. */
const warned = (marked: string, expected: RegExp): readonly string[] => {
  const { text, line, column } = unmarked(marked);
  return warnings(text)
    .filter((w) => expected.test(w.expected))
    .map((w) => (w.line === line && w.column === column ? 'at the mark' : `line ${w.line}, column ${w.column}`));
};

const stud = (written: string): string => shop([]).replace('      A:', `      X: ${written}\n      A:`);
const taken = (by: string, values: readonly string[]): readonly string[] =>
  values.map((v) => `over A B = ${v} by ${by}`);

describe('a stud thicker than its thread', () => {
  test('is warned of', () =>
    expect(
      warned(stud('{ kind: stud, thread: M8, diameter: «8.3 ± 0.1 }'), /no thicker than its thread: M8 is 8.000 mm/),
    ).toEqual(['at the mark']));
  test.each(['8 ± 0.02', '8.05 ± 0.1', '7.8'])('not at %s', (d) =>
    expect(warnings(stud(`{ kind: stud, thread: M8, diameter: ${d} }`)).some((w) => /thicker/.test(w.expected))).toBe(
      false,
    ),
  );
});

describe('a flange typed in the other unit', () => {
  const job = (units: string, flange: string): string =>
    `job: fan\nunits: ${units}\nfaces:\n  wall:\n    flange: ${flange}\n    features:\n      A: { kind: hole, ` +
    `diameter: 9 mm }\n`;
  const said = (units: string, flange: string): readonly string[] =>
    warnings(job(units, flange)).flatMap((w) => (w.code === 'unlikely-flange' ? [w.expected] : []));
  test('is warned of', () => {
    expect(said('mm', '0.43').join()).toMatch(/0\.43 in\?$/);
    expect(said('in', '11').join()).toMatch(/11 mm\?$/);
  });
  test.each([
    ['mm', '1.5'],
    ['mm', '0.43 in'],
    ['in', '7/16'],
    ['in', '11 mm'],
    ['in', '2 1/2'],
  ])('not in %s at %s', (units, flange) => expect(said(units, flange)).toEqual([]));
});

describe('one clock twice', () => {
  test('is warned of', () =>
    expect(
      warned(
        shop([])
          .replace('A: { kind: stud,', 'A: { kind: stud, clock: 2,')
          .replace('C: { kind: stud,', 'C: { kind: stud, clock: «"2:00",'),
        /another clock than that of A/,
      ),
    ).toEqual(['at the mark']));
  test('not for another kind, nor for the centre', () => {
    const text = shop([])
      .replace('A: { kind: stud,', 'A: { kind: stud, clock: 2,')
      .replace('S: { kind: spigot,', 'S: { kind: spigot, clock: 2,');
    expect(warnings(text).some((w) => /clock/.test(w.expected))).toBe(false);
  });
});

describe('a feature that is up, and seen elsewhere', () => {
  const face = (clock: string): string =>
    shop([])
      .replace('A: { kind: stud,', `A: { kind: stud, clock: ${clock},`)
      .replace('  pump:\n', '  pump:\n    up: «A\n');
  test('is warned of', () =>
    expect(warned(face('"1:30"'), /whose clock says 1:30, is put straight up/)).toEqual(['at the mark']));
  test.each(['12', '"11:10"', '"12:55"'])('not at %s', (clock) =>
    expect(warned(face(clock), /straight up/)).toEqual([]),
  );
});

describe('an instrument that nothing was read with', () => {
  test('is warned of', () =>
    expect(
      warned(
        shop(['over A B = 3 by rule', 'over A B = 3 by caliper']).replace('  protractor', '  «protractor'),
        /some reading by protractor/,
      ),
    ).toEqual(['at the mark']));
});

describe('a ± finer than the instrument is read to', () => {
  const values = ['40.1', '40.2', '41.3', '42.4', '43.5', '44'];
  test('of the instrument', () =>
    expect(
      warned(shop(taken('rule', values)).replace('rule: ± 0.5 mm', 'rule: «± 0.02 mm'), /half of what rule is read to/),
    ).toEqual(['at the mark']));
  test('of one reading', () =>
    expect(
      warned(shop([...taken('rule', values), '«over C D = 40.1 ± 0.01 by rule']), /half of what rule is read to/),
    ).toEqual(['at the mark']));
  test('fractions of an inch: half of a sixteenth may be claimed, not less', () => {
    const sixteenths = ['4 1/16 in', '4 1/8 in', '4 3/16 in', '5 in', '5 1/2 in', '6 5/16 in'];
    const tooFine = (each: string) =>
      warnings(shop(taken('rule', sixteenths)).replace('rule: ± 0.5 mm', `rule: ± ${each}`)).some((w) =>
        /read to/.test(w.expected),
      );
    expect([tooFine('1/32 in'), tooFine('1/64 in')]).toEqual([false, true]);
  });
  test('angles', () => {
    const lines = ['60', '61', '62', '63', '64', '65'].map((v) => `angle A B C = ${v} by protractor`);
    expect(
      warnings(shop(lines).replace('protractor: ± 0.5 deg', 'protractor: ± 0.4 deg')).some((w) =>
        /read to/.test(w.expected),
      ),
    ).toBe(true);
    expect(warnings(shop(lines)).some((w) => /read to/.test(w.expected))).toBe(false);
  });
  test('a few round readings prove nothing', () =>
    expect(
      warnings(shop(taken('caliper', ['40', '41'])).replace('± 0.002 in', '± 0.02 mm')).some((w) =>
        /read to/.test(w.expected),
      ),
    ).toBe(false));
});

test('a place with one unit for two numbers', () =>
  expect(warned(shop(['at A = «(1.5, 30 mm) ± 1 mm']), /a unit on both numbers or on neither/)).toEqual([
    'at the mark',
  ]));
test('a material that the handbook has not', () => {
  const of = (material: string) =>
    `${shop([]).replace('  pump:', '  motor: { }\n  pump:')}plate: { between: [pump, motor], thickness: 3, ` +
    `material: ${material} }\n`;
  expect(warned(of('«aluminum foam'), /a material of the handbook/)).toEqual(['at the mark']);
  expect(warned(of('aluminium'), /a material of the handbook/)).toEqual([]);
});
test('a thickness from a stack that is not there', () =>
  expect(
    warned(
      `${shop([]).replace('  pump:', '  motor: { }\n  pump:')}plate: ` +
        `{ between: [pump, motor], thickness: «from stack }\n`,
      /a `stack` section/,
    ),
  ).toEqual(['at the mark']));
test('a sound job has none', () =>
  expect(warnings(shop(['over A B = 3 by rule', 'over A B = 3 by caliper', 'angle A B C = 3 by protractor']))).toEqual(
    [],
  ));

describe('a caliper of half a millimetre and more', () => {
  const text = (plusMinus: string): string =>
    shop(['over A B = 1.6 by caliper'], 'in').replace('caliper: ± 0.002 in', `caliper: «${plusMinus}`);
  test('is warned of: 0.05 was meant in mm', () =>
    expect(warned(text('± 0.05'), /in its own unit/)).toEqual(['at the mark']));
  test.each(['± 0.002', '± 0.05 mm', '± 0.015 in'])('not %s', (v) =>
    expect(warned(text(v), /in its own unit/)).toEqual([]),
  );
});

describe('a ± and its value', () => {
  const warnings = (text: string): readonly string[] => {
    const read = readJob(text);
    return read.ok
      ? read.warnings.filter((w) => /plus-minus/.test(w.code)).map((w) => `${w.code} ${w.found}`)
      : ['refused'];
  };
  test.each([
    ['over A B = 3.5 ± 2 thou by rule', 'in', ['plus-minus-unit 3.5']],
    ['over A B = 61.2 ± 0.2 mm by rule', 'in', []],
    ['over A B = 3.5 ± 4 by rule', 'in', ['wide-plus-minus 3.5']],
    ['offset A B-C = 0.05 ± 0.2 by rule', 'mm', []],
    ['angle A B C = 30 ± 0.1 rad by protractor', 'mm', ['plus-minus-unit 30']],
    ['angle A B C = 1 rad ± ½ by protractor', 'mm', []],
  ] as const)('%s in a job in %s', (line, units, expected) => expect(warnings(shop([line], units))).toEqual(expected));

  test('in a section', () => {
    expect(warnings(shop(['over A B = 3.5 by rule']).replace('60 mm ± 0.02 mm', '60 ± 61'))).toEqual([
      'wide-plus-minus 60 ± 61',
    ]);
    expect(warnings(shop(['over A B = 3.5 by rule']).replace('60 mm ± 0.02 mm', '60 ± 20 microns'))).toEqual([
      'plus-minus-unit 60 ± 20 microns',
    ]);
  });
});
