import { describe, expect, test } from 'vitest';
import { randomFrom } from '@fayplate/core';
import { classLimits, identifyThread, look, parseTaper, parseThread, tellApart, threads } from '../../src/index.js';

const found = (text: string) => {
  const l = look('thread', text);
  if (!l.ok) throw new Error(l.why);
  return l.json as {
    readonly candidates: readonly { readonly name: string; readonly odds: number }[];
    readonly none: number;
    readonly tells_apart: string | null;
    readonly name?: string;
  };
};
const names = (text: string): readonly string[] => found(text).candidates.map((c) => c.name);

describe('threads by what was measured', () => {
  test.each([
    ['9.4 mm 1.6 mm', ['3/8-16 UNC', '3/8 BSW']],
    ['0.37 in 16 tpi', ['3/8-16 UNC', '3/8 BSW']],
    ['26 tpi 1/4', ['1/4 BSF', '1/4 BSC', '1/4 brass']],
    ['9.9 x 1.5', ['M10']],
    ['7.9 mm 1.25', ['M8']],
    ['13.1 mm 19 tpi', ['G1/4', 'R1/4']],
    ['0.372 in 32 tpi', ['3/8-32 UNEF']],
    ['5.9 mm 1 mm', ['M6', '0 BA']],
    ['0.495 in 12 tpi', ['1/2 BSW']],
    ['10.2 mm 27 tpi', ['1/8-27 NPT']],
    ['9.65 mm 28 tpi', ['G1/8', 'R1/8']],
  ])('%s', (text, expected) => {
    const got = names(text).slice(0, expected.length);
    expect([...got].toSorted()).toEqual([...expected].toSorted());
    expect(found(text).candidates.reduce((s, c) => s + c.odds, 0)).toBeGreaterThan(0.9);
  });

  test('the last two are told apart by what differs: angle, pitch, taper, diameter', () => {
    expect(found('0.37 in 16 tpi').tells_apart).toMatch(/60° pitch gauge fits 3\/8-16 UNC/);
    expect(found('13.1 mm 19 tpi').tells_apart).toMatch(/taper 1 in 16/);
    const t = (name: string) => {
      const x = parseThread(name);
      if (x === null) throw new Error(name);
      const { least, most } = classLimits(x).external;
      return { name, system: x.series, least, most, pitch: x.pitch, tpi: x.tpi, angle: x.angle, taper: false };
    };
    expect(tellApart(t('1/2-13 UNC'), t('1/2 BSW'))).toMatch(/over 10 threads.*19\.54 mm.*21\.17 mm/);
    expect(tellApart(t('M8'), t('5/16-18 UNC'))).toMatch(/over 10 threads|clean part/);
  });

  test('the same in either unit, and closer with a closer ±', () => {
    const mm = names('9.525 ± 0.05 mm 1.5875 ± 0.02 mm');
    const inches = names('0.375 ± 0.00196850 in 0.0625 ± 0.00078740 in');
    expect(inches).toEqual(mm);
    const wide = identifyThread({ major: 11.9, majorPlusMinus: 0.3, pitch: 1.7, pitchPlusMinus: 0.3 });
    const close = identifyThread({ major: 11.9, majorPlusMinus: 0.03, pitch: 1.75, pitchPlusMinus: 0.02 });
    expect(close.candidates.length).toBeLessThan(wide.candidates.length);
    expect(close.candidates[0]?.thread.name).toBe('M12');
  });

  test('what is held nowhere is told as none', () => {
    const { none } = identifyThread({ major: 23.3, majorPlusMinus: 0.05, pitch: 5.5, pitchPlusMinus: 0.05 });
    expect(none).toBeGreaterThan(0.9);
  });

  test('a thread within its limits stands first or second, nine times in ten first', () => {
    const random = randomFrom(417);
    let first = 0;
    let among = 0;
    const runs = 600;
    for (let i = 0; i < runs; i++) {
      const t = threads[random.below(threads.length)];
      if (t === undefined) continue;
      const { least, most } = classLimits(t).external;
      const odds = identifyThread({
        major: least + (most - least) * random.uniform() + 0.02 * random.normal(),
        majorPlusMinus: 0.04,
        pitch: t.pitch + 0.005 * random.normal(),
        pitchPlusMinus: 0.01,
      }).candidates;
      const at = odds.findIndex((o) => o.thread.name === t.name);
      if (at === 0) first++;
      if (at >= 0 && at < 3) among++;
    }
    expect(among / runs).toBeGreaterThan(0.97);
    expect(first / runs).toBeGreaterThan(0.75);
  });
});

describe('pipe threads', () => {
  // ISO 228-1 table 1: G1/8 9.728, 8.566; G1/2 20.955, 18.631; G1 33.249, 30.291; 28, 14, 11 threads to the inch.
  test.each([
    ['G1/8', 9.728, 8.566, 28],
    ['1/8 BSP', 9.728, 8.566, 28],
    ['g 1/2', 20.955, 18.631, 14],
    ['1/2" BSPP', 20.955, 18.631, 14],
    ['G1', 33.249, 30.291, 11],
    ['G1 1/4 A', 41.91, 38.952, 11],
  ])('%s', (text, major, minor, tpi) => {
    const t = parseThread(text);
    expect([t?.series, t?.major, t?.minor, t?.tpi]).toEqual(['G', major, minor, tpi]);
  });

  // ASME B1.20.1: 1/4-18, pipe 0.540 in; from memory.
  test.each([
    ['1/4 NPT', '1/4-18 NPT', 0.54 * 25.4],
    ['1/4-18 NPT', '1/4-18 NPT', 0.54 * 25.4],
    ['R1/8', 'R1/8', 9.728],
    ['1/8 BSPT', 'R1/8', 9.728],
    ['1 1/4 NPT', '1 1/4-11.5 NPT', 1.66 * 25.4],
  ])('%s is %s', (text, name, major) => {
    const t = parseTaper(text);
    expect(t?.name).toBe(name);
    expect(t?.major).toBeCloseTo(major, 9);
    expect(found(text).name).toBe(name);
  });
  test('a plain thread is no taper one', () => {
    for (const text of ['3/8-16 UNC', 'M10', 'G1/8', '1/8', 'npt', '5/17 NPT']) expect(parseTaper(text)).toBeNull();
  });
});

test('a bare size is every thread of that size, and its clearance hole is one', () => {
  const l = look('thread', '3/8');
  const of = l.ok ? (l.json['threads'] as readonly { readonly name: string }[]).map((t) => t.name) : [];
  expect(of).toEqual(['3/8-16 UNC', '3/8-24 UNF', '3/8-32 UNEF', '3/8 BSW', '3/8 BSF', '3/8 BSC', '3/8 brass']);
  const hole = look('clearance', '3/8');
  const named = look('clearance', '3/8-16 UNC');
  expect(hole.ok && hole.json['diameter']).toBe(named.ok && named.json['diameter']);
  expect(look('thread', '3/7').ok).toBe(false);
  expect(look('clearance', '3/7').ok).toBe(false);
});
