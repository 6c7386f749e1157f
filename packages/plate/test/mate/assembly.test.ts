import { type Motion, apply, compose, flipX, rotation } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mate } from '../../src/index.js';
import { face, feature, jobOf, patternOf, plateSpec, usedOf } from '../support/faces.js';
import { aPlace, aTurn, aView, seeded } from '../support/seeds.js';
import { type Vector, seen, turned } from '../support/space.js';

const thickness = 20;

/** Two parts as they stand in space, the second not yet clocked, and how each was looked at. */
interface Bench {
  readonly first: readonly Vector[];
  readonly second: readonly Vector[];
  readonly views: readonly ['from outside' | 'from behind', 'from outside' | 'from behind'];
  readonly clocking: number;
}

const bench = fc.record({
  first: fc.array(
    aPlace.map(({ x, y }): Vector => [x, y, 0]),
    { minLength: 2, maxLength: 9 },
  ),
  second: fc.array(
    aPlace.map(({ x, y }): Vector => [x, y, thickness]),
    { minLength: 2, maxLength: 9 },
  ),
  views: fc.tuple(aView, aView),
  clocking: aTurn,
});

/** The person's readings: an eye outside a part looks into its metal, an eye behind looks out of it. */
const asViewed = (b: Bench) => {
  const inward: readonly [Vector, Vector] = [
    [0, 0, -1],
    [0, 0, 1],
  ];
  const look = (points: readonly Vector[], into: Vector, view: string) =>
    Object.fromEntries(points.map((p, i) => [`P${i}`, seen(p, view === 'from outside' ? into : [0, 0, -into[2]])]));
  return { pump: look(b.first, inward[0], b.views[0]), motor: look(b.second, inward[1], b.views[1]) };
};

/**
 * Every fastener's axis in the assembled machine: the second part turned clockwise as an eye on its side of the plate
 * sees it.
 */
const assembled = (b: Bench): readonly (readonly [Vector, Vector])[] => {
  const sight: Vector = [0, 0, -1];
  const axis = (p: Vector, to: number): readonly [Vector, Vector] => [p, [p[0], p[1], to]];
  return [...b.first.map((p) => axis(p, thickness)), ...b.second.map((p) => axis(turned(p, sight, b.clocking), 0))];
};

type Mating = typeof mate;
/** Greatest distance from a fastener's axis, all through the plate, to the centre of the hole meant for it. */
const worstMiss = (b: Bench, mating: Mating): number => {
  const places = asViewed(b);
  const faces = [
    face(
      'pump',
      b.first.map((_, i) => feature(`P${i}`, 'stud')),
      { viewed: b.views[0] },
    ),
    face(
      'motor',
      b.second.map((_, i) => feature(`P${i}`, 'hole')),
      { viewed: b.views[1] },
    ),
  ];
  const job = jobOf(faces, plateSpec(['pump', 'motor'], { clocking: { at: b.clocking }, thickness }));
  const mated = mating(job, usedOf({ pump: patternOf(places.pump), motor: patternOf(places.motor) }));
  // The plate's frame is x right, y up for an eye on side B: holes stand in space at (x, y, z) for every z in the
  // plate.
  const holes = mated.flatMap((m) => m.pattern.points);
  return Math.max(
    ...assembled(b).flatMap((ends, i) =>
      ends.map((p) => Math.hypot(p[0] - (holes[i]?.x ?? Number.NaN), p[1] - (holes[i]?.y ?? Number.NaN))),
    ),
  );
};

describe('both parts and the plate in space', () => {
  test('every axis goes through its hole, whatever the views and the clocking', () => {
    fc.assert(
      fc.property(bench, (b) => {
        expect(worstMiss(b, mate)).toBeLessThan(1e-9);
      }),
      seeded,
    );
  });

  const broken: Readonly<Record<string, (face: 0 | 1, view: string, clocking: number) => Motion>> = {
    'the first face is never flipped': (f, view, c) =>
      f === 0 ? rotation(0) : compose(rotation(-c), view === 'from behind' ? rotation(0) : flipX),
    'the second face is never flipped': (f, view, c) =>
      f === 1 ? rotation(-c) : view === 'from behind' ? flipX : rotation(0),
    'the second face is flipped by the wrong view': (f, view, c) =>
      f === 0
        ? view === 'from behind'
          ? flipX
          : rotation(0)
        : compose(rotation(-c), view === 'from behind' ? flipX : rotation(0)),
    'the second face turns the other way': (f, view, c) =>
      f === 0
        ? view === 'from behind'
          ? flipX
          : rotation(0)
        : compose(rotation(c), view === 'from behind' ? rotation(0) : flipX),
    'the second face turns before it is flipped': (f, view, c) =>
      f === 0
        ? view === 'from behind'
          ? flipX
          : rotation(0)
        : compose(view === 'from behind' ? rotation(0) : flipX, rotation(-c)),
  };
  test.each(Object.keys(broken))('the assembly does not go together where %s', (name) => {
    const wrong = broken[name];
    if (wrong === undefined) throw new Error(name);
    const mating: Mating = (job, used) => {
      const lay = (index: 0 | 1) => {
        const at = job.plate?.clocking;
        const clocking = at !== undefined && 'at' in at ? at.at : 0;
        const motion = wrong(index, job.faces[index]?.viewed ?? '', clocking);
        const pattern = used.get(job.faces[index]?.name ?? '')?.pattern ?? patternOf({});
        return {
          face: '',
          side: 'A' as const,
          centre: { x: 0, y: 0 },
          motion,
          axis: null,
          radiusSigmas: new Map(),
          pattern: { ...pattern, points: pattern.points.map((p) => apply(motion, p)) },
        };
      };
      return [lay(0), lay(1)];
    };
    const run = fc.check(
      fc.property(bench, (b) => worstMiss(b, mating) < 1e-9),
      seeded,
    );
    expect(run.failed).toBe(true);
  });
});
