import { randomFrom } from '@fayplate/core';
import type { Reading, ReadingKind } from '@fayplate/job';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { locateJson } from '../src/index.js';
import type { LocatedFace, Survey } from '../src/index.js';
import { simulate } from './simulate.js';
import { feature, locateFrom, reading, survey } from './support.js';

const arity: Readonly<Partial<Record<ReadingKind, number>>> = {
  centres: 2,
  over: 2,
  between: 2,
  step: 2,
  wall: 2,
  dia: 1,
  angle: 3,
  offset: 3,
  at: 1,
  touch: 1,
};

/**
 * Any face that a person could write: a few features, some sized, some not, any number of readings between any of them,
 * lengths times `scale`.
 */
const anyJob = (seed: number, scale: number): { readonly survey: Survey; readonly start: Float64Array } => {
  const random = randomFrom(seed);
  const ids = [...'ABCDEFGH'].slice(0, 2 + random.below(7));
  const spot = (): number => 200 * scale * (random.uniform() - 0.5);
  const truth = new Map(ids.map((id) => [id, { x: spot(), y: spot(), r: scale * (2 + 5 * random.uniform()) }]));
  const features = ids.map((id) => {
    const r = truth.get(id)?.r ?? 0;
    const diameters = [null, { value: 2 * r, plusMinus: null }, { value: 2 * r, plusMinus: 0.05 * scale }];
    return feature(id, { diameter: diameters[random.below(3)] ?? null });
  });
  const kinds = Object.keys(arity) as ReadingKind[];
  const readings: Reading[] = [];
  for (let k = random.below(4 * ids.length); k > 0; k--) {
    const kind = kinds[random.below(random.uniform() < 0.6 ? 4 : kinds.length)] ?? 'centres';
    const pool = [...ids];
    const names = Array.from(
      { length: Math.min(arity[kind] ?? 1, pool.length) },
      () => pool.splice(random.below(pool.length), 1)[0] ?? '',
    );
    if (names.length < (arity[kind] ?? 1)) continue;
    const c = truth.get(names[0] ?? '') ?? { x: 0, y: 0, r: 0 };
    const way = 2 * Math.PI * random.uniform();
    const rim: readonly [number, number] = [c.x + c.r * Math.cos(way), c.y + c.r * Math.sin(way)];
    readings.push(
      reading(
        `${kind} ${names.join(' ')}`,
        kind === 'touch' || kind === 'at' ? rim : 0,
        kind === 'angle' ? 0.5 : 0.1 * scale,
      ),
    );
  }
  const [a = '', b = ''] = ids;
  const frames = [{ centre: a, up: b }, { centre: a }, { up: b }, { across: [a, b] as const }, {}];
  return simulate(survey(features, readings, frames[random.below(5)] ?? {}), truth, random);
};

/** What must hold of every answer, whatever the job; the list of what does not. */
const wrongWith = (f: LocatedFace): readonly string[] => {
  const wrong: string[] = [];
  if (/NaN|Infinity/.test(JSON.stringify(locateJson([f])))) wrong.push('a number that is none');
  if (f.fit.dof < 0) wrong.push('fewer degrees of freedom than none');
  if (Math.abs(f.fit.sumRedundancy - f.fit.dof) > 1e-5) wrong.push('redundancy numbers that do not add up');
  if (f.readings.some((r) => r.redundancy < 0 || r.redundancy > 1 + 1e-9))
    wrong.push('a redundancy number outside 0..1');
  if (f.readings.some((r) => (r.standardized === null) !== (r.redundancy === 0)))
    wrong.push('a w where nothing checks, or none where something does');
  for (const { id, covariance } of f.features.values()) {
    const [[xx, xy], [yx, yy]] = covariance;
    if (xx < 0 || yy < 0 || xy !== yx || xx * yy - xy * xy < -1e-9 * Math.max(xx, yy) ** 2)
      wrong.push(`a covariance of ${id} that is none`);
  }
  if (f.undetermined.some((id) => f.features.has(id))) wrong.push('a place for a feature that is not fixed');
  if (f.undetermined.length > 0 && f.freedoms.length === 0) wrong.push('no word on what is loose');
  return wrong;
};

describe('every answer is sound', () => {
  test.each([1e-3, 1, 1e4])('over random faces, at a scale of %d', (scale) => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), (seed) => {
        const { survey: job, start } = anyJob(seed, scale);
        const f = locateFrom(job, start);
        expect(f.stopped.converged).toBe(true);
        expect(wrongWith(f)).toEqual([]);
      }),
      { seed: 555, numRuns: 60 },
    );
  });

  test('what is fixed does not hang on the scale', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), (seed) => {
        const [small, large] = [1e-3, 1e4].map((k) => {
          const { survey: job, start } = anyJob(seed, k);
          return locateFrom(job, start);
        });
        expect(small?.undetermined).toEqual(large?.undetermined);
        expect(small?.fit.dof).toBe(large?.fit.dof);
      }),
      { seed: 556, numRuns: 40 },
    );
  });

  test('the list of wrongs is not blind', () => {
    const { survey: job, start } = anyJob(12, 1);
    const f = locateFrom(job, start);
    expect(wrongWith({ ...f, fit: { ...f.fit, dof: -1 } })).toHaveLength(2);
    expect(wrongWith({ ...f, undetermined: [...f.features.keys()].slice(0, 1), freedoms: [] })).toHaveLength(2);
  });
});
