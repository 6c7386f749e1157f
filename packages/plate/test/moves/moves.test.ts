import { readJob } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { moveOf, movesOn } from '../../src/moves/moves.js';
import { movesReport, movesRequirements } from '../../src/moves/report.js';
import { mate } from '../../src/mate/mate.js';
import { plateFrom, usedIn } from '../support/from-text.js';

/** A pump face and a motor that hangs on it; nothing else about them matters here. */
const text = ({
  pump = '',
  motor = '',
  moves = '',
  viewed = 'from outside',
  clocking = 0,
  thickness = 20,
  old = '',
}) => `
job: moving
units: mm
instruments: { readout: ± 0.02 }
faces:
${[
  ['pump', 60, pump, ''],
  ['motor', 85, motor, `\n    viewed: ${viewed}`],
]
  .map(
    ([name, r, places, more]) => `  ${name}:${more}
    centre: S
    up: N
    features:
      S: { kind: bore, diameter: 40 ± 0.01, deep: 8 }
      N: { kind: hole, diameter: 9 }
      E: { kind: hole, diameter: 9 }
    readings:
      - at S = (0, 0) by readout
      - at N = (0, ${r}) by readout
      - at E = (${r}, 0) by readout${places === '' ? '' : `\n    places: ${places}`}`,
  )
  .join('\n')}
plate:
  between: [pump, motor]
  thickness: ${thickness} mm
  clocking: ${clocking} deg
  bore: { diameter: 30 }
  locate: { pump: { register: 40.0, fit: h6 }, motor: { register: 40.0, fit: h6 } }
  fasten: { pump: { as: clearance }, motor: { as: tapped, thread: M8 } }
${old}
${moves}
`;

const movesIn = (options: Parameters<typeof text>[0]) => {
  const source = text(options);
  const read = readJob(source);
  if (!read.ok) throw new Error(read.faults.map((f) => `${f.line}: ${f.expected}`).join('\n'));
  const found = movesOn(read.job, plateFrom(source), mate(read.job, usedIn(read.job)), 0);
  if (found === null) throw new Error('no places');
  return found;
};

const place = (options: Parameters<typeof text>[0]) => {
  const [p] = movesIn(options).places;
  if (p === undefined) throw new Error('no place');
  return p;
};

const mm = { unit: 'mm', fraction: null } as const;

describe('where a place comes to lie, worked by hand', () => {
  test('along the shaft: plate and depth behind the face, old and new', () => {
    const p = place({
      motor: '{ end: { behind: 412 ± 0.3, old: { behind: 380 ± 0.4 } } }',
      old: 'old: { thickness: 18 ± 0.1, shims: 0.5 ± 0.05 }',
    });
    expect([p.is.z, p.was?.z]).toEqual([432, 398.5]);
    expect(moveOf(p)?.z).toBeCloseTo(33.5, 9);
    expect(moveOf(p)?.within.z).toBeCloseTo(Math.hypot(0.3, 0.4, 0.1, 0.05), 9);
  });

  test.each([
    // A face is looked at; the plate is drawn toward the first, so that x of the second turns round, unless it was
    // viewed through.
    ['from outside', 0, [-30, 40]],
    ['from behind', 0, [30, 40]],
    // A quarter clockwise takes up to the right.
    ['from outside', 90, [40, 30]],
    ['from behind', 90, [40, -30]],
  ] as const)('across it: %s, turned %d°', (viewed, clocking, [x, y]) => {
    const p = place({
      motor: '{ lug: { x: 30, y: 40, behind: 10, each: ± 0.1, old: { x: 30, y: 40, behind: 10 } } }',
      viewed,
      clocking,
    });
    expect([p.is.x, p.is.y]).toEqual([expect.closeTo(x, 6), expect.closeTo(y, 6)]);
    // The old part stood with its 12 o'clock at the first part's.
    expect([p.was?.x, p.was?.y]).toEqual([viewed === 'from behind' ? 30 : -30, 40]);
  });

  test('what is on the first part stays, ahead of it or behind', () => {
    const [a, b] = movesIn({ pump: '{ axle: { ahead: 900, each: ± 1 }, sump: { behind: 70, each: ± 1 } }' }).places;
    expect([a?.is.z, b?.is.z]).toEqual([900, -70]);
    expect(moveOf(a!)).toMatchObject({ x: 0, y: 0, z: 0, within: { x: 0, y: 0, z: 0 } });
  });
});

