import { randomFrom } from '@fayplate/core';
import { distanceForm, isDistance, readOf, readingKinds } from '@fayplate/job';
import { expect, test } from 'vitest';
import { locateFace } from '../../src/index.js';
import { feature, hours, reading, survey } from '../support.js';

/**
 * Three studs about a bore, 3-4-5 triangles in tens of millimetres, so that every centre and distance is known in whole
 * numbers.
 */
const places = new Map([
  ['C', { x: 0, y: 0, r: 90 }],
  ['A', { x: 0, y: 50, r: 4 }],
  ['B', { x: 48, y: 14, r: 5 }],
  ['D', { x: -30, y: -40, r: 6 }],
]);
const clocks = new Map([
  ['A', hours(12)],
  ['B', hours(2.5)],
  ['D', hours(7)],
]);
const features = [...places].map(([id, p]) =>
  feature(id, {
    kind: id === 'C' ? 'bore' : 'stud',
    clock: clocks.get(id) ?? null,
    diameter: { value: 2 * p.r, plusMinus: null },
  }),
);
const distances = readingKinds.filter(isDistance);
const ids = [...places.keys()];

test.each(distances)('%s alone, read without error, gives every centre to 1e-9 mm', (kind) => {
  const random = randomFrom(8_114);
  // A reading of a lesser circle within a greater one has the greater last.
  const readings = ids.flatMap((a, i) =>
    ids.slice(0, i).map((b) => {
      const [p, q] = [places.get(a), places.get(b)];
      if (p === undefined || q === undefined) throw new Error('no such place');
      const value = readOf(kind, Math.hypot(p.x - q.x, p.y - q.y), p.r, q.r);
      return reading(`${kind} ${a} ${b}`, value, 0.05 + 0.1 * random.uniform());
    }),
  );
  const { features: found, stopped } = locateFace(survey(features, readings, { centre: 'C', up: 'A' }));
  expect(stopped.converged).toBe(true);
  for (const [id, p] of places) {
    expect(Math.hypot((found.get(id)?.x ?? Infinity) - p.x, (found.get(id)?.y ?? Infinity) - p.y)).toBeLessThan(1e-9);
  }
});

test('a kind taken for another is found out: no two share one form', () => {
  const forms = distances.map((kind) => Object.values(distanceForm(kind)).join(' '));
  expect(new Set(forms).size).toBe(forms.length);
});
