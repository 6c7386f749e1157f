import {
  type Motion,
  type Point,
  add,
  apply,
  distance,
  distanceFromLine,
  heading,
  polar,
  scale as times,
  subtract,
} from '@fayplate/core';
import { type Shape, type Stroke, arc, line, polygon } from '@fayplate/drawing';
import { type DistanceKind, type Reading, distanceForm, isDistance } from '@fayplate/job';
import type { LocatedFeature } from '@fayplate/survey';

/** Where the features lie, how the bench lies to the face's frame (null: not fixed), and how lines are drawn. */
export interface Ruling {
  readonly located: ReadonlyMap<string, LocatedFeature>;
  readonly bench: Motion | null;
  readonly stroke: Stroke;
  /** Length of an arrow head, mm. */
  readonly head: number;
}

/** A place with the radius of what lies there, mm. */
type Sized = Pick<LocatedFeature, 'x' | 'y' | 'radius'>;

const toward = (from: Point, to: Point, by: number): Point => {
  const d = distance(from, to);
  return d === 0 ? from : add(from, times(subtract(to, from), by / d));
};

/**
 * Ends of a distance as its reading takes it: to a near side, a far side or a centre, as the share of each radius says.
 */
const ends = (kind: DistanceKind, p: Sized, q: Sized): readonly [Point, Point] => {
  const { k, a, b } = distanceForm(kind);
  const [ra, rb] = [k * a * (p.radius ?? 0), k * b * (q.radius ?? 0)];
  // Round one centre any direction will do.
  if (distance(p, q) === 0) return [add(p, { x: ra, y: 0 }), add(q, { x: -rb, y: 0 })];
  return [toward(p, q, -ra), toward(q, p, -rb)];
};

const headAt = (tip: Point, direction: number, { head, stroke }: Ruling): Shape => {
  const base = subtract(tip, polar(head, direction));
  const side = polar(head / 6, direction + Math.PI / 2);
  return polygon('note', [tip, add(base, side), subtract(base, side)], null, stroke.grey);
};

/** A dimension line: a head at either end where there is room for both. */
const dimension = (from: Point, to: Point, ruling: Ruling): readonly Shape[] => {
  const d = distance(from, to);
  if (d === 0) return [];
  const along = heading(subtract(to, from));
  const heads = d > 2.5 * ruling.head ? [headAt(to, along, ruling), headAt(from, along + Math.PI, ruling)] : [];
  return [line('note', from, to, ruling.stroke), ...heads];
};