describe('lengths from place to place', () => {
  const pump = '{ axle: { y: -30, ahead: 472, each: ± 0.4 } }';
  const motor = '{ end: { behind: 412 ± 0.3, old: { behind: 380 ± 0.3 } } }';
  const span = (limits: string) =>
    movesIn({ pump, motor, moves: `moves: { drive shaft: { between: [end, axle]${limits} } }` });

  test('3-4-5: 40 along and 30 across is 50; by how much to shorten, with its ±', () => {
    const found = span('');
    const [s] = found.spans;
    expect(s?.is.value).toBeCloseTo(50, 6);
    // Along the line: 0.8 of what lies along the shaft and 0.6 of what lies across.
    const off = plateFrom(text({})).alignment?.offset.p95 ?? 0;
    expect(s?.is.plusMinus).toBeCloseTo(Math.hypot(0.8 * 0.3, 0.8 * 0.4, 0.6 * 0.4, 0.6 * off), 6);
    expect(s?.was?.value).toBeCloseTo(Math.hypot(92, 30), 6);
    const words = movesReport(found, mm).flatMap((b) => (b.kind === 'list' ? b.items : []));
    expect(words[0]).toMatch(/^drive shaft comes to 50\.00 ± 0\.4\d mm, from 96\.77 mm: shorten it by 46\.77 mm\.$/);
  });

  test.each([
    [', least: 45, most: 55', 'holds'],
    [', least: 60', 'fails'],
    [', most: 40', 'fails'],
    // 50 ± 0.45: the limit lies within the ±.
    [', least: 49.8', 'not known'],
  ])('%s: %s', (limits, state) => expect(movesRequirements(span(limits), mm).map((r) => r.state)).toEqual([state]));

  test('without limits nothing is required', () => expect(movesRequirements(span(''), mm)).toEqual([]));

  test('two places of one part keep their distance, and the plate adds nothing to its ±', () => {
    const [s] = movesIn({
      motor: '{ a: { behind: 100, each: ± 0.3 }, b: { behind: 140, each: ± 0.4 } }',
      moves: 'moves: { rod: { between: [a, b] } }',
    }).spans;
    expect(s?.is.value).toBeCloseTo(40, 9);
    expect(s?.is.plusMinus).toBeCloseTo(0.5, 6);
  });
});

describe('refused', () => {
  const faults = (options: Parameters<typeof text>[0]): readonly string[] => {
    const read = readJob(text(options));
    return read.ok ? [] : read.faults.map((f) => f.expected);
  };
  test.each([
    [{ motor: '{ end: { behind: 412 } }' }, /a ± behind it, or `each: ± 0.5 mm`/],
    [{ motor: '{ end: { x: 3, each: ± 1 } }' }, /`behind: LENGTH` as well/],
    [{ motor: '{ end: { behind: 4, ahead: 5, each: ± 1 } }' }, /`behind` or `ahead`, not both/],
    [{ motor: '{ end: { behind: 4, by: tape } }' }, /an instrument of the job: readout/],
    [
      { motor: '{ end: { behind: 4 ± 1 } }', moves: 'moves: { rod: { between: [end, axel] } }' },
      /a place of one of the two faces of the plate: end, motor\.end/,
    ],
    [{ motor: '{ end: { behind: 4 ± 1 } }', moves: 'moves: { rod: { between: [end] } }' }, /two places, such as/],
    [
      {
        motor: '{ a: { behind: 4 ± 1 }, b: { behind: 9 ± 1 } }',
        moves: 'moves: { rod: { between: [a, b], least: 9, most: 8 } }',
      },
      /not below `least`/,
    ],
  ])('%o', (options, expected) => expect(faults(options)).toEqual([expect.stringMatching(expected)]));
});
