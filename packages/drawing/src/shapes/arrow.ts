import { type Point, add, distance, polar, scale, subtract } from '@fayplate/core';
import type { Layer, Shape, Stroke } from '../types.js';
import { line, polygon } from './shapes.js';

/** A line with a filled head at `to`; the head is `head` mm long and a third as wide (about 20°). */
export const arrow = (layer: Layer, from: Point, to: Point, stroke: Stroke, head = 3): readonly Shape[] => {
  const length = distance(from, to);
  if (length === 0) return [];
  const along = scale(subtract(to, from), 1 / length);
  const size = Math.min(head, length);
  const base = add(to, scale(along, -size));
  const side = polar(size / 6, Math.atan2(along.y, along.x) + Math.PI / 2);
  return [
    line(layer, from, base, stroke),
    polygon(layer, [to, add(base, side), subtract(base, side)], null, stroke.grey),
  ];
};
