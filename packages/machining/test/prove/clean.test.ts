import { type Point, distance, randomFrom } from '@fayplate/core';
import { type Reading, isDistance, readOf } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import { expect, test } from 'vitest';
import { placesOf } from '../../src/checks/places.js';
import { prove } from '../../src/index.js';
import { planReadings } from '../../src/prove/plan.js';
import { drilledJob, mated, plate } from './drilled.js';

/**
 * The readings of the plate's own list, taken off a plate with these diameters, each with half its ± of error or none.
 */
const taken = (of: Plate, diameters: ReadonlyMap<string, number>, noise: () => number): readonly Reading[] => {
  const places = placesOf(of);
  const at = (id: string): Point => places.get(id) ?? { x: 0, y: 0 };
  const d = (id: string): number => diameters.get(id) ?? places.get(id)?.diameter ?? 0;
  return planReadings(of, drilledJob([])).readings.map((r, i): Reading => {
    const [kind = '', a = '', b = ''] = r.reading.split(' ');
    const exact = isDistance(kind) ? readOf(kind, distance(at(a), at(b)), d(a) / 2, d(b) / 2) : d(a);
    return {
      id: String(i + 1),
      text: r.reading,
      kind: isDistance(kind) ? kind : 'dia',
      features: b === '' ? [a] : [a, b],
      value: exact + 0.025 * noise(),
      point: null,
      plusMinus: 0.05,
      instrument: null,
      aside: false,
      note: null,
      unit: 'mm',
      place: { line: 1, column: 1 },
    };
  });
};

test('clean plates, drilled anywhere within their own limits and read by their own list, are hardly ever called suspect', () => {
  let suspect = 0;
  const plates = 25;
  for (let seed = 1; seed <= plates; seed++) {
    const random = randomFrom(4_400 + seed);
    const diameters = new Map(
      plate.holes.map((h) => {
        const [least, most] = h.limits ?? [h.diameter, h.diameter + 0.1];
        return [h.id, least + (most - least) * random.uniform()];
      }),
    );
    const { located } = prove(drilledJob(taken(plate, diameters, () => random.normal())), plate, mated(plate, 0.001), {
      trials: 20,
      seed,
    });
    if ((located?.suspects.length ?? 0) > 0) suspect++;
  }
  // Promised: some two in a hundred.
  expect(suspect).toBeLessThanOrEqual(2);
});

test('two holes drilled in each other’s size are named as a swap', () => {
  const [first, other] = plate.holes;
  if (first === undefined || other === undefined) throw new Error('a plate of fewer holes than two');
  const wide = (h: typeof first): typeof first => ({
    ...h,
    diameter: h.diameter + 3,
    limits: h.limits === null ? null : [h.limits[0] + 3, h.limits[1] + 3],
  });
  const sized: Plate = { ...plate, holes: [wide(first), ...plate.holes.slice(1)] };
  const places = placesOf(sized);
  const size = (id: string): number => places.get(id)?.finished.value ?? 0;
  const swapped = new Map(sized.holes.map((h) => [h.id, size(h.id)]));
  swapped.set(first.id, size(other.id));
  swapped.set(other.id, size(first.id));
  const dia = (id: string): Reading => ({
    ...(taken(sized, swapped, () => 0)[0] as Reading),
    id: `d ${id}`,
    text: `dia ${id}`,
    kind: 'dia',
    features: [id],
    value: swapped.get(id) ?? 0,
  });
  const readings = [...taken(sized, swapped, () => 0), dia(first.id), dia(other.id)];
  const { notes } = prove(drilledJob(readings), sized, mated(sized, 0.001), { trials: 20, seed: 1 });
  expect(notes.join(' ')).toContain(`${first.id} and ${other.id} are drilled in each other's size`);
});
