import { formatClock, randomFrom } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { locateFace } from '@fayplate/survey';
import { expect, test } from 'vitest';
import { describePart, starterJob } from '../src/index.js';

const clocks = [0, 1, 2, 3, 4, 5].map((k) => Math.PI / 2 - (k * Math.PI) / 3);
const starter = starterJob({
  job: 'x',
  units: 'mm',
  caliper: '± 0.05 mm',
  parts: [
    describePart(`ring, bore, holes alike, ${clocks.map((c) => formatClock(c)).join(' ')}`),
    describePart('other, spigot, studs M8, 12 4 8'),
  ],
});

/** The starter's job with its readings of the ring taken on holes of one drill, each a little off its size. */
const taken = (seed: number): { readonly text: string; readonly truth: ReadonlyMap<string, readonly number[]> } => {
  const random = randomFrom(seed);
  const drill = 10 + 0.1 * random.normal();
  const truth = new Map<string, readonly [number, number, number]>(
    clocks.map((c, i) => [
      `R${i + 1}`,
      [
        60 * Math.cos(c) + 0.1 * random.normal(),
        60 * Math.sin(c) + 0.1 * random.normal(),
        (drill + 0.025 * random.normal()) / 2,
      ],
    ]),
  );
  truth.set('bore', [0, 0, 20]);
  const value = (kind: string, a: string, b: string): number => {
    const [p, q] = [truth.get(a) ?? [0, 0, 0], truth.get(b) ?? [0, 0, 0]];
    const [r, s] = [p[2] ?? 0, q[2] ?? 0];
    const d = Math.hypot((p[0] ?? 0) - (q[0] ?? 0), (p[1] ?? 0) - (q[1] ?? 0));
    return kind === 'dia' ? 2 * r : kind === 'over' ? d + r + s : d - r - s;
  };
  const text = starter.replaceAll(/# - (\w+) (\w+)(?: (\w+))? =/g, (line, kind: string, a: string, b?: string) =>
    truth.has(a) ? `- ${line.slice(4)} ${(value(kind, a, b ?? '') + 0.025 * random.normal()).toFixed(3)}` : line,
  );
  return { text, truth };
};

test('the starter asks for three diameters of six that are alike', () => {
  const [ring = ''] = starter.split('other:');
  expect([...ring.matchAll(/# - dia R\d/g)]).toHaveLength(3);
  expect(ring).toContain('alike: [R1, R2, R3, R4, R5, R6]');
});

test('with holes of one drill, each a little off, the ± holds the centres as often as it says', () => {
  let [inside, all, suspects] = [0, 0, 0];
  for (let seed = 8101; seed < 8161; seed++) {
    const { text, truth } = taken(seed);
    const read = readJob(text);
    const face = read.ok ? read.job.faces[0] : undefined;
    if (!read.ok || face === undefined) throw new Error('the filled starter does not read');
    const located = locateFace({ face, instruments: read.job.instruments }, { next: false });
    expect(located.undetermined).toEqual([]);
    suspects += located.suspects.length > 0 ? 1 : 0;
    // The face is turned to its first hole; distances from the bore do not depend on that.
    for (const [id, [x = 0, y = 0]] of truth) {
      const at = located.features.get(id);
      const { covariance } = at ?? {};
      if (id === 'bore' || at === undefined || covariance === undefined) continue;
      const d = Math.hypot(at.x, at.y);
      const [ux, uy] = [at.x / d, at.y / d];
      const [[xx = 0, xy = 0] = [], [, yy = 0] = []] = covariance as readonly (readonly number[])[];
      const sigma = Math.sqrt(ux * ux * xx + 2 * ux * uy * xy + uy * uy * yy);
      all++;
      if (Math.abs(d - Math.hypot(x, y)) <= 1.96 * sigma) inside++;
    }
  }
  // 360 centres: 95 in 100, give or take three standard deviations.
  expect(inside / all).toBeGreaterThan(0.95 - 3 * Math.sqrt((0.95 * 0.05) / all));
  expect(inside / all).toBeLessThanOrEqual(1);
  expect(suspects).toBeLessThan(6);
});
