import { type Point, add, distance, distanceFromLine, heading, scale, subtract } from '@fayplate/core';
import { type Shape, type Stroke, arc, line } from '@fayplate/drawing';
import type { Reading } from '@fayplate/job';
import type { LocatedFeature } from '@fayplate/survey';

type Located = ReadonlyMap<string, LocatedFeature>;

const toward = (from: Point, to: Point, by: number): Point => {
  const d = distance(from, to);
  return d === 0 ? from : add(from, scale(subtract(to, from), by / d));
};

/** Ends of a distance as its reading kind takes it: to near sides, far sides, centres, or the wall within a circle. */
const ends = (kind: Reading['kind'], a: LocatedFeature, b: LocatedFeature): readonly [Point, Point] => {
  const ra = a.radius ?? 0;
  const rb = b.radius ?? 0;
  switch (kind) {
    case 'over':
      return [toward(a, b, -ra), toward(b, a, -rb)];
    case 'between':
      return [toward(a, b, ra), toward(b, a, rb)];
    case 'step':
      return [toward(a, b, ra), toward(b, a, -rb)];
    case 'wall':
      return distance(a, b) === 0 ? [a, b] : [toward(a, b, -ra), toward(b, a, rb)];
    default:
      return [a, b];
  }
};

const corner = (a: Point, v: Point, b: Point, stroke: Stroke): Shape => {
  const r = 0.3 * Math.min(distance(a, v), distance(b, v));
  const [from, to] = [heading(subtract(a, v)), heading(subtract(b, v))];
  const turn = (((to - from) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  return turn <= Math.PI ? arc('note', v, r, from, to, stroke) : arc('note', v, r, to, from, stroke);
};

/** The reading as thin dimension lines over the located features; nothing where a feature is not fixed or the reading has no line to show. */
export const readingLines = (reading: Reading, located: Located, stroke: Stroke): readonly Shape[] => {
  const found = reading.features.map((id) => located.get(id));
  if (found.some((f) => f === undefined)) return [];
  const [a, b, c, d] = found;
  if (a === undefined || b === undefined) return [];
  switch (reading.kind) {
    case 'centres':
    case 'over':
    case 'between':
    case 'step':
    case 'wall': {
      const [from, to] = ends(reading.kind, a, b);
      return [line('note', from, to, stroke)];
    }
    case 'angle':
      return c === undefined || distance(a, b) === 0 || distance(c, b) === 0 ? [] : [corner(a, b, c, stroke)];
    case 'square':
      return c === undefined || d === undefined ? [] : [line('note', a, b, stroke), line('note', c, d, stroke)];
    case 'line':
    case 'flush':
      return c === undefined ? [] : [line('note', a, c, stroke)];
    case 'offset': {
      if (c === undefined || distance(b, c) === 0) return [];
      const off = distanceFromLine(a, b, c);
      const along = scale(subtract(c, b), 1 / distance(b, c));
      const foot = { x: a.x + off * along.y, y: a.y - off * along.x };
      return [line('note', a, foot, stroke)];
    }
    case 'dia':
    case 'at':
    case 'touch':
      return [];
  }
};
