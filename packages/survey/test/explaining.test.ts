import { randomFrom, speechFor } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { locateFace, restsOnWords } from '../src/index.js';
import { tellingWords } from '../src/words/explanations.js';
import { ringShop } from './shops.js';
import { simulate } from './simulate.js';
import { feature, hours, reading, survey } from './support.js';
import { plannedFace, studyAbsurd, studyClean, studySlips, takenFace } from './studies/explaining.js';

describe('readings as a new job lists them', () => {
  // The goals are those of the full study in `bench`; a few faces leave room for chance.
  test('a slip is among those named, and mostly first', () => {
    const s = studySlips(14, 310, 1);
    expect(s.trials).toBeGreaterThan(10);
    expect(s.named).toBeGreaterThanOrEqual(s.trials - 1);
    expect(s.firstOrTied).toBeGreaterThanOrEqual(s.trials - 2);
    expect(s.onlySound).toBeLessThanOrEqual(1);
    expect(s.lengths / s.ideal).toBeLessThanOrEqual(1.25);
  });

  test('what explains the misfit is not listed again with a further reading added to it', () => {
    let listed = 0;
    for (const seed of [9001, 9012, 9023, 9034, 9045, 9056]) {
      const random = randomFrom(seed);
      const planned = plannedFace(random);
      const id = String(1 + random.below(planned.survey.face.readings.length));
      const { explanations } = locateFace(takenFace(planned, random, new Map([[id, 0.35]])), { next: false });
      listed += explanations.length;
      for (const [i, e] of explanations.entries())
        for (const more of explanations.slice(i + 1))
          expect((e.p ?? 1) >= 0.001 && e.readings.every((r) => more.readings.includes(r))).toBe(false);
    }
    expect(listed).toBeGreaterThan(3);
  });

  test('and no face without one is called suspect much oftener than promised', () => {
    const s = studyClean(20, 420);
    expect(s.suspect).toBeLessThanOrEqual(2);
    expect(s.promised / s.trials).toBeLessThan(0.05);
  });
});

/** A square of studs about a spigot, sides and diagonals read, with errors added to some. */
const square = (errors: Readonly<Record<string, number>>) => {
  const at = { A: [50, 50], B: [50, -50], C: [-50, -50], D: [-50, 50] } as const;
  const studs = Object.entries({ A: 1.5, B: 4.5, C: 7.5, D: 10.5 }).map(([id, h]) =>
    feature(id, { clock: hours(h), diameter: { value: 10, plusMinus: null } }),
  );
  const pairs = ['A B', 'B C', 'C D', 'D A', 'A C', 'B D'];
  const readings = pairs.map((pair) => {
    const [a, b] = pair.split(' ') as (keyof typeof at)[];
    const d = a === undefined || b === undefined ? 0 : Math.hypot(at[a][0] - at[b][0], at[a][1] - at[b][1]);
    return reading(`over ${pair}`, d + 10 + (errors[pair] ?? 0), 0.05);
  });
  return survey(studs, readings, {});
};

describe('explanations', () => {
  test('of a square with one check to spare cannot tell its six readings apart, and say what would', () => {
    const located = locateFace(square({ 'A B': 0.7 }));
    const [one] = located.suspects;
    expect(new Set([one?.reading, ...(one?.tiedWith ?? [])])).toEqual(new Set(['1', '2', '3', '4', '5', '6']));
    expect(located.explanations.reduce((sum, e) => sum + e.odds, 0)).toBeGreaterThan(0.95);
    expect(located.telling).not.toBeNull();
  });

  test('favour the slip that is common: ten millimetres too many', () => {
    const face = square({ 'A C': 10 });
    const checked = survey(face.face.features, [...face.face.readings, reading('centres A C', 141.42, 0.4)]);
    const [first, second] = locateFace(checked).explanations;
    expect(first?.readings).toEqual(['5']);
    expect(first?.errors[0]?.guess).toBe('10 mm misread');
    expect(second === undefined || second.odds < 0.05).toBe(true);
  });

  test('are none where readings agree', () => {
    const located = locateFace(square({}));
    expect([located.suspects, located.explanations, located.telling]).toEqual([[], [], null]);
  });
});

