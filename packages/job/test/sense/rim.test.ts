import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/index.js';

const withRim = (...points: readonly string[]): string =>
  ['job: a rim', 'units: mm', 'faces:', '  pump:', '    rim:', ...points.map((p) => `      - ${p}`), ''].join('\n');

test('a rim in order is taken as it stands', () => {
  const read = readJob(withRim('(0, 0)', '(40, 0)', '(40, 30)', '(0, 30)'));
  expect(read.ok && read.job.faces[0]?.rim).toHaveLength(4);
});

test('a rim that crosses itself is a fault at the line of the point where it does', () => {
  const read = readJob(withRim('(0, 0)', '(40, 30)', '(40, 0)', '(0, 30)'));
  expect(read.ok).toBe(false);
  if (read.ok) return;
  expect(read.faults).toHaveLength(1);
  expect(read.faults[0]).toMatchObject({ code: 'crossed-rim', line: 8, path: 'faces.pump.rim.2' });
  expect(read.faults[0]?.expected).toContain('crosses the line from point 1 to point 2');
});

test('a shaft may name its feature, or say what must pass the plate', () => {
  const job = (shaft: string): string =>
    `job: a shaft\nunits: mm\nfaces:\n  motor:\n    centre: S\n    shaft: ${shaft}\n    features:\n      S: { ` +
    `kind: spigot, diameter: 80 }\n      T: { kind: boss, diameter: 24 }\n`;
  const faceOf = (shaft: string) => {
    const read = readJob(job(shaft));
    if (!read.ok) throw new Error(read.faults.map((f) => f.expected).join('\n'));
    return read.job.faces[0];
  };
  expect(faceOf('T')).toMatchObject({ shaft: 'T', shaftSizes: null });
  expect(faceOf('{ at: T, diameter: 24, over key: 27 mm }')).toMatchObject({
    shaft: 'T',
    shaftSizes: { diameter: 24, overKey: 27, coupling: null, nut: null },
  });
  expect(faceOf('{ diameter: 24 }')).toMatchObject({ shaft: 'S', shaftSizes: { diameter: 24 } });
  const wrong = readJob(job('{ at: U }'));
  expect(!wrong.ok && wrong.faults[0]).toMatchObject({ code: 'unknown-name', found: 'U' });
});

describe('stretches of a rim', () => {
  const rim = (words: string) =>
    readJob(
      `job: x\nunits: mm\nfaces:\n  f:\n    features: { A: { kind: hole, diameter: 8 } }\n    rim: ["${words}"]\n`,
    );
  test.each([
    [
      'arc (1, 2) (3, 4 in) (5, 6)',
      {
        along: 'arc',
        points: [
          { x: 1, y: 2 },
          { x: 3, y: 101.6 },
          { x: 5, y: 6 },
        ],
      },
    ],
    [
      'Line (1, 2)(3, 4)',
      {
        along: 'line',
        points: [
          { x: 1, y: 2 },
          { x: 3, y: 4 },
        ],
      },
    ],
    ['round A 1/2 in', { round: 'A', radius: 12.7 }],
    ['round A 2 in across', { round: 'A', radius: 25.4 }],
    ['round A 236 across', { round: 'A', radius: 118 }],
  ])('%s', (words, piece) => {
    const read = rim(words);
    expect(read.ok && read.job.faces[0]?.rim).toEqual([piece]);
  });
  test.each([
    ['arc (1, 2) (3, 4)', /at least three places/],
    ['line (1, 2)', /at least two places/],
    ['round B 5', /a feature of this face: A/],
    ['round A 0', /a radius above zero/],
    ['round A 0 across', /a diameter above zero/],
    ['arc (1, 2) (3, 4) 5, 6', /places in brackets/],
    ['bend (1, 2)', /round S1 14 mm/],
  ])('%s is refused', (words, expected) => {
    const read = rim(words);
    expect(read.ok ? [] : read.faults.map((f) => f.expected)).toEqual([expect.stringMatching(expected)]);
  });
});
