import { randomFrom } from '@fayplate/core';
import type { Reading } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { type LocatedFace, type Survey, locateFace, planChecked, planReadings } from '../../src/index.js';
import { networkOf } from '../../src/network/network.js';
import { ringShop } from '../shops.js';
import { simulate } from '../simulate.js';
import { feature, hours, instrument, reading, survey } from '../support.js';

const caliper = instrument('caliper', 0.05);
const rule = instrument('rule', 0.4);
const protractor = instrument('protractor', 0.01, null, 'angle');

/** A job of studs, read with a caliper and a rule, whose readings check each other. */
const shopWith = (count: number, seed: number): Survey => {
  const random = randomFrom(seed);
  const { template, truth } = ringShop(count, random);
  const thin = template.face.readings.filter((r, i) => r.features.includes('S') || i % 4 !== 3);
  const readings = thin.map((r) => ({
    ...r,
    instrument: r.kind === 'centres' ? 'rule' : 'caliper',
    plusMinus: r.kind === 'centres' ? 0.4 : 0.05,
  }));
  const named = {
    instruments: new Map([caliper, rule, protractor].map((i) => [i.name, i])),
    face: { ...template.face, readings },
  };
  return simulate(named, truth, random).survey;
};

/** The face solved again with a reading added that says what the centres already say. */
const solvedWith = (s: Survey, located: LocatedFace, text: string, name: string | null): LocatedFace => {
  const tool = s.instruments.get(name ?? '');
  const words = text.split(' ');
  const bare: Reading = { ...reading(text, 0, 1), id: 'extra', instrument: name, plusMinus: tool?.each ?? 0.05 };
  const at = { face: { ...s.face, readings: [...s.face.readings, bare] }, instruments: s.instruments };
  const network = networkOf(at);
  const x = new Float64Array(network.unknowns.count);
  for (const [id, f] of located.features) {
    const slots = network.unknowns.features.get(id);
    if (slots === undefined) continue;
    x[slots.x] = f.x;
    x[slots.y] = f.y;
    if (slots.radius !== null) x[slots.radius] = f.radius ?? 0;
  }
  const value = network.observations.find((o) => o.reading?.id === 'extra')?.model(x) ?? 0;
  expect(words.length).toBeGreaterThan(1);
  return locateFace(
    { ...at, face: { ...at.face, readings: [...s.face.readings, { ...bare, value }] } },
    { next: false },
  );
};

describe('what to measure next', () => {
  test.each([1, 2, 3, 4])('promises what solving again gives, to one in a hundred (shop %i)', (seed) => {
    const s = shopWith(5 + seed, seed);
    const located = locateFace(s);
    expect(located.next.length).toBeGreaterThan(2);
    for (const n of located.next) {
      const then = solvedWith(s, located, n.reading, n.instrument);
      for (const [id, [before, after]] of n.reduces) {
        expect(before).toBeCloseTo(located.features.get(id)?.ellipse95.major ?? 0, 9);
        expect(Math.abs(after / (then.features.get(id)?.ellipse95.major ?? 0) - 1)).toBeLessThan(0.01);
      }
    }
  });

  test('the first shrinks the worst radius at least as much as any other', () => {
    const s = shopWith(7, 9);
    const located = locateFace(s);
    const worstWith = (text: string, name: string | null): number =>
      Math.max(...[...solvedWith(s, located, text, name).features.values()].map((f) => f.ellipse95.major));
    const [first, ...rest] = located.next.map((n) => worstWith(n.reading, n.instrument));
    const now = Math.max(...[...located.features.values()].map((f) => f.ellipse95.major));
    expect(first).toBeLessThan(now);
    for (const r of rest) expect(first ?? 0).toBeLessThanOrEqual(r * 1.001);
  });

  test('kinds suit the features: over studs, between at a spigot, centres only by rule, no readings of vacant places', () => {
    const s = shopWith(6, 3);
    const one = {
      ...s,
      face: { ...s.face, features: s.face.features.map((f) => (f.id === 'P4' ? { ...f, vacant: true } : f)) },
    };
    for (const n of locateFace(one).next) {
      if (n.reading.includes('S')) expect(n.reading).toMatch(/^(between|angle)/);
      if (n.reading.startsWith('centres')) expect(n.instrument).toBe('rule');
      expect(n.reading).not.toContain('P4');
    }
  });

  test('a stud that nothing reaches: the readings proposed fix it', () => {
    const features = [
      feature('S', { kind: 'spigot', diameter: { value: 60, plusMinus: 0.02 } }),
      feature('A', { clock: hours(12) }),
      feature('B', { clock: hours(4) }),
      feature('C', { clock: hours(8) }),
    ];
    const readings = ['between A S', 'between B S', 'over A B', 'over B S'].map((w) =>
      reading(w, w === 'over A B' ? 113.9 : w === 'over B S' ? 95 : 25, 0.05, { instrument: 'caliper' }),
    );
    const s = survey(features, readings, { centre: 'S', up: 'A' }, [caliper]);
    const located = locateFace(s);
    expect(located.undetermined).toEqual(['C']);
    expect(located.next.length).toBeGreaterThan(0);
    expect(located.next.some((n) => n.reduces.has('C'))).toBe(true);
    const more = located.next.map((n, i) =>
      reading(n.reading, n.reading.includes('S') ? 25 : 113.9, 0.05, { id: `m${i}`, instrument: 'caliper' }),
    );
    expect(locateFace({ ...s, face: { ...s.face, readings: [...s.face.readings, ...more] } }).undetermined).toEqual([]);
  });
});

