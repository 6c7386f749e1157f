import { type Point, distance, randomFrom } from '@fayplate/core';
import type { Face, Feature, Reading } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { systemOf } from '../../src/adjust/system.js';
import { type Network, networkOf } from '../../src/network/network.js';
import { begin } from '../../src/start/beginnings.js';
import { jointReflectionsOf } from '../../src/start/partial-reflections.js';
import { arrangementsBeside } from '../../src/start/bilateration.js';
import { relaxedDimensionOf } from '../../src/start/relaxed-dimension.js';
import { amongRivals, lowerOf } from '../../src/start/reseat.js';
import { sketchOf } from '../../src/start/sketch.js';
import { levenbergMarquardt } from '../../src/start/levenberg-marquardt.js';
import { soundLimit } from '../../src/start/sound.js';
import { reading } from '../support.js';
import { shop } from './shops.js';

const instruments = new Map([['caliper', { name: 'caliper', measures: 'length' as const, each: 0.05, zero: null }]]);

/** Centres at the places given, and the distances read between the pairs named. */
const measured = (
  places: Readonly<Record<string, Point>>,
  pairs: readonly string[],
  more: readonly Reading[] = [],
): { readonly network: Network; readonly x: Float64Array } => {
  const features = Object.keys(places).map((id): Feature => ({
    id,
    kind: 'stud',
    diameter: { value: 8, plusMinus: null },
    diameterFrom: 'job',
    thread: null,
    clock: null,
    vacant: false,
    stands: null,
    deep: null,
    lean: null,
    height: null,
  }));
  const at = (id: string): Point => places[id] ?? { x: 0, y: 0 };
  const readings = pairs.map((pair): Reading => {
    const [a = '', b = ''] = pair;
    return {
      id: pair,
      text: `centres ${a} ${b}`,
      kind: 'centres',
      features: [a, b],
      value: distance(at(a), at(b)),
      point: null,
      plusMinus: 0.05,
      instrument: 'caliper',
      aside: false,
      note: null,
      unit: 'mm',
      place: { line: 1, column: 1 },
    };
  });
  const face: Face = {
    name: 'plate',
    viewed: 'from outside',
    centre: null,
    up: null,
    across: null,
    features,
    readings: [...readings, ...more.map((r, i) => ({ ...r, id: `more ${i}` }))],
    layout: { kind: 'measured' },
    flange: null,
    shaft: null,
    shaftSizes: null,
    rim: [],
    standard: null,
  };
  const network = networkOf({ face, instruments });
  const x = new Float64Array(network.unknowns.count);
  for (const s of network.unknowns.features.values()) {
    x[s.x] = at(s.id).x;
    x[s.y] = at(s.id).y;
  }
  return { network, x };
};

const isHeld = ({ network, x }: ReturnType<typeof measured>): boolean =>
  arrangementsBeside(sketchOf(network), x)?.length === 1;

describe('readings that leave one arrangement', () => {
  const A = { x: 0, y: 0 };
  const B = { x: 100, y: 0 };
  const C = { x: 40, y: 70 };
  const D = { x: 60, y: -50 };

  test('a fourth centre needs three distances, and from three that do not lie in line', () => {
    expect(isHeld(measured({ A, B, C, D }, ['AB', 'BC', 'CA', 'AD', 'BD', 'CD']))).toBe(true);
    // On two distances it may lie on either side of their line.
    expect(isHeld(measured({ A, B, C, D }, ['AB', 'BC', 'CA', 'AD', 'BD']))).toBe(false);
    // Measured from three that lie nearly in line, its mirror image suits all three.
    expect(
      isHeld(measured({ A, B, C: { x: 40, y: 0.02 }, E: C, D }, ['AB', 'BC', 'CA', 'AE', 'BE', 'AD', 'BD', 'CD'])),
    ).toBe(false);
  });

  test('places read on a table hold their features, with no mirror image; one alone does not', () => {
    const at = (id: string, p: Point): Reading => reading(`at ${id}`, [p.x, p.y], 0.05);
    const on = [at('A', A), at('B', B), at('C', C)];
    expect(isHeld(measured({ A, B, C }, [], on))).toBe(true);
    // D hangs on two places by two distances: it may lie on either side of their line, until a third says which.
    expect(isHeld(measured({ A, B, C, D }, ['AD', 'BD'], on))).toBe(false);
    expect(isHeld(measured({ A, B, C, D }, ['AD', 'BD', 'CD'], on))).toBe(true);
    expect(isHeld(measured({ A, B, D }, ['AD', 'BD'], on.slice(0, 1)))).toBe(false);
  });

  test('a polar place, a distance and the angle at a feature that stands, holds one but for the side of the line', () => {
    const turned = (Math.atan2(50, 60) * 180) / Math.PI;
    const polar = reading('angle B A D', turned, 0.05);
    expect(isHeld(measured({ A, B, C, D }, ['AB', 'BC', 'CA', 'AD'], [polar]))).toBe(false);
    expect(isHeld(measured({ A, B, C, D }, ['AB', 'BC', 'CA', 'AD', 'CD'], [polar]))).toBe(true);
    // From the hole beside it the angle alone, with no distance, leaves D along a line.
    expect(isHeld(measured({ A, B, C, D }, ['AB', 'BC', 'CA'], [polar]))).toBe(false);
  });

  test('a wheel of spokes and rim alone may be folded, and distances across it settle that', () => {
    const rim = ['P', 'Q', 'R', 'S', 'T'].map(
      (id, i) =>
        [id, { x: 80 * Math.cos(1.2 * i + 0.1 * (i % 3)), y: 80 * Math.sin(1.2 * i + 0.1 * (i % 3)) }] as const,
    );
    const wheel = { O: A, ...Object.fromEntries(rim) };
    const fan = ['OP', 'OQ', 'OR', 'OS', 'OT', 'PQ', 'QR', 'RS', 'ST'];
    expect(isHeld(measured(wheel, fan))).toBe(false);
    expect(isHeld(measured(wheel, [...fan, 'PR', 'QS', 'RT']))).toBe(true);
  });

  test('what is held fast has no other arrangement that sound readings could have given', () => {
    let held = 0;
    let loose = 0;
    for (let seed = 1; seed <= 90; seed++) {
      const s = shop(40_000 + seed, { count: 4 + (seed % 6), onlyRigid: true });
      const [sketch, equations] = [sketchOf(s.network), systemOf(s.network)];
      const truth = levenbergMarquardt(equations, s.truth, 60, 1e-10);
      if (truth.chi2 > soundLimit(equations, truth.x)) continue;
      const random = randomFrom(seed);
      const ends = [
        ...Array.from({ length: 8 }, (_, round) =>
          begin(sketch, () => relaxedDimensionOf(sketch), equations, round, random),
        ),
        amongRivals(
          sketch,
          equations,
          jointReflectionsOf(sketch),
          truth,
          () => false,
          lowerOf(() => false),
        ),
      ];
      const other = ends.some(
        (e) => e.chi2 <= soundLimit(equations, e.x) && Math.abs(e.chi2 - truth.chi2) > 1e-3 * (1 + truth.chi2),
      );
      if (arrangementsBeside(sketch, truth.x)?.length === 1) {
        held++;
        expect([seed, other]).toEqual([seed, false]);
      } else if (other) loose++;
    }
    // Both kinds were met, so that the answer says something.
    expect(held).toBeGreaterThan(15);
    expect(loose).toBeGreaterThan(1);
  });
});
