import { polar } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { clockCost } from '../src/arrangements/overlaps.js';
import { liveOf } from '../src/arrangements/telling.js';
import { isSound, locateFace } from '../src/index.js';
import { networkOf } from '../src/network/network.js';
import { startAt } from '../src/start/start.js';
import { SLIP_COST } from '../src/start/truncated.js';
import { studyRings } from './studies/rings.js';
import { feature, hours, reading, survey } from './support.js';

describe('rings read to the spigot and to the next stud', () => {
  test('with clocks none is wrong without a word, and hardly any undecided', () => {
    const right = studyRings(60, 5_000, 1, 'right');
    expect([right.silentlyWrong, right.undecided]).toEqual([0, 0]);
    const slips = studyRings(40, 5_001, 0, 'slips');
    expect(slips.silentlyWrong).toBe(0);
    expect(slips.undecided).toBeLessThanOrEqual(slips.ideal.undecided + 1);
  });

  test('without clocks those that may be folded are said to be so', () => {
    const s = studyRings(60, 7_000, 1, 'none');
    expect(s.silentlyWrong).toBe(0);
    expect(s.undecided).toBeGreaterThan(0);
    expect(s.undecided).toBe(s.ideal.undecided);
  });
});

describe('clocks', () => {
  const at = [0, 1, 3, 7, 9, 10].map((k) => polar(80, Math.PI / 2 - (k * Math.PI) / 6));
  const places = new Map(at.map((p, i) => [`P${i + 1}`, p] as const));
  /** Odds against clocks as written, beside clocks that are right. */
  const against = (clocks: readonly number[]): number => {
    const network = networkOf(folding(clocks));
    return Math.exp(clockCost(network, startAt(network, places).values) / 2);
  };

  test('that are an hour off are common, four hours off hardly ever, and all together no worse than a slip', () => {
    expect(against([12, 1, 3, 7, 9, 10])).toBeCloseTo(1, 6);
    expect(against([12, 1, 3, 8, 9, 10])).toBeGreaterThan(2);
    expect(against([12, 1, 3, 8, 9, 10])).toBeLessThan(6);
    expect(against([12, 1, 3, 11, 9, 10])).toBeGreaterThan(100);
    expect(against([4, 9, 12, 1, 6, 2])).toBeLessThan(1.3 * Math.exp(SLIP_COST / 2));
  });
});

describe('arrangements are live', () => {
  test('until their odds together are 95 in 100, so that many unlikely ones count as one likely one does', () => {
    expect(liveOf([0.96, 0.04])).toBe(1);
    expect(liveOf([0.94, 0.06])).toBe(2);
    expect(liveOf([0.9, 0.04, 0.03, 0.02, 0.01])).toBe(3);
    expect(liveOf([1])).toBe(1);
  });
});

/**
 * Six places of a ring of 12 about a spigot: 12, 1, 3, 7, 9 and 10 o'clock, each read to the spigot and to the next;
 * the clocks as given.
 */
const folding = (clocks: readonly (number | null)[], extra: readonly string[] = []) => {
  const places = [0, 1, 3, 7, 9, 10].map((k) => polar(80, Math.PI / 2 - (k * Math.PI) / 6));
  const studs = clocks.map((c, i) =>
    feature(`P${i + 1}`, { clock: c === null ? null : hours(c), diameter: { value: 10, plusMinus: 0.02 } }),
  );
  const apart = (a: number, b: number): number =>
    Math.hypot((places[a]?.x ?? 0) - (places[b]?.x ?? 0), (places[a]?.y ?? 0) - (places[b]?.y ?? 0));
  const readings = [
    ...studs.map((s) => reading(`between ${s.id} S`, 80 - 5 - 30, 0.1)),
    ...studs.map((s, i) => reading(`over ${s.id} P${((i + 1) % 6) + 1}`, apart(i, (i + 1) % 6) + 10, 0.1)),
    ...extra.map((pair) => {
      const [a = 1, b = 1] = pair.split(' ').map(Number);
      return reading(`over P${a} P${b}`, apart(a - 1, b - 1) + 10, 0.1);
    }),
  ];
  const spigot = feature('S', { kind: 'spigot', diameter: { value: 60, plusMinus: 0.02 } });
  return survey([spigot, ...studs], readings, { centre: 'S', up: 'P1' });
};

describe('two arrangements', () => {
  test('that fit to the last digit are told apart by clocks, though these are an hour off', () => {
    const located = locateFace(folding([12, 1, 4, 7, 8, 10]));
    expect(isSound(located)).toBe(true);
    expect(located.arrangements.rivals).toEqual([]);
    expect(located.features.get('P4')?.x).toBeCloseTo(80 * Math.sin((7 * Math.PI) / 6), 6);
  });

  test('that nothing tells apart are both named, with the reading that would', () => {
    const located = locateFace(folding([null, null, null, null, null, null]));
    const { rivals, settle, odds } = located.arrangements;
    expect(isSound(located)).toBe(false);
    expect(rivals.length).toBeGreaterThan(0);
    expect(odds + rivals.reduce((sum, r) => sum + r.odds, 0)).toBeCloseTo(1, 6);
    expect(settle).not.toBeNull();
    const [a = '', b = ''] = (settle?.reading ?? '').split(' ').slice(1);
    const settled = locateFace(folding([null, null, null, null, null, null], [`${a.slice(1)} ${b.slice(1)}`]));
    expect(settled.arrangements.rivals.length).toBeLessThan(rivals.length);
  });
});

describe('solids', () => {
  const pair = (kind: 'stud' | 'boss', apart: number) =>
    locateFace(
      survey(
        [
          feature('A', { diameter: { value: 10, plusMinus: null } }),
          feature('B', { kind, diameter: { value: 20, plusMinus: null } }),
        ],
        [reading('centres A B', apart, 0.1)],
        { across: ['A', 'B'] },
      ),
    );

  test('in each other are no answer, apart or inside a boss they are', () => {
    expect(pair('stud', 12).arrangements.overlaps).toEqual([['A', 'B']]);
    expect(isSound(pair('stud', 12))).toBe(false);
    expect(isSound(pair('stud', 15.2))).toBe(true);
    expect(isSound(pair('boss', 2))).toBe(true);
  });

  test('no boss is cut through by the rim of a hole or a bore', () => {
    const boss = (apart: number) =>
      locateFace(
        survey(
          [
            feature('C', { kind: 'bore', diameter: { value: 120, plusMinus: null } }),
            feature('B', { kind: 'boss', diameter: { value: 25, plusMinus: null } }),
          ],
          [reading('centres C B', apart, 0.1)],
          { centre: 'C', up: 'B' },
        ),
      ).arrangements.overlaps;
    expect(boss(40)).toEqual([]);
    expect(boss(49)).toEqual([['C', 'B']]);
    expect(boss(71)).toEqual([['C', 'B']]);
    expect(boss(73)).toEqual([]);
  });

  test('may lie in a bore, but not across its rim', () => {
    const hole = (apart: number) =>
      locateFace(
        survey(
          [
            feature('C', { kind: 'bore', diameter: { value: 60, plusMinus: null } }),
            feature('H', { kind: 'hole', diameter: { value: 8, plusMinus: null } }),
          ],
          [reading('centres C H', apart, 0.1)],
          { centre: 'C', up: 'H' },
        ),
      ).arrangements.overlaps;
    expect(hole(20)).toEqual([]);
    expect(hole(30)).toEqual([['C', 'H']]);
  });
});
