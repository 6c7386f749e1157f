import { randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { adjust } from '../../src/adjust/adjust.js';
import { systemOf } from '../../src/adjust/system.js';
import { locateFace } from '../../src/index.js';
import { networkOf } from '../../src/network/network.js';
import { CRITICAL, DETECTABLE, wOf } from '../../src/suspects/standardized.js';
import { snoop } from '../../src/suspects/snoop.js';
import { ringShop } from '../shops.js';
import { simulate } from '../simulate.js';
import { feature, hours, reading, survey } from '../support.js';

const spoilt = (seed: number, errors: Readonly<Record<string, number>>) => {
  const random = randomFrom(seed);
  const shop = ringShop(8, random);
  const { survey: clean, start } = simulate(shop.template, shop.truth, random);
  const readings = clean.face.readings.map((r) => ({ ...r, value: r.value + (errors[r.id] ?? 0) }));
  return { survey: { ...clean, face: { ...clean.face, readings } }, start };
};

describe('a planted error', () => {
  const { survey: job } = spoilt(11, { '12': 1.5 });
  const located = locateFace(job);
  const [suspect] = located.suspects;

  test('is named with its size, what it moves and what would have been found', () => {
    expect(located.suspects.map((s) => s.reading)).toEqual(['12']);
    expect(suspect?.error).toBeGreaterThan(1.2);
    expect(suspect?.error).toBeLessThan(1.8);
    const r = located.readings.find((x) => x.id === '12');
    expect(suspect?.standardized).toBeCloseTo(
      (r?.residual ?? 0) / ((r?.sigma ?? 1) * Math.sqrt(r?.redundancy ?? 1)),
      12,
    );
    expect(suspect?.detectable).toBeCloseTo((DETECTABLE * 0.05) / Math.sqrt(r?.redundancy ?? 1), 12);
    expect(r?.detectable).toBe(suspect?.detectable);
  });

  test('`error` and `moves` are what solving without it gives', () => {
    const without = locateFace(job, { setAside: ['12'] });
    expect(without.suspects).toEqual([]);
    for (const [id, moved] of suspect?.moves ?? []) {
      const [a, b] = [located.features.get(id), without.features.get(id)];
      expect(moved).toBeCloseTo(Math.hypot((a?.x ?? 0) - (b?.x ?? 0), (a?.y ?? 0) - (b?.y ?? 0)), 7);
    }
    expect([...(suspect?.moves.keys() ?? [])]).toEqual([...located.features.keys()]);
    expect(Math.max(...(suspect?.moves.values() ?? []))).toBeGreaterThan(0.1);
  });

  test('every reading is kept in the answer', () => {
    expect(located.readings.some((r) => r.id === '12')).toBe(true);
    expect(located.features.size).toBe(9);
  });
});

describe('iterative snooping', () => {
  test('each suspect, tried again among the rest, still exceeds the critical value; the rest do not', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const { survey: job, start } = spoilt(seed, { '9': 1.1, '17': -0.9, '3': 0.7 });
      const network = networkOf(job);
      const system = systemOf(network);
      const found = snoop(adjust(network, start, { system }), system);
      const out = new Set(found.map((f) => f.index));
      const active = network.observations.map((_, i) => !out.has(i));
      const rest = adjust(network, start, { system, active });
      expect(Math.max(...active.map((on, i) => (on ? Math.abs(wOf(rest, i) ?? 0) : 0)))).toBeLessThanOrEqual(CRITICAL);
      const [last] = found.toReversed();
      if (last === undefined) continue;
      const back = adjust(network, start, { system, active: active.map((on, i) => on || i === last.index) });
      expect(Math.abs(wOf(back, last.index) ?? 0)).toBeGreaterThan(CRITICAL);
    }
  });

  test.each([
    [3, ['6', '7'], '18'],
    [77, ['1', '8'], 'diameter P1'],
    [102, ['5', '7'], '18'],
    [207, ['11', '4'], '16'],
  ])('job %i: %j are planted, %s looks worst at first, is set aside, and is taken back', (seed, wrong, innocent) => {
    const random = randomFrom(seed);
    const shop = ringShop(6, random);
    const { survey: clean, start } = simulate(shop.template, shop.truth, random);
    const count = 2 + random.below(3);
    const ids = new Set<string>();
    while (ids.size < count) ids.add(String(1 + random.below(clean.face.readings.length)));
    const readings = clean.face.readings.map((r) =>
      ids.has(r.id) ? { ...r, value: r.value + (random.uniform() < 0.5 ? 1 : -1) * (0.5 + random.uniform()) } : r,
    );
    const network = networkOf({ ...clean, face: { ...clean.face, readings } });
    const system = systemOf(network);
    const full = adjust(network, start, { system });
    const first = [...network.observations.keys()].reduce((a, b) =>
      Math.abs(wOf(full, b) ?? 0) > Math.abs(wOf(full, a) ?? 0) ? b : a,
    );
    const found = snoop(full, system).map((f) => network.observations[f.index]?.id);
    expect(ids).toEqual(new Set(wrong));
    expect(network.observations[first]?.id).toBe(innocent);
    expect(new Set(found)).toEqual(new Set(wrong));
  });

  test('readings that no computation can tell apart are listed together', () => {
    const features = [
      feature('S', { kind: 'spigot' }),
      feature('A', { clock: hours(12) }),
      feature('B', { clock: hours(3) }),
    ];
    const readings = [
      reading('centres A S', 50, 0.1),
      reading('centres B S', 50, 0.1),
      reading('centres A B', 71.5, 0.1),
      reading('angle A S B', 90, 0.1),
    ];
    const located = locateFace(survey(features, readings, { centre: 'S', up: 'A' }));
    expect(located.suspects).toHaveLength(1);
    expect(new Set([located.suspects[0]?.reading, ...(located.suspects[0]?.tiedWith ?? [])])).toEqual(
      new Set(['1', '2', '3', '4']),
    );
    // They share one test, so that they can raise but one false alarm between them.
    expect(located.falseAlarm).toBeCloseTo(0.001, 12);
  });

  test('of those, the ones whose error has the size of a common slip are pointed out', () => {
    const square = ['A', 'B', 'C', 'D'].map((id, i) => feature(id, { clock: hours(12 + 3 * i) }));
    const inches = (words: string, value: number) =>
      reading(words, 25.4 * value, 0.05, { unit: 'in', text: `${words} = ${value}` });
    const job = (diagonal: number) =>
      survey(
        square,
        [
          ...['A B', 'B C', 'C D', 'D A'].map((p) => inches(`centres ${p}`, 3.536)),
          inches('centres A C', 5),
          inches('centres B D', diagonal),
        ],
        { across: ['A', 'C'] },
      );
    const [suspect] = locateFace(job(5.062)).suspects;
    expect([suspect?.reading, ...(suspect?.tiedWith ?? [])].length).toBe(6);
    expect(
      suspect?.slips
        .map((t) => [t.reading, t.guess])
        .concat(suspect.guess === null ? [] : [[suspect.reading, suspect.guess]]),
    ).toContainEqual(['6', '1/16 in misread']);
    expect(suspect?.slips.find((t) => t.reading === '6')?.error).toBeCloseTo(0.062 * 25.4, 1);
    // An error of no common size is pinned on nobody.
    expect(locateFace(job(5.0437)).suspects[0]?.slips).toEqual([]);
  });

  test('a sound job has none, and says how often that goes wrong', () => {
    const { survey: job } = spoilt(5, {});
    const located = locateFace(job);
    expect(located.suspects).toEqual([]);
    const checked = located.readings.filter((r) => r.standardized !== null).length;
    expect(located.falseAlarm).toBeCloseTo(1 - 0.999 ** checked, 6);
  });
});