describe('what is said of a suspect', () => {
  test('moves no centre to its place in the mirror image', () => {
    for (const [holes, seed] of [
      [16, 3],
      [20, 3],
      [20, 7],
    ] as const) {
      const shop = ringShop(holes, randomFrom(seed));
      const ids = [...shop.truth.keys()].filter((id) => id !== 'S');
      const readings = ids.flatMap((id, i) => [
        reading(`between ${id} S`, 0, 0.05),
        ...[1, 2, 5].map((d) =>
          reading(`${d === 2 ? 'between' : 'over'} ${id} ${ids[(i + d) % holes] ?? ''}`, 0, 0.05),
        ),
      ]);
      const template = survey(shop.template.face.features, readings, { centre: 'S', up: 'P1' });
      const taken = simulate(template, shop.truth, randomFrom(seed + 1)).survey;
      const wrong = taken.face.readings.map((r, i) => ({ ...r, value: r.value + (i === 29 ? 1.2 : 0) }));
      const [suspect] = locateFace({ ...taken, face: { ...taken.face, readings: wrong } }, { next: false }).suspects;
      expect(suspect?.reading).toBe(wrong[29]?.id);
      const most = Math.max(...(suspect?.moves.values() ?? [Number.NaN]));
      expect(most).toBeGreaterThan(0.001);
      expect(most).toBeLessThan(3);
    }
  });

  test('has explanations that the telling reading would read alike in one group, a sentence each', () => {
    const located = locateFace(square({ 'A B': 0.7 }));
    const telling = {
      reading: 'centres A C',
      again: null,
      instrument: null,
      measures: 'length',
      plusMinus: 0.1,
    } as const;
    const foreseen = located.explanations.map((_, i) => (i % 2 === 0 ? 141.4 + 0.02 * i : 142));
    const words = tellingWords({ ...located, telling: { ...telling, foreseen } }, speechFor('mm'));
    expect(words.match(/ means that the fault is in /g)).toHaveLength(2);
    expect(words).toMatch(
      /^Take centres A C: it tells these apart best\. About 141\.4\d* mm means [^;]+\. About 142\.0+ mm/,
    );
    const finer = tellingWords({ ...located, telling: { ...telling, foreseen, plusMinus: 0.01 } }, speechFor('mm'));
    expect(finer.match(/ means that the fault is in /g)?.length).toBeGreaterThan(2);
  });

  test('ties it to no reading that is not listed as an explanation in its place', () => {
    const { suspects, explanations } = locateFace(square({ 'B C': -0.9 }));
    const listed = new Set(explanations.flatMap((e) => e.readings));
    expect(suspects[0]?.tiedWith.length).toBeGreaterThan(0);
    for (const s of suspects) for (const id of s.tiedWith) expect(listed).toContain(id);
  });
});

describe('what nothing checks', () => {
  test('a diameter read once is listed, with the least error that would show and the reading that checks it', () => {
    const face = square({});
    const studs = face.face.features.map((f) => (f.id === 'A' ? { ...f, diameter: null, diameterFrom: null } : f));
    const located = locateFace(survey(studs, [...face.face.readings, reading('dia A', 10, 0.05)]));
    const dia = located.unchecked.find((u) => u.text === 'dia A');
    const row = located.readings.find((r) => r.id === '7');
    expect(dia).toBeDefined();
    expect(dia?.detectable).toBe(row?.detectable);
    expect(dia?.check).toMatch(/^(?:dia A|over A|between A|centres A)/);
    const twice = survey(studs, [...face.face.readings, reading('dia A', 10, 0.05), reading('dia A', 10.01, 0.05)]);
    expect(locateFace(twice).unchecked.map((u) => u.text)).not.toContain('dia A');
  });

  test('and nothing is listed where every reading is well checked', () => {
    const extra = ['A B', 'B C', 'C D', 'D A', 'A C', 'B D'].map((pair, i) =>
      reading(`centres ${pair}`, i < 4 ? 100 : 141.42, 0.05),
    );
    expect(locateFace(survey(square({}).face.features, [...square({}).face.readings, ...extra])).unchecked).toEqual([]);
  });
});

test('an absurd reading among checked ones is named, and a shape is found all the same', () => {
  const s = studyAbsurd(12, 515);
  expect(s.unsettled).toBe(0);
  expect(s.named).toBeGreaterThanOrEqual(s.trials - 1);
});

test('leaving out one of several that may be wrong says what it rests on', () => {
  const lean = locateFace(square({ 'A B': 0.7 }));
  const [first] = lean.explanations;
  expect(restsOnWords(lean, first?.readings ?? [])).toMatch(
    /^leaving out reading \d rests on the fault being there, with odds of \d+ in 100/,
  );
  expect(restsOnWords(locateFace(square({})), ['1'])).toBeNull();
});
