import { type Path, type Point, circlePath, distance } from '@fayplate/core';
import { biteOf, mouthful } from '../outline/notch.js';
import { type Spine, aboutSpine, rectangleSpine, signedToSpine } from '../solids/cut.js';
import type { PlateBore } from '../types.js';

type Shaped = Pick<PlateBore, 'x' | 'y' | 'diameter' | 'box'>;

/**
 * What a bore is all places near to: its centre, or of one with straight sides the rectangle between the centres of its
 * corners.
 */
export const boreSpine = ({ x, y, box }: Shaped): Spine => {
  const at = { x, y };
  if (box === undefined) return [at, at];
  const { length, width, corner, angle, behind } = box;
  return rectangleSpine(
    at,
    angle,
    [corner - behind, length - behind - corner],
    [corner - width / 2, width / 2 - corner],
  );
};

/** How far round its spine a bore reaches, mm: its radius, or that of its corners. */
export const boreRadius = ({ diameter, box }: Shaped): number => box?.corner ?? diameter / 2;

/** The wall of a bore from above, counter-clockwise, plate frame: a circle, or straight sides with round corners. */
export const borePath = (bore: Shaped): Path =>
  bore.box === undefined ? circlePath(bore, bore.diameter / 2) : aboutSpine(boreSpine(bore), boreRadius(bore));

/** How far within the wall of a bore a place lies, mm; below zero outside it. */
export const withinBore = (p: Point, bore: Shaped): number =>
  bore.box === undefined ? bore.diameter / 2 - distance(p, bore) : boreRadius(bore) - signedToSpine(p, boreSpine(bore));

/** How far from a place the farthest wall of a bore lies, mm. */
export const farOf = (p: Point, bore: Shaped): number =>
  Math.max(...boreSpine(bore).map((q) => distance(p, q))) + boreRadius(bore);

/**
 * The wall of a bore as it is seen on a plate: of a notch with a floor what it takes of the outline. Null for a notch
 * that goes through, whose edge is the plate's own.
 */
export const boreEdge = (bore: PlateBore, outline: Path): Path | null => {
  const whole = borePath(bore);
  if (bore.box?.notch !== true) return whole;
  if (bore.depth === null) return null;
  const bite = biteOf(outline, whole);
  return typeof bite === 'number' ? whole : mouthful(bite);
};
