import { type Point, formatClock, randomFrom } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { type Candidate, layoutFace } from '../src/index.js';
import { onDivisions } from './support/scenes.js';

const random = randomFrom(41);
const holes = onDivisions(160, 8, [0, 1, 2, 4, 5, 7]).map((p, i) => [`P${i + 1}`, p] as const);
const spigot = ['s', { x: 0, y: 0 }] as const;
const between = (places: readonly (readonly [string, Point])[]): readonly string[] =>
  places.flatMap(([a, p], i) =>
    places
      .slice(i + 1)
      .map(
        ([b, q]) =>
          `      - centres ${a} ${b} = ${(Math.hypot(p.x - q.x, p.y - q.y) + 0.02 * random.normal()).toFixed(7)}`,
      ),
  );
const withSpigot = between([spigot, ...holes]);
const without = between(holes);

const solved = (frame: readonly string[], readings: readonly string[], centre: boolean): Candidate => {
  const text = [
    'job: frames',
    'units: mm',
    'faces:',
    '  a:',
    ...frame.map((f) => `    ${f}`),
    '    features:',
    ...(centre ? ['      s: { kind: spigot, diameter: 100 }'] : []),
    ...holes.map(
      ([id, p]) => `      ${id}: { kind: stud, diameter: 8, clock: "${formatClock(Math.atan2(p.y, p.x))}" }`,
    ),
    '    readings:',
    ...readings.map((r) => `${r} ± 0.04 mm`),
  ].join('\n');
  const read = readJob(text);
  if (!read.ok) throw new Error(JSON.stringify(read));
  const [face] = read.job.faces;
  if (face === undefined) throw new Error('no face');
  const layout = layoutFace(face, locateFace({ face, instruments: read.job.instruments }, { next: false }));
  const c = layout.candidates[layout.chosen ?? -1];
  if (c === undefined)
    throw new Error(`nothing chosen: ${layout.candidates[0]?.says ?? ''} ${layout.candidates[0]?.odds ?? 0}`);
  return c;
};

const frames = [
  ['a centre and what is up', ['centre: s', 'up: P1'], true],
  ['a centre and a line across', ['centre: s', 'across: [P6, P3]'], true],
  ['a centre and the clocks', ['centre: s'], true],
  ['a line across, no centre', ['across: [P6, P3]'], false],
  ['what is up, no centre', ['up: P2'], false],
  ['the clocks, no centre', [], false],
  // The places filled are uneven, so that the mean of their centres is not the centre of their circle.
  ['the centre of a circle and what is up', ['centre: { circle: [P1, P2, P3, P4, P6] }', 'up: P1'], false],
  ['the centre of a circle and the clocks', ['centre: { circle: [P2, P4, P5] }'], false],
] as const;

describe('whatever frame a face asks for', () => {
  const answers = frames.map(([name, frame, centre]) => ({
    name,
    centre,
    c: solved(frame, centre ? withSpigot : without, centre),
  }));

  test.each(answers)('$name: six of eight divisions of 160 mm', ({ c, centre }) => {
    expect(c.circles.map((k) => [k.divisions, k.size, k.about, k.features.length])).toEqual([
      [8, '160 mm', centre ? 's' : null, 6],
    ]);
  });

  test.each(answers)('$name: the fit is the same as in the others', ({ c, centre }) => {
    const [first] = answers.filter((a) => a.centre === centre);
    expect(c.dof).toBe(first?.c.dof);
    expect(c.chi2).toBeCloseTo(first?.c.chi2 ?? Number.NaN, 2);
    expect(c.odds).toBeCloseTo(first?.c.odds ?? Number.NaN, 3);
  });

  test.each(answers)(
    '$name: intended centres stand in the frame of the measured ones, a fraction of a millimetre off',
    ({ c }) => {
      for (const f of c.features.values()) expect(f.shift).toBeLessThan(0.1);
    },
  );

  test.each(answers)('$name: nothing in it is free, so the frame leaves nothing uncertain', ({ c }) => {
    expect(Math.max(...c.pattern.covariance.flat().map(Math.abs))).toBeLessThan(1e-8);
  });

  test.each(answers)('$name: places and phase tell the positions', ({ c }) => {
    const [k] = c.circles;
    for (const [i, id] of (k?.features ?? []).entries()) {
      const turn = (k?.clockwisePhase ?? 0) + (2 * Math.PI * (k?.occupied[i] ?? 0)) / 8;
      expect(c.features.get(id)?.x).toBeCloseTo((k?.centre.x ?? 0) + 80 * Math.sin(turn), 6);
      expect(c.features.get(id)?.y).toBeCloseTo((k?.centre.y ?? 0) + 80 * Math.cos(turn), 6);
    }
  });
});
