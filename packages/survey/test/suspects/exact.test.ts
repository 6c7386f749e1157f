import { randomFrom, speechFor } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { locateFace, locateReport, type Survey } from '../../src/index.js';
import { ringShop } from '../shops.js';
import { simulate } from '../simulate.js';

/** A ring about a spigot whose diameter is given as exact, `off` mm from what it is. */
const shop = (seed: number, off: number): Survey => {
  const random = randomFrom(seed);
  const { template, truth } = ringShop(7, random, 0.05);
  const { survey } = simulate(template, truth, random);
  const exact = 2 * (truth.get('S')?.r ?? 0) + off;
  const features = survey.face.features.map((f) =>
    f.id === 'S' ? { ...f, diameter: { value: exact, plusMinus: null } } : f,
  );
  return { ...survey, face: { ...survey.face, features } };
};

describe('a diameter given as exact', () => {
  test.each([11, 12, 13])('that is wrong is named, and set aside the rest agree (seed %i)', (seed) => {
    const wrong = shop(seed, 1.5);
    const located = locateFace(wrong);
    expect(located.suspects.map((s) => s.reading)).toEqual(['diameter S']);
    expect(located.suspects[0]?.error).toBeCloseTo(1.5, 0);
    const without = locateFace(wrong, { setAside: ['diameter S'] });
    expect(without.suspects).toEqual([]);
    expect(without.aside.map((a) => a.id)).toEqual(['diameter S']);
    expect(without.undetermined).toEqual([]);
  });

  test('is named in words as what it is, with what to do', () => {
    const wrong = shop(11, 1.5);
    const words = JSON.stringify(locateReport(wrong.face, locateFace(wrong), speechFor('mm')));
    expect(words).toContain('The stated diameter of S does not agree with the rest.');
    expect(words).toMatch(/The stated diameter of S: too large by about 1\.[45]/);
    expect(words).toContain('Measure it again, and correct what is stated.');
    expect(words).not.toMatch(/Reading diameter|aside/);
  });

  test.each([21, 22, 23])('that is right is not, nor anything else (seed %i)', (seed) => {
    expect(locateFace(shop(seed, 0)).suspects).toEqual([]);
  });

  test('that is right is not named where a reading is wrong', () => {
    const right = shop(31, 0);
    const readings = right.face.readings.map((r, i) => (i === 9 ? { ...r, value: r.value + 1 } : r));
    const { suspects } = locateFace({ ...right, face: { ...right.face, readings } });
    expect(suspects.map((s) => s.reading)).toEqual([readings[9]?.id]);
  });
});
