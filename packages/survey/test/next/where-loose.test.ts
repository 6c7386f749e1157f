import { randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { locateFace } from '../../src/index.js';
import { ringShop } from '../shops.js';
import { simulate } from '../simulate.js';

describe('readings worth taking next, asked for where something is loose', () => {
  const random = randomFrom(9_120);
  const shop = ringShop(5, random);
  const { survey } = simulate(shop.template, shop.truth, random);
  const loose = {
    ...survey,
    face: {
      ...survey.face,
      readings: survey.face.readings.filter((r) => !r.features.includes('P3') || r.features.includes('S')),
    },
  };

  test('a face that is fixed gets none, though there are some to take', () => {
    expect(locateFace(survey, { next: 'where loose' }).next).toEqual([]);
    expect(locateFace(survey, { next: true }).next.length).toBeGreaterThan(0);
  });

  test('a face that is loose gets what it would always get, of the feature that is loose', () => {
    const located = locateFace(loose, { next: 'where loose' });
    expect(located.undetermined).toEqual(['P3']);
    expect(located.next).toEqual(locateFace(loose).next);
    expect(located.next[0]?.reading).toContain('P3');
    expect(locateFace(loose, { next: false }).next).toEqual([]);
  });
});
