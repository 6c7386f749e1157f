import { expect, test } from 'vitest';
import { readJob } from '../../src/index.js';
import { faultsOf, jobOf } from '../support.js';

const job = (alike: string, readings: readonly string[], own = ''): string =>
  `job: x\nunits: mm\ninstruments: { caliper: ± 0.04 }\nfaces:\n  a:\n    alike: ${alike}\n    features: ` +
  `{ P1: { kind: hole }, P2: { kind: hole }, P3: { kind: hole }, P4: { kind: hole${own} }, E: { kind: edge } }\n` +
  `    readings:\n${readings.map((r) => `      - ${r} by caliper\n`).join('')}`;

const diameters = (text: string) => (jobOf(text).faces[0]?.features ?? []).map((f) => f.diameter);
const warned = (text: string) => {
  const read = readJob(text);
  return read.ok ? read.warnings.map((w) => `${w.code}: ${w.expected}`) : [];
};

const read = ['dia P1 = 10.02', 'dia P2 = 10.06', 'dia P3 = 10.04', 'between P3 P4 = 50'];

test('what is not read has the median of those that are, and a ± that counts both', () => {
  const [one, , , four] = diameters(job('[P1, P2, P3, P4]', read));
  // Read with `dia`, it is an observation of its own.
  expect(one).toBeNull();
  expect(four?.value).toBeCloseTo(10.04, 9);
  // Each differs by 0.05; the median of three by √(π/2) of 0.05/√3 and the caliper's 0.04/√3, counted √2 times.
  const middle = Math.sqrt(Math.PI / 2) * Math.hypot(0.05 / Math.sqrt(3), 0.04 / Math.sqrt(3));
  expect(four?.plusMinus).toBeCloseTo(Math.hypot(0.05, Math.SQRT2 * middle), 9);
});

test('of three read one slip does not move it', () => {
  const slipped = ['dia P1 = 10.02', 'dia P2 = 11.06', 'dia P3 = 10.04', 'between P3 P4 = 50'];
  expect(diameters(job('[P1, P2, P3, P4]', slipped))[3]?.value).toBeCloseTo(10.04, 9);
});

test('a stated diameter counts, and stays; one alone is enough to know the others', () => {
  const [, , , four] = diameters(job('P1 P4', ['between P1 P4 = 50'], ', diameter: 9.5 ± 0.02'));
  expect(four).toEqual({ value: 9.5, plusMinus: 0.02 });
  expect(diameters(job('P1 P4', ['between P1 P4 = 50'], ', diameter: 9.5 ± 0.02'))[0]?.value).toBe(9.5);
});

test('the limits of a thread give way to what was read', () => {
  const text = job('[P1, P4]', ['dia P1 = 10.2', 'between P1 P4 = 50'], ', thread: M12');
  expect(diameters(text)[3]?.value).toBe(10.2);
});

test('what is plainly of another size is warned of', () => {
  expect(warned(job('[P1, P2, P3, P4]', read))).toEqual([]);
  expect(warned(job('[P1, P2, P3, P4]', ['dia P1 = 10.02', 'dia P2 = 10.6', 'between P3 P4 = 50'])).join()).toMatch(
    /^not-alike: features of one size: P1 is 10\.02\d* mm and P2 10\.6\d* mm/,
  );
});

test.each([
  ['[P1, P9]', /P1, P2, P3, P4/],
  ['[P1]', /two different features or more/],
  ['[P1, P1]', /two different features or more/],
])('%s is refused', (alike, expected) =>
  expect(faultsOf(readJob(job(alike, read))).map((f) => f.expected)).toContainEqual(expect.stringMatching(expected)),
);

test('a group of which nothing is read still asks for a diameter', () =>
  expect(faultsOf(readJob(job('[P3, P4]', ['between P3 P4 = 50']))).map((f) => f.code)).toContain('no-diameter'));
