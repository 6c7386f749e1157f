import { distance, randomFrom, speechFor } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { locateFace, locateReport, isSound } from '../../src/index.js';
import { networkOf } from '../../src/network/network.js';
import { arrangementsBeside } from '../../src/start/bilateration.js';
import { multilaterate } from '../../src/start/multilaterate.js';
import { pointOf, sketchOf } from '../../src/start/sketch.js';
import { everyKindShop, gridShop, ringShop } from '../shops.js';
import { simulate, truthVector } from '../simulate.js';

/** A plate of holes, read four times a hole; one reading in a hundred off by `off`, mm. */
const plate = (holes: number, off: number) => {
  const random = randomFrom(900 + holes);
  const shop = gridShop(holes, random);
  const { survey } = simulate(shop.template, shop.truth, random);
  const readings = survey.face.readings.map((r, i) => (i % 100 === 50 ? { ...r, value: r.value + off } : r));
  return { survey: { ...survey, face: { ...survey.face, readings } }, truth: shop.truth };
};

describe('a large face from its readings alone', () => {
  test.each([
    [30, 0],
    [150, 0],
    [150, 1],
    [150, 5],
  ])('%i holes, slips of %f mm: every distance to a neighbour comes out, from no start', (holes, off) => {
    const { survey, truth } = plate(holes, off);
    const sketch = sketchOf(networkOf(survey));
    const x = multilaterate(sketch);
    expect(x).not.toBeNull();
    const at = (id: string) => pointOf(sketch, x ?? new Float64Array(), [...truth.keys()].indexOf(id));
    for (const { features } of survey.face.readings) {
      const [a = '', b = ''] = features;
      const [p, q] = [truth.get(a), truth.get(b)];
      if (p !== undefined && q !== undefined) expect(Math.abs(distance(at(a), at(b)) - distance(p, q))).toBeLessThan(4);
    }
  });

  test('is not begun so where a bench holds some of it', () => {
    const random = randomFrom(7);
    const shop = everyKindShop(7, random);
    expect(multilaterate(sketchOf(networkOf(simulate(shop.template, shop.truth, random).survey)))).toBeNull();
  });

  test('has no other arrangement, however far its readings reach; without the diagonals it may have', () => {
    const { survey, truth } = plate(150, 0);
    const of = (face: typeof survey.face) => {
      const network = networkOf({ ...survey, face });
      return arrangementsBeside(sketchOf(network), truthVector(network, truth))?.length ?? null;
    };
    expect(of(survey.face)).toBe(1);
    const far = (r: (typeof survey.face.readings)[number]): boolean => {
      const [p, q] = r.features.map((id) => truth.get(id));
      return p !== undefined && q !== undefined && distance(p, q) > 48;
    };
    expect(of({ ...survey.face, readings: survey.face.readings.filter((r) => !far(r)) })).not.toBe(1);
  });
});

test('a search that used up its steps says so, and the answer is not yet', () => {
  const random = randomFrom(21);
  const shop = ringShop(7, random);
  const { survey } = simulate(shop.template, shop.truth, random);
  const located = locateFace(survey);
  expect(isSound(located)).toBe(true);
  const spent = { ...located, arrangements: { ...located.arrangements, searched: false } };
  expect(isSound(spent)).toBe(false);
  const verdict = locateReport(survey.face, spent, speechFor('mm')).find((b) => b.kind === 'verdict');
  expect(verdict).toMatchObject({ ok: false, answer: 'not yet' });
  expect(verdict).toMatchObject({ text: expect.stringContaining('used up its steps') as string });
});
