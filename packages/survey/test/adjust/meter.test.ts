import { randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { isSpent, systemOf, within } from '../../src/adjust/system.js';
import { answer } from '../../src/locate.js';
import { networkOf } from '../../src/network/network.js';
import { settle } from '../../src/settle.js';
import { startPositions } from '../../src/start/start.js';
import { doubtOf } from '../../src/suspects/doubt.js';
import { gridShop, ringShop } from '../shops.js';
import { simulate } from '../simulate.js';

const shopOf = (holes: number, seed: number, slip = 0) => {
  const random = randomFrom(seed);
  const shop = gridShop(holes, random);
  const { survey, start } = simulate(shop.template, shop.truth, random);
  const readings = survey.face.readings.map((r, i) => (i === 7 ? { ...r, value: r.value + slip } : r));
  return { job: { ...survey, face: { ...survey.face, readings } }, start, wrong: readings[7]?.id ?? '' };
};

/** The centres, and nothing of what to take next or of what is wrong. */
const BRIEFLY = { next: false, doubts: false } as const;

/** Found from the clocks or from nothing: there are too few to join one by one. */
const ringOf = (count: number, seed: number) => {
  const random = randomFrom(seed);
  const shop = ringShop(count, random);
  return simulate(shop.template, shop.truth, random).survey;
};

describe('a meter of work', () => {
  test('a part has no more than is left of the whole, and the whole is as before once the part is done', () => {
    const meter = { spent: 5, limit: Number.POSITIVE_INFINITY };
    within(meter, 100, () => {
      expect(meter.limit).toBe(105);
      within(meter, 30, () => expect(meter.limit).toBe(35));
      within(meter, 1000, () => {
        meter.spent += 101;
        expect(isSpent(meter)).toBe(true);
      });
      expect(meter.limit).toBe(105);
    });
    expect(meter).toEqual({ spent: 106, limit: Number.POSITIVE_INFINITY });
    expect(isSpent(meter)).toBe(false);
  });

  test('the same face takes the same steps', () => {
    const spent = [1, 2].map(() => {
      const { job } = shopOf(16, 7_301, 3);
      const network = networkOf(job);
      answer(settle(network, startPositions(network)), BRIEFLY);
      return systemOf(network).meter.spent;
    });
    expect(spent[0]).toBeGreaterThan(0);
    expect(spent[1]).toBe(spent[0]);
  });

  test('a search cut short says so', () => {
    const network = networkOf(ringOf(9, 7_302));
    const { meter } = systemOf(network);
    const starts = within(meter, 1, () => startPositions(network));
    expect(starts[0]?.unfinished).toBe(true);
    expect(answer(settle(network, starts), BRIEFLY).arrangements.searched).toBe(false);
  });

  test('a fit cut short says so: it is no answer that may be relied on', () => {
    const { job, start } = shopOf(36, 7_303);
    const network = networkOf(job);
    const { meter } = systemOf(network);
    const begun = [{ values: start, from: 'the truth' }];
    const short = within(meter, 1, () => settle(network, begun));
    expect(answer(short, BRIEFLY).arrangements.searched).toBe(false);
    expect(answer(settle(network, begun), BRIEFLY).arrangements.searched).toBe(true);
  });

  test('of a large face what stands out is named, though no work is left to look for the cause', () => {
    const { job, start, wrong } = shopOf(60, 7_304, 2);
    const network = networkOf(job);
    expect(network.observations.length).toBeGreaterThan(200);
    const settled = settle(network, [{ values: start, from: 'the truth' }]);
    const whole = doubtOf(settled);
    const short = within(settled.system.meter, 1, () => doubtOf(settled));
    expect(whole.suspects.map((s) => s.reading)).toContain(wrong);
    expect(short.suspects[0]?.reading).toBe(wrong);
    // To first order the error of the reading alone is what solving without it gives.
    const [fully] = whole.suspects.filter((s) => s.reading === wrong);
    expect(Math.abs((short.suspects[0]?.error ?? 0) - (fully?.error ?? 9))).toBeLessThan(0.05);
    expect(Math.abs(fully?.error ?? 0)).toBeGreaterThan(1.5);
  });
});