describe('which readings to take, and in which order', () => {
  const studs = (n: number) =>
    Array.from({ length: n }, (_, i) => feature(`P${i + 1}`, { clock: hours((12 * i) / n) }));
  const bare = (n: number): Survey =>
    survey(
      [feature('S', { kind: 'spigot', diameter: { value: 100, plusMinus: null } }), ...studs(n)],
      [],
      { centre: 'S', up: 'P1' },
      [caliper, rule],
    );

  test.each([3, 5, 8])('%i studs about a spigot take 2n − 1 readings, and they fix the shape', (n) => {
    const plan = planReadings(bare(n));
    // n + 1 centres have 2 (n + 1) coordinates, of which 3 are the frame's.
    expect(plan).toHaveLength(2 * n - 1);
    const s = bare(n);
    const truth = new Map(
      s.face.features.map((f) => [
        f.id,
        f.clock === null ? { x: 0, y: 0, r: 50 } : { x: 75 * Math.cos(f.clock), y: 75 * Math.sin(f.clock), r: 5 },
      ]),
    );
    const readings = plan.map((p, i) => reading(p.reading, 0, 0.05, { id: String(i + 1), instrument: p.instrument }));
    const taken = simulate({ ...s, face: { ...s.face, readings } }, truth, randomFrom(n), 0).survey;
    expect(locateFace(taken).undetermined).toEqual([]);
    expect(
      locateFace({ ...taken, face: { ...taken.face, readings: taken.face.readings.slice(1) } }).undetermined.length,
    ).toBeGreaterThan(0);
  });

  test.each([3, 5, 8])('%i holes about a bore: with all of the plan every misreading shows, without it none', (n) => {
    const holes = Array.from({ length: n }, (_, i) =>
      feature(`P${i + 1}`, { kind: 'hole', clock: hours((12 * i) / n), diameter: null, diameterFrom: null }),
    );
    const bore = feature('S', { kind: 'bore', diameter: null, diameterFrom: null });
    const s = survey([bore, ...holes], [], { centre: 'S', up: 'P1' }, [caliper]);
    const { draw, cut } = planChecked(s);
    const truth = new Map(
      s.face.features.map((f) => [
        f.id,
        f.clock === null ? { x: 0, y: 0, r: 25 } : { x: 75 * Math.cos(f.clock), y: 75 * Math.sin(f.clock), r: 5 },
      ]),
    );
    const least = (plan: readonly { readonly reading: string }[]): number => {
      const readings = plan.map((p, i) => reading(p.reading, 0, 0.05, { id: String(i + 1), instrument: 'caliper' }));
      const taken = simulate({ ...s, face: { ...s.face, readings } }, truth, randomFrom(n)).survey;
      const located = locateFace(taken, { places: truth });
      expect(located.undetermined).toEqual([]);
      return Math.min(...located.readings.map((r) => r.redundancy));
    };
    expect(least(draw)).toBeLessThan(0.05);
    expect(least([...draw, ...cut])).toBeGreaterThan(0.05);
    expect(cut.length).toBeLessThanOrEqual(2 * (n + 1));
    // Over and between are mixed: only so do two readings of one pair check their diameters.
    const kinds = [...draw, ...cut].flatMap((r) => (r.reading.includes('S') ? [] : [r.reading.split(' ')[0]]));
    expect(new Set(kinds)).toEqual(new Set(['dia', 'over', 'between']));
  });

  test.each([
    [3, true],
    [4, true],
    [3, false],
  ])('%i holes, about a bore: %s: each misreading of the plan is told from every other', (n, middle) => {
    const holes = Array.from({ length: n }, (_, i) =>
      feature(`P${i + 1}`, { kind: 'hole', clock: hours((12 * i) / n), diameter: null, diameterFrom: null }),
    );
    const bore = middle ? [feature('S', { kind: 'bore', diameter: null, diameterFrom: null })] : [];
    const s = survey([...bore, ...holes], [], { centre: middle ? 'S' : null, up: 'P1' }, [caliper]);
    const { draw, cut } = planChecked(s);
    // So few holes leave pairs that no other distance tells apart: some readings are taken twice.
    expect(cut.some((r) => r.again === true)).toBe(true);
    const truth = new Map(
      s.face.features.map((f) => [
        f.id,
        f.clock === null ? { x: 0, y: 0, r: 25 } : { x: 75 * Math.cos(f.clock), y: 75 * Math.sin(f.clock), r: 5 },
      ]),
    );
    const plan = [...draw, ...cut];
    const readings = plan.map((p, i) => reading(p.reading, 0, 0.05, { id: String(i + 1), instrument: 'caliper' }));
    const taken = simulate({ ...s, face: { ...s.face, readings } }, truth, randomFrom(700 + n), 0).survey;
    for (const slipped of taken.face.readings) {
      const wrong = taken.face.readings.map((r) => (r === slipped ? { ...r, value: r.value + 1 } : r));
      const { suspects } = locateFace({ ...taken, face: { ...taken.face, readings: wrong } }, { places: truth });
      expect([slipped.text, suspects[0]?.reading, suspects[0]?.tiedWith]).toEqual([slipped.text, slipped.id, []]);
    }
  });

  test('spare readings check every other', () => {
    const s = bare(6);
    const plan = planReadings(s, { spare: 6 });
    expect(plan).toHaveLength(17);
    expect(planReadings({ ...s, instruments: new Map() })).toEqual([]);
  });
});
