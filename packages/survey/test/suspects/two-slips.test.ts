import { randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { adjust } from '../../src/adjust/adjust.js';
import { systemOf } from '../../src/adjust/system.js';
import { locateFace } from '../../src/index.js';
import { networkOf } from '../../src/network/network.js';
import { startAt } from '../../src/start/start.js';
import { fewestLeftOut, truncated } from '../../src/start/truncated.js';
import { namedIn, plannedFace, takenFace } from '../studies/explaining.js';

/** A face as the starter plans it, of its readings two that others check wrong by a millimetre or so. */
const twoWrong = (seed: number) => {
  const random = randomFrom(seed);
  const planned = plannedFace(random);
  const clean = networkOf(takenFace(planned, randomFrom(seed + 1), new Map()));
  const { redundancy } = adjust(clean, startAt(clean, planned.places).values);
  const able = clean.observations.filter((o, i) => o.reading !== null && (redundancy[i] ?? 0) > 0.1);
  const slips = new Map<string, number>();
  for (const o of random.below(2) === 0 ? able : able.toReversed()) {
    if (slips.size < 2 && random.uniform() < 3 / able.length)
      slips.set(o.id, (0.9 + 1.2 * random.uniform()) * (random.below(2) === 0 ? 1 : -1));
  }
  return { planned, taken: takenFace(planned, random, slips), wrong: [...slips.keys()] };
};

/** Those of 36 faces on which two readings came out wrong. */
const jobs = Array.from({ length: 36 }, (_, k) => twoWrong(880_001 + 7919 * k)).filter((j) => j.wrong.length === 2);

describe('two slips among readings of which few check each other', () => {
  test('are left out by weighing every pair, where narrowing the loss leaves out sound ones', () => {
    let [stepwise, paired] = [0, 0];
    for (const { planned, taken, wrong } of jobs) {
      const network = networkOf(taken);
      const system = systemOf(network);
      const found = truncated(system, startAt(network, planned.places).values);
      const better = fewestLeftOut(system, found);
      expect(better.cost).toBeLessThanOrEqual(found.cost);
      const areLeft = (active: readonly boolean[]): boolean =>
        network.observations.every((o, i) => active[i] !== wrong.includes(o.id));
      if (areLeft(found.active)) stepwise++;
      if (areLeft(better.active)) paired++;
    }
    expect(jobs.length).toBeGreaterThan(20);
    expect(paired).toBeGreaterThanOrEqual(0.75 * jobs.length);
    expect(paired).toBeGreaterThan(stepwise);
  });

  test('are named, and no list is of sound readings alone but where one alone explains all', () => {
    let [named, misled] = [0, 0];
    for (const { taken, wrong } of jobs.slice(0, 12)) {
      const located = locateFace(taken, { next: false });
      const { all } = namedIn(located);
      if (wrong.every((id) => all.includes(id))) named++;
      if (wrong.every((id) => !all.includes(id)) && located.explanations.some((e) => e.readings.length > 1)) misled++;
    }
    expect(named).toBeGreaterThanOrEqual(10);
    expect(misled).toBe(0);
  });
});
