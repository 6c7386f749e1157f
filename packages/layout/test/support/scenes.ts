import type { Point, Random } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import { type FaceLayout, layoutFace } from '../../src/index.js';
import { type Shop, type Taken, faceOf, measure, shop } from './network.js';

export const INCH = 25.4;

/** Steps that the ideal chooser of a diameter allows for, and 'none'; all equally likely. */
export const steps: readonly (number | null)[] = [INCH / 8, INCH / 16, INCH / 32, INCH / 64, 1, 0.5, null];

/** A place `clockwise` degrees from 12 o'clock. */
export const clockwise = (radius: number, degrees: number, about: Point = { x: 0, y: 0 }): Point => ({
  x: about.x + radius * Math.sin((degrees * Math.PI) / 180),
  y: about.y + radius * Math.cos((degrees * Math.PI) / 180),
});

export const onDivisions = (
  diameter: number,
  divisions: number,
  occupied: readonly number[],
  about?: Point,
  phase = 0,
): readonly Point[] => occupied.map((k) => clockwise(diameter / 2, phase + (360 * k) / divisions, about));

export const named = (points: readonly Point[], spigot: Point | null = { x: 0, y: 0 }): ReadonlyMap<string, Point> =>
  new Map([
    ...(spigot === null ? [] : [['spigot', spigot] as const]),
    ...points.map((p, i) => [`P${i + 1}`, p] as const),
  ]);

/**
 * Every hole to the spigot, to the next, to the one opposite (or nearly): what a person takes of a ring with a caliper.
 * `next`: how many further neighbours.
 */
export const ringReadings = (count: number, sigma: number, next = 1): readonly Taken[] => {
  const pairs = new Map<string, Taken>();
  const add = (i: number, j: number): void => {
    const [a, b] = [Math.min(i, j), Math.max(i, j)];
    if (a !== b) pairs.set(`${a} ${b}`, { from: `P${a + 1}`, to: `P${b + 1}`, sigma });
  };
  for (let i = 0; i < count; i++) {
    for (let k = 1; k <= next; k++) add(i, (i + k) % count);
    add(i, (i + Math.floor(count / 2)) % count);
  }
  return [...pairs.values(), ...Array.from({ length: count }, (_, i) => ({ from: `P${i + 1}`, to: 'spigot', sigma }))];
};

/** Every distance among all features. */
export const everyDistance = (ids: readonly string[], sigma: number): readonly Taken[] =>
  ids.flatMap((from, i) => ids.slice(i + 1).map((to) => ({ from, to, sigma })));

export const kindsOf = (
  ids: readonly string[],
  of: (id: string) => FeatureKind = () => 'stud',
): ReadonlyMap<string, FeatureKind> => new Map(ids.map((id) => [id, id === 'spigot' ? 'spigot' : of(id)]));

export const shopOf = (
  truth: ReadonlyMap<string, Point>,
  readings: readonly Taken[],
  of?: (id: string) => FeatureKind,
): Shop =>
  shop(
    truth,
    readings,
    truth.has('spigot') ? 'spigot' : 'P1',
    truth.has('spigot') ? 'P1' : 'P2',
    kindsOf([...truth.keys()], of),
  );

/** One measurement of a shop, and what is made of it. */
export const layoutOf = (made: Shop, random: Random): FaceLayout => {
  const { face, located } = faceOf(made, measure(made, random));
  return layoutFace(face, located, { telling: false });
};
