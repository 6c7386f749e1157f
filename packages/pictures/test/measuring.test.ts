import { type Point, distance } from '@fayplate/core';
import { type Shape, circle, pens } from '@fayplate/drawing';
import { describe, expect, test } from 'vitest';
import { type SheetFeature, measuringPicture } from '../src/index.js';
import { letters } from './support.js';

const feature = (id: string, x: number, y: number, radius: number): SheetFeature => ({
  id,
  at: { x, y },
  radius,
  large: false,
  shapes: [circle('note', { x, y }, radius, pens.narrow)],
});
const features = [
  feature('P1', -30, 0, 5),
  feature('P2', 30, 0, 4),
  feature('P3', 0, 40, 3),
  feature('P4', 7.5, 40, 3),
];
const pictureOf = (readings: Parameters<typeof measuringPicture>[2]) =>
  measuringPicture('pump', features, readings, [], ['Seen from outside.'], letters);

/** Tips of the arrow heads of one reading: the first corner of each filled triangle. */
const tips = (shapes: readonly Shape[], number: number): readonly Point[] =>
  shapes.flatMap((s) =>
    s.kind === 'group' && s.name === `reading ${number}`
      ? s.shapes.flatMap((t) => (t.kind === 'path' && t.path.closed ? [t.path.start] : []))
      : [],
  );
const near = (got: readonly Point[], wanted: readonly Point[]): boolean =>
  got.length === wanted.length && wanted.every((w) => got.some((g) => distance(g, w) < 1e-9));

describe('the drawing of a measuring sheet', () => {
  // Where each kind takes hold, worked out by hand: P1 from −35 to −25, P2 from 26 to 34 along the line between them.
  test.each([
    ['over', [-35, 34]],
    ['between', [-25, 26]],
    ['step', [-25, 34]],
    ['centres', [-30, 30]],
  ] as const)('%s: a head on each of the two edges', (kind, [from, to]) => {
    const { shapes } = pictureOf([{ number: 7, kind, features: ['P1', 'P2'] }]);
    expect(
      near(tips(shapes, 7), [
        { x: from, y: 0 },
        { x: to, y: 0 },
      ]),
    ).toBe(true);
    expect(
      near(tips(shapes, 7), [
        { x: from + 1, y: 0 },
        { x: to, y: 0 },
      ]),
    ).toBe(false);
  });

  test('where there is no room between the edges the heads come from outside, on the same edges', () => {
    const { shapes } = pictureOf([{ number: 1, kind: 'between', features: ['P3', 'P4'] }]);
    expect(
      near(tips(shapes, 1), [
        { x: 3, y: 40 },
        { x: 4.5, y: 40 },
      ]),
    ).toBe(true);
  });

  test('every feature is named and every reading numbered, once', () => {
    const readings = [
      { number: 1, kind: 'dia', features: ['P1'] },
      { number: 2, kind: 'over', features: ['P1', 'P3'] },
      { number: 3, kind: 'angle', features: ['P1', 'P3', 'P2'] },
    ] as const;
    const texts = (shapes: readonly Shape[]): readonly string[] =>
      shapes.flatMap((s) => (s.kind === 'text' ? [s.text] : s.kind === 'group' ? texts(s.shapes) : []));
    const said = texts(pictureOf(readings).shapes);
    expect([...said].sort()).toEqual(['1', '2', '3', 'P1', 'P2', 'P3', 'P4']);
  });
});
