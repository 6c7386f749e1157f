import { expect, test } from 'vitest';
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
    `job: a shaft\nunits: mm\nfaces:\n  motor:\n    centre: S\n    shaft: ${shaft}\n    features:\n      S: { kind: spigot, diameter: 80 }\n      T: { kind: boss, diameter: 24 }\n`;
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
