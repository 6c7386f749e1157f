import { type Point } from '@fayplate/core';
import { type Lettering, type Shape, circle, line, pens, polygon, rectangle, text } from '@fayplate/drawing';
import { CAPITAL } from './dimension.js';

/**
 * A datum letter in its frame on a leader that ends in a filled triangle at `foot` (ISO 5459, ASME Y14.5). `to`: middle
 * of the frame.
 */
export const datumFlag = (letter: string, foot: Point, to: Point): readonly Shape[] => {
  const s = CAPITAL;
  const angle = Math.atan2(to.y - foot.y, to.x - foot.x);
  const at = (along: number, across: number): Point => ({
    x: foot.x + along * Math.cos(angle) - across * Math.sin(angle),
    y: foot.y + along * Math.sin(angle) + across * Math.cos(angle),
  });
  const box = { left: to.x - s, right: to.x + s, bottom: to.y - s, top: to.y + s };
  return [
    line('note', foot, to, pens.hair),
    polygon('note', [foot, at(0.8 * s, 0.5 * s), at(0.8 * s, -0.5 * s)], null, 0),
    rectangle('note', box, pens.narrow, 1),
    text('note', { x: to.x, y: to.y - s / 2 }, letter, { capital: s, anchor: 'middle', weight: 'bold' }),
  ];
};

/** The symbol of a position tolerance: a ring with a cross through it. */
const position = (c: Point): readonly Shape[] => {
  const r = 0.55 * CAPITAL;
  return [
    circle('note', c, r, pens.narrow),
    line('note', { x: c.x - 1.7 * r, y: c.y }, { x: c.x + 1.7 * r, y: c.y }, pens.narrow),
    line('note', { x: c.x, y: c.y - 1.7 * r }, { x: c.x, y: c.y + 1.7 * r }, pens.narrow),
  ];
};

/** An M in a ring: at maximum material. */
const maximum = (x: number, y: number): readonly Shape[] => [
  circle('note', { x, y: y + CAPITAL / 2 }, 0.85 * CAPITAL, pens.hair),
  text('note', { x, y: y + 0.15 * CAPITAL }, 'M', { capital: 0.7 * CAPITAL, anchor: 'middle' }),
];

/**
 * A tolerance frame with its left lower corner at `at`: position, ⌀ of the zone (at maximum material where `atMost`),
 * datums; with the words before it. Returns its shapes and its height, mm.
 */
export const toleranceFrame = (
  at: Point,
  before: string,
  zone: string,
  datums: readonly string[],
  atMost: boolean,
  lettering: Lettering,
): readonly Shape[] => {
  const h = 2 * CAPITAL;
  const base = at.y + CAPITAL / 2;
  const lead = at.x + lettering.width(before, CAPITAL, 'regular') + (before === '' ? 0 : 2);
  const wide = lettering.width(`⌀${zone}`, CAPITAL, 'regular') + 2 + (atMost ? 2.4 * CAPITAL : 0);
  const cells = [h * 1.1, wide, ...datums.map(() => h)];
  const lefts = cells.map((_, i) => lead + cells.slice(0, i).reduce((a, b) => a + b, 0));
  return [
    text('note', { x: at.x, y: base }, before, { capital: CAPITAL }),
    ...cells.map((w, i) => {
      const left = lefts[i] ?? 0;
      return rectangle('note', { left, right: left + w, bottom: at.y, top: at.y + h }, pens.narrow);
    }),
    ...position({ x: lead + h * 0.55, y: at.y + CAPITAL }),
    text('note', { x: (lefts[1] ?? 0) + 1, y: base }, `⌀${zone}`, { capital: CAPITAL }),
    ...(atMost ? maximum((lefts[1] ?? 0) + wide - 1.2 * CAPITAL, base) : []),
    ...datums.map((d, i) =>
      text('note', { x: (lefts[i + 2] ?? 0) + h / 2, y: base }, d, { capital: CAPITAL, anchor: 'middle' }),
    ),
  ];
};

/**
 * The projection symbol, a cone cut short and its end seen along the axis (ISO 5456-2): in first angle the rings stand
 * on the right of the cone, its small end toward the left; in third angle on the left. Middle at `c`, 20 mm wide.
 */
export const projectionSymbol = (c: Point, third: boolean): readonly Shape[] => {
  const [small, large, length] = [2, 4, 7];
  const rings = c.x + (third ? -6 : 6);
  const cone = c.x + (third ? 4.5 : -4.5);
  const [near, far] = [cone - length / 2, cone + length / 2];
  return [
    circle('note', { x: rings, y: c.y }, small, pens.narrow),
    circle('note', { x: rings, y: c.y }, large, pens.narrow),
    polygon(
      'note',
      [
        { x: near, y: c.y - small },
        { x: far, y: c.y - large },
        { x: far, y: c.y + large },
        { x: near, y: c.y + small },
      ],
      pens.narrow,
    ),
    line('note', { x: near - 1.5, y: c.y }, { x: far + 1.5, y: c.y }, pens.centre),
    line('note', { x: rings - large - 1.5, y: c.y }, { x: rings + large + 1.5, y: c.y }, pens.centre),
    line('note', { x: rings, y: c.y - large - 1.5 }, { x: rings, y: c.y + large + 1.5 }, pens.centre),
  ];
};
