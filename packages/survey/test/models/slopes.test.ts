import fc from 'fast-check';
import { apartBy, distanceForm, isDistance, readOf, readingKinds } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import {
  type Geometry,
  angleModel,
  coordinateModel,
  diameterModel,
  distanceModel,
  offsetModel,
  signedOffsetModel,
  touchModel,
} from '../../src/models/geometry.js';
import { flushModel } from '../../src/models/flush.js';
import { alongModel, differenceModel } from '../../src/models/run-out.js';
import { seeded, within } from '../support.js';

const slopesOf = (g: Geometry, v: readonly number[]): readonly number[] => {
  const out = new Float64Array(v.length);
  g(Float64Array.from(v), out);
  return [...out];
};

const valueAt = (g: Geometry, v: readonly number[]): number => g(Float64Array.from(v), new Float64Array(v.length));

/** Central differences of a model, step 1e-5 of the numbers' size. */
const differences = (g: Geometry, v: readonly number[]): readonly number[] =>
  v.map((x, k) => {
    const h = 1e-5 * 30;
    const at = (d: number): number =>
      valueAt(
        g,
        v.map((y, i) => (i === k ? x + d : y)),
      );
    return (at(h) - at(-h)) / (2 * h);
  });

const worst = (a: readonly number[], b: readonly number[]): number =>
  Math.max(...a.map((x, i) => Math.abs(x - (b[i] ?? Number.NaN))));

/** `x` far enough apart that no model folds or meets itself within the step. */
const apart = (points: readonly (readonly [number, number])[]): boolean =>
  points.every(([x, y], i) => points.slice(i + 1).every(([u, v]) => Math.hypot(x - u, y - v) > 5));

/**
 * The two flanks of `flush` leave different gaps: B's radius is not that of the edge's taper beside it, and B is off
 * the line.
 */
const flanksDiffer = (
  at: readonly (readonly [number, number])[],
  [ra = 0, rb = 0, rc = 0]: readonly number[],
): boolean => {
  const [[ax, ay] = [0, 0], [bx, by] = [0, 0], [cx, cy] = [0, 0]] = at;
  const along = ((bx - ax) * (cx - ax) + (by - ay) * (cy - ay)) / ((cx - ax) ** 2 + (cy - ay) ** 2);
  const off = valueAt(signedOffsetModel, [bx, by, ax, ay, cx, cy]);
  return Math.abs(ra + along * (rc - ra) - rb) > 0.01 && Math.abs(off) > 0.01;
};

type Model = readonly [string, Geometry, number, boolean];

const models: readonly Model[] = [
  ...readingKinds.filter(isDistance).map((kind): Model => [kind, distanceModel(distanceForm(kind)), 2, true]),
  ['angle or square', angleModel, 4, false],
  ['offset', offsetModel, 3, false],
  ['line', signedOffsetModel, 3, false],
  ['flush', flushModel, 3, true],
  ['touch', touchModel(-140, 30), 1, true],
  ['run-out along', alongModel(0.7), 4, false],
];

describe('slopes written by hand equal finite differences', () => {
  test.each(models)('%s', (_, geometry, count, sized) => {
    const aPoint = fc.tuple(within(-100, 100), within(-100, 100));
    const points = fc.array(aPoint, { minLength: count, maxLength: count }).filter(apart);
    fc.assert(
      fc.property(points, fc.array(within(0.5, 2), { minLength: count, maxLength: count }), (at, radii) => {
        const v = at.flatMap(([x, y], i) => (sized ? [x, y, radii[i] ?? 1] : [x, y]));
        // Where an unsigned model stands on its fold the differences straddle it.
        fc.pre(geometry !== angleModel || Math.abs(Math.sin(valueAt(geometry, v))) > 1e-3);
        fc.pre(geometry !== offsetModel || valueAt(geometry, v) > 1e-2);
        fc.pre(geometry !== flushModel || flanksDiffer(at, radii));
        expect(worst(slopesOf(geometry, v), differences(geometry, v))).toBeLessThan(2e-6);
      }),
      seeded,
    );
  });

  test('dia and at', () => {
    expect(slopesOf(diameterModel, [4])).toEqual([2]);
    expect(slopesOf(coordinateModel, [4])).toEqual([1]);
    expect(slopesOf(differenceModel, [4, 3])).toEqual([2, -2]);
  });

  test('a wrong slope would be seen', () => {
    const wrong: Geometry = (v, g) => {
      const value = distanceModel(distanceForm('centres'))(v, g);
      g[0] = -(g[0] ?? 0);
      return value;
    };
    const v = [0, 0, 1, 30, 40, 1];
    expect(worst(slopesOf(wrong, v), differences(wrong, v))).toBeGreaterThan(1);
  });
});

describe('the models say what the table of readings says', () => {
  const pair = [0, 0, 4, 30, 40, 6];
  test.each([
    ['centres', 50],
    ['over', 60],
    ['between', 40],
    ['step', 52],
  ] as const)('%s of two studs 50 apart, radii 4 and 6', (kind, want) => {
    expect(valueAt(distanceModel(distanceForm(kind)), pair)).toBeCloseTo(want, 12);
  });
  test('every distance reading undone gives the distance back', () => {
    for (const kind of readingKinds.filter(isDistance)) {
      expect(apartBy(kind, readOf(kind, 50, 4, 6), 4, 6)).toBeCloseTo(50, 12);
      expect(valueAt(distanceModel(distanceForm(kind)), pair)).toBeCloseTo(readOf(kind, 50, 4, 6), 12);
    }
  });
  test('wall: the metal left between a hole of radius 4 and the rim of radius 60 about it', () => {
    expect(valueAt(distanceModel(distanceForm('wall')), [30, 40, 4, 0, 0, 60])).toBeCloseTo(6, 12);
  });
  test('angle is unsigned, and square is the angle of two lines', () => {
    expect(valueAt(angleModel, [0, 0, 10, 0, 0, 0, 0, -10])).toBeCloseTo(Math.PI / 2, 12);
    expect(valueAt(angleModel, [0, 0, 10, 0, 5, 5, -5, 5])).toBeCloseTo(Math.PI, 12);
  });
  test('offset never falls below nought, line keeps its sign', () => {
    expect(valueAt(offsetModel, [5, -3, 0, 0, 10, 0])).toBeCloseTo(3, 12);
    expect(valueAt(signedOffsetModel, [5, -3, 0, 0, 10, 0])).toBeCloseTo(-3, 12);
  });
  test('flush: a straightedge on rods of radius 4, 5 and 6 whose rims lie on one line reads nought on that flank', () => {
    expect(valueAt(flushModel, [0, 4, 4, 20, 5, 5, 40, 6, 6])).toBeCloseTo(0, 12);
    expect(valueAt(flushModel, [0, -4, 4, 20, -5, 5, 40, -6, 6])).toBeCloseTo(0, 12);
    expect(Math.abs(valueAt(flushModel, [0, 4, 4, 20, 5.3, 5, 40, 6, 6]))).toBeGreaterThan(0.29);
  });
  test('touch: a point 2 outside the rim', () => {
    expect(valueAt(touchModel(12, 0), [0, 0, 10])).toBeCloseTo(2, 12);
  });
});
