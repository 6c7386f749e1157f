import { type Box, type Point, add, distance, polar } from '@fayplate/core';
import type { Segment } from './meet.js';

/** One label to be placed: what it belongs to and the room its lettering needs, mm. */
export interface LabelWish {
  readonly id: string;
  readonly centre: Point;
  /** Of the outermost circle drawn about the centre; the label and its leader keep out of it. */
  readonly radius: number;
  /** How far cross-hair arms reach from the centre along x and y; 0: none. */
  readonly reach: number;
  readonly width: number;
  readonly height: number;
  /** The same words set otherwise (broken into more lines, say), tried where the first finds no room right beside. */
  readonly otherwise?: readonly Size[];
}

/** Width and height, mm. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

const DIRECTIONS = 24;
/** Steeper than this (cosine), a label stands over or under the hole and not beside it. */
const STEEP = 0.35;

const at = (left: number, bottom: number, wish: LabelWish): Box => ({
  left,
  bottom,
  right: left + wish.width,
  top: bottom + wish.height,
});

/**
 * Places right beside the hole, best first: at the four diagonals (right before left, above before below), along
 * the cross-hair's sides, and last beyond the ends of its arms.
 */
export const beside = (wish: LabelWish, gap: number): readonly Box[] => {
  const { centre: c, width: w, height: h } = wish;
  const k = (wish.radius + gap) * Math.SQRT1_2 + gap * 0.3;
  const r = wish.radius + gap * 1.3;
  const arm = Math.max(wish.reach, wish.radius) + gap * 1.3;
  const g = gap * 1.3;
  return [
    at(c.x + k, c.y + k, wish),
    at(c.x + k, c.y - k - h, wish),
    at(c.x - k - w, c.y + k, wish),
    at(c.x - k - w, c.y - k - h, wish),
    at(c.x + r, c.y + g, wish),
    at(c.x + r, c.y - g - h, wish),
    at(c.x - r - w, c.y + g, wish),
    at(c.x - r - w, c.y - g - h, wish),
    at(c.x + g, c.y + r, wish),
    at(c.x - g - w, c.y + r, wish),
    at(c.x + g, c.y - r - h, wish),
    at(c.x - g - w, c.y - r - h, wish),
    at(c.x + arm, c.y - h / 2, wish),
    at(c.x - arm - w, c.y - h / 2, wish),
    at(c.x - w / 2, c.y + arm, wish),
    at(c.x - w / 2, c.y - arm - h, wish),
  ];
};

/**
 * A leader leaves the middle of the label's side that faces the hole (its foot or head where it stands over or under
 * it) and stops at the rim.
 */
export const leaderTo = (wish: LabelWish, box: Box, gap: number): Segment => {
  const { centre: c } = wish;
  const over = box.left <= c.x && box.right >= c.x;
  const sideways = { x: box.left > c.x ? box.left - gap / 2 : box.right + gap / 2, y: (box.bottom + box.top) / 2 };
  const from = over
    ? { x: (box.left + box.right) / 2, y: box.bottom > c.y ? box.bottom - gap / 2 : box.top + gap / 2 }
    : sideways;
  const k = (wish.radius + 0.2) / distance(from, c);
  return { from, to: { x: c.x + (from.x - c.x) * k, y: c.y + (from.y - c.y) * k } };
};

const TURN = (2 * Math.PI) / DIRECTIONS;

/**
 * Directions from a hole, best first: from a little above the right counter-clockwise, or from straight out to either
 * hand by turns.
 */
export const directionsFrom = ({ centre }: LabelWish, about: Point | null): readonly number[] => {
  if (about === null || distance(centre, about) < 1e-6)
    return Array.from({ length: DIRECTIONS }, (_, i) => (i + 0.5) * TURN);
  const out = Math.atan2(centre.y - about.y, centre.x - about.x);
  return Array.from({ length: DIRECTIONS }, (_, i) => out + (i % 2 === 0 ? -i / 2 : (i + 1) / 2) * TURN);
};

/** Places round about, this far out of the rim. */
export const ringOf = (wish: LabelWish, reach: number, directions: readonly number[]): readonly Box[] =>
  directions.map((direction) => {
    const tip = add(wish.centre, polar(wish.radius + reach, direction));
    if (Math.abs(Math.cos(direction)) < STEEP)
      return at(tip.x - wish.width / 2, tip.y > wish.centre.y ? tip.y : tip.y - wish.height, wish);
    return at(tip.x >= wish.centre.x ? tip.x : tip.x - wish.width, tip.y - wish.height / 2, wish);
  });