/** An arc about the vertex with a head at either end. */
const angle = (a: Point, v: Point, b: Point, ruling: Ruling): readonly Shape[] => {
  const r = 0.3 * Math.min(distance(a, v), distance(b, v));
  const first = heading(subtract(a, v));
  const second = heading(subtract(b, v));
  const turn = (((second - first) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  const [from, to] = turn <= Math.PI ? [first, second] : [second, first];
  // A head is straight and the arc is not: it is turned in by half of what it spans.
  const lean = ruling.head / r / 2;
  const heads =
    Math.min(turn, 2 * Math.PI - turn) * r > 2.5 * ruling.head
      ? [
          headAt(add(v, polar(r, to)), to + Math.PI / 2 - lean, ruling),
          headAt(add(v, polar(r, from)), from - Math.PI / 2 + lean, ruling),
        ]
      : [];
  return [arc('note', v, r, from, to, ruling.stroke), ...heads];
};

/** The corner mark of a right angle where two lines meet or would meet, as long as a head. */
const corner = (at: Point, along: number, square: number, { stroke, head }: Ruling): readonly Shape[] => {
  const [p, q] = [add(at, polar(head, along)), add(at, polar(head, square))];
  const far = add(p, polar(head, square));
  return [line('note', p, far, stroke), line('note', far, q, stroke)];
};

const cross = (at: Point, { stroke, head }: Ruling): readonly Shape[] =>
  [1, -1].map((s) =>
    line(
      'note',
      { x: at.x - head / 2, y: at.y - (s * head) / 2 },
      { x: at.x + head / 2, y: at.y + (s * head) / 2 },
      { ...stroke, dash: [] },
    ),
  );

/**
 * The reading as thin dimension lines over the located features; nothing where a feature is not fixed or the reading
 * has no line to show.
 */
export const readingLines = (reading: Reading, ruling: Ruling): readonly Shape[] => {
  const found = reading.features.map((id) => ruling.located.get(id));
  if (found.some((f) => f === undefined)) return [];
  const [a, b, c, d] = found;
  if (a === undefined) return [];
  if (reading.kind === 'at' || reading.kind === 'touch') {
    return ruling.bench === null || reading.point === null ? [] : cross(apply(ruling.bench, reading.point), ruling);
  }
  if (reading.kind === 'dia')
    return a.radius === null ? [] : dimension(subtract(a, polar(a.radius, 0.6)), add(a, polar(a.radius, 0.6)), ruling);
  if (b === undefined) return [];
  if (isDistance(reading.kind)) return dimension(...ends(reading.kind, a, b), ruling);
  switch (reading.kind) {
    case 'runout': {
      // The distance is too small to see: an arrow from the axis toward the high spot.
      const high = reading.runOut?.high ?? null;
      if (high === null || c === undefined || d === undefined || distance(c, d) === 0) return [];
      const toward = heading(subtract(d, c)) + high.turn;
      const tip = add(b, polar(3 * ruling.head, toward));
      return [line('note', b, tip, ruling.stroke), headAt(tip, toward, ruling)];
    }
    case 'angle':
      return c === undefined || distance(a, b) === 0 || distance(c, b) === 0 ? [] : angle(a, b, c, ruling);
    case 'square': {
      if (c === undefined || d === undefined || distance(a, b) === 0 || distance(c, d) === 0) return [];
      const meets = add(
        c,
        times(subtract(d, c), distanceFromLine(c, a, b) / (distanceFromLine(c, a, b) - distanceFromLine(d, a, b))),
      );
      return [
        line('note', a, b, ruling.stroke),
        line('note', c, d, ruling.stroke),
        ...corner(meets, heading(subtract(b, a)), heading(subtract(d, c)), ruling),
      ];
    }
    case 'line':
    case 'flush':
      return c === undefined ? [] : [line('note', a, c, ruling.stroke)];
    case 'offset': {
      if (c === undefined || distance(b, c) === 0) return [];
      const off = distanceFromLine(a, b, c);
      const along = times(subtract(c, b), 1 / distance(b, c));
      const foot = { x: a.x + off * along.y, y: a.y - off * along.x };
      return [
        ...dimension(a, foot, ruling),
        ...(Math.abs(off) > ruling.head ? corner(foot, heading(along), heading(subtract(a, foot)), ruling) : []),
      ];
    }
  }
};

/**
 * Where the instrument touches for a reading that is to be taken: lines from edge to edge and the places touched, mm in
 * the face's frame.
 */
export interface ReadingTouch {
  readonly lines: readonly (readonly [Point, Point])[];
  readonly dots: readonly Point[];
}

/**
 * The two edges (or centres, or the lines) that a reading of this kind takes hold of, by where its features lie;
 * nothing where one of them has no place yet. `features` in the order written: `square A-B C-D` gives A, B, C, D.
 */
export const readingTouch = (
  kind: Reading['kind'],
  features: readonly string[],
  places: ReadonlyMap<string, Sized>,
): ReadingTouch => {
  const found = features.flatMap((id) => places.get(id) ?? []);
  const [a, b, c, d] = found;
  if (a === undefined || found.length < features.length) return { lines: [], dots: [] };
  const none: ReadingTouch = { lines: [], dots: [] };
  const joined = (...ends: readonly (readonly [Point, Point])[]): ReadingTouch => ({ lines: ends, dots: ends.flat() });
  if (isDistance(kind)) return b === undefined ? none : joined(ends(kind, a, b));
  switch (kind) {
    case 'dia': {
      const r = polar(a.radius ?? 0, 0.6);
      return joined([subtract(a, r), add(a, r)]);
    }
    case 'at':
    case 'touch':
    case 'runout':
      return { lines: [], dots: [a] };
    case 'angle':
      return b === undefined || c === undefined ? none : joined([b, a], [b, c]);
    case 'square':
      return b === undefined || c === undefined || d === undefined ? none : joined([a, b], [c, d]);
    case 'line':
    case 'flush':
      return c === undefined ? none : { lines: [[a, c]], dots: found };
    case 'offset': {
      if (b === undefined || c === undefined || distance(b, c) === 0) return none;
      const off = distanceFromLine(a, b, c);
      const along = times(subtract(c, b), 1 / distance(b, c));
      return {
        lines: [
          [b, c],
          [a, { x: a.x + off * along.y, y: a.y - off * along.x }],
        ],
        dots: [a],
      };
    }
  }
};
