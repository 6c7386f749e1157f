import { speechFor } from '@fayplate/core';
import { captioned } from '@fayplate/drawing';
import type { StackSpec } from '@fayplate/job';
import { solveStack } from '@fayplate/plate';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { stackPlanes } from '../src/stack-planes.js';
import { stackSectionPicture } from '../src/index.js';
import { letters, meetingTexts, textsOf } from './support.js';

const spec = (reach: number, floor: number, mouth: number, gasket: number): StackSpec => ({
  links: [
    { name: 'reach', value: reach, plusMinus: 0.2 },
    { name: 'mouth', value: mouth, plusMinus: 0.1 },
    { name: 'floor', value: floor, plusMinus: 0.2 },
    { name: 'gasket', value: gasket, plusMinus: 0.1 },
  ],
  unknown: { name: 'plate', from: 5, to: 90, made: null },
  limits: [
    {
      name: 'engagement',
      sum: new Map([
        ['reach', 1],
        ['plate', -1],
        ['gasket', -1],
        ['mouth', -1],
      ]),
      least: 5,
      most: null,
    },
    {
      name: 'tip gap',
      sum: new Map([
        ['floor', 1],
        ['plate', 1],
        ['gasket', 1],
        ['reach', -1],
      ]),
      least: 1,
      most: 3,
    },
  ],
  shims: null,
  onHand: null,
});

const length = fc.double({ min: 1, max: 80, noNaN: true });

describe('the section along the shaft', () => {
  test('every gap is its limit’s sum, every link as long as it is, and what limits share is drawn once', () => {
    fc.assert(
      fc.property(length, length, length, length, length, (reach, floor, mouth, gasket, plate) => {
        const chain = spec(reach, floor, mouth, gasket);
        const { around, along, gaps } = stackPlanes(chain, plate);
        const sizes = new Map([...chain.links.map((l) => [l.name, l.value] as const), ['plate', plate] as const]);
        for (const b of [...around, ...along]) expect(b.to - b.from).toBeCloseTo(sizes.get(b.name) ?? NaN, 9);
        for (const { name, sum } of chain.limits) {
          const gap = gaps.find((g) => g.limit === name);
          const value = [...sum].reduce((s, [link, factor]) => s + factor * (sizes.get(link) ?? NaN), 0);
          expect(Math.abs((gap?.to ?? NaN) - (gap?.from ?? NaN))).toBeCloseTo(Math.abs(value), 9);
        }
        expect(around.map((b) => b.name).sort()).toEqual(['floor', 'gasket', 'mouth', 'plate']);
        expect(along.map((b) => b.name)).toEqual(['reach']);
      }),
      { seed: 193 },
    );
    // A value that must fail.
    expect(stackPlanes(spec(60, 44, 6, 1), 20).around.find((b) => b.name === 'plate')?.to).not.toBe(21);
  });

  test('names each link and limit once, at a place of its own, with nothing over anything', () => {
    const chain = spec(61.2, 44, 6, 0.8);
    const { picture, places } = stackSectionPicture(chain, solveStack(chain), speechFor('mm'), letters);
    expect(places.map((p) => p.name).sort()).toEqual(
      ['engagement', 'floor', 'gasket', 'mouth', 'plate', 'reach', 'tip gap'].sort(),
    );
    const drawn = captioned(picture, letters);
    expect(meetingTexts(drawn)).toEqual([]);
    expect(textsOf(drawn).some((t) => t.text.startsWith('reach 61.200 ± 0.200 mm'))).toBe(true);
    for (const [i, a] of places.entries())
      for (const b of places.slice(i + 1))
        expect([a.name, b.name, a.box.bottom >= b.box.top || b.box.bottom >= a.box.top]).toEqual([
          a.name,
          b.name,
          true,
        ]);
  });
});
