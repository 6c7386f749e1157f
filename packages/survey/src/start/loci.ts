import { type Point, add, distance, midpoint, norm, scale, subtract } from '@fayplate/core';
import { apartBy, isDistance } from '@fayplate/job';
import { type Locus, circleAbout, leftOf, lineThrough } from './locus.js';
import type { Tie } from './sketch.js';

/** The lines at a distance on either side of the line through two points. */
const beside = (a: Point, b: Point, by: number): readonly Locus[] => {
  const line = lineThrough(a, b);
  if (line === null) return [];
  const shift = scale(leftOf(line.along), by);
  return [
    { ...line, through: add(line.through, shift) },
    { ...line, through: subtract(line.through, shift) },
  ];
};

const turned = (v: Point, angle: number): Point => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return { x: c * v.x - s * v.y, y: s * v.x + c * v.y };
};

/** Lines through `from` that pass the circle about `centre` at its rim. */
const tangents = (from: Point, centre: Point, radius: number): readonly Locus[] => {
  const v = subtract(centre, from);
  const d = norm(v);
  if (d < 1e-9) return [];
  const a = Math.asin(Math.min(1, radius / d));
  return [a, -a].map((t) => ({ kind: 'line', through: from, along: turned(scale(v, 1 / d), t) }));
};

/** Arm of an angle: from the vertex, turned either way from the known arm. */
const arms = (vertex: Point, known: Point, angle: number): readonly Locus[] => {
  const line = lineThrough(vertex, known);
  return line === null ? [] : [angle, -angle].map((t) => ({ ...line, along: turned(line.along, t) }));
};

/** Where the vertex lies that sees a and b under the angle (Euclid III.21): an arc on either side. */
const vertices = (a: Point, b: Point, angle: number): readonly Locus[] => {
  const chord = distance(a, b);
  const s = Math.sin(angle);
  if (chord < 1e-9) return [];
  const line = lineThrough(a, b);
  if (s < 1e-6) return line === null ? [] : [line];
  const m = midpoint(a, b);
  const up = scale(leftOf(subtract(b, a)), Math.cos(angle) / (2 * s));
  return [circleAbout(add(m, up), chord / (2 * s)), circleAbout(subtract(m, up), chord / (2 * s))];
};

/** The straight edge on either flank of two circles, moved in by the third's radius. */
const flanks = (a: Point, ra: number, b: Point, rb: number, rc: number): readonly Locus[] => {
  const d = distance(a, b);
  if (d < 1e-9) return [];
  const u = scale(subtract(b, a), 1 / d);
  // The edge's outward normal n: n·a + ra = n·b + rb.
  const along = Math.max(-1, Math.min(1, (ra - rb) / d));
  const across = Math.sqrt(1 - along * along);
  return [across, -across].map((k) => {
    const n = add(scale(u, along), scale(leftOf(u), k));
    return { kind: 'line', through: add(a, scale(n, ra - rc)), along: leftOf(n) };
  });
};

/**
 * The end of one line, its other end known, square to the other line; a shared corner lies on the circle over the two
 * far ends (Thales).
 */
const squares = (target: number, of: readonly number[], at: (f: number | undefined) => Point): readonly Locus[] => {
  const [a, b, c, d] = of;
  const first = target === a || target === b;
  const second = target === c || target === d;
  const otherOfFirst = at(target === a ? b : a);
  const otherOfSecond = at(target === c ? d : c);
  if (first && second)
    return [circleAbout(midpoint(otherOfFirst, otherOfSecond), distance(otherOfFirst, otherOfSecond) / 2)];
  const line = first ? lineThrough(at(c), at(d)) : lineThrough(at(a), at(b));
  return line === null
    ? []
    : [{ kind: 'line', through: first ? otherOfFirst : otherOfSecond, along: leftOf(line.along) }];
};

/**
 * Where the reading lets its feature `target` lie, the places of its other features and all radii being known: any one
 * of the loci. Empty where it says nothing about it.
 */
export const lociOf = (
  tie: Tie,
  target: number,
  place: (feature: number) => Point,
  radius: (feature: number) => number,
): readonly Locus[] => {
  const { kind, value, point } = tie.reading;
  const [f0 = -1, f1 = -1, f2 = -1] = tie.of;
  const at = (f: number | undefined): Point => place(f ?? -1);
  const rest = tie.of.filter((f) => f !== target);
  const round = (length: number): readonly Locus[] => (length >= 0 ? [circleAbout(at(rest[0]), length)] : []);
  if (isDistance(kind)) return round(apartBy(kind, value, radius(f0), radius(f1)));
  switch (kind) {
    case 'at':
      return point === null ? [] : [{ kind: 'point', point }];
    case 'touch':
      return point === null ? [] : [circleAbout(point, radius(f0))];
    case 'angle':
      return target === f1 ? vertices(at(f0), at(f2), value) : arms(at(f1), at(rest.find((f) => f !== f1)), value);
    case 'line': {
      const line = lineThrough(at(rest[0]), at(rest[1]));
      return line === null ? [] : [line];
    }
    case 'offset':
      return target === f0 ? beside(at(f1), at(f2), value) : tangents(at(target === f1 ? f2 : f1), at(f0), value);
    case 'flush': {
      const [g = -1, h = -1] = rest;
      return flanks(at(g), radius(g), at(h), radius(h), radius(target));
    }
    case 'square':
      return squares(target, tie.of, at);
    case 'runout': {
      if (target !== f0 && target !== f1) return [];
      const [p, q] = [at(tie.of[2]), at(tie.of[3])];
      const high = tie.reading.runOut?.high ?? null;
      const way = high === null ? null : lineThrough(p, q);
      const off = way === null || high === null ? { x: 0, y: 0 } : scale(turned(way.along, high.turn), value / 2);
      return [
        {
          kind: 'point',
          point: target === f0 ? add(at(f1), off) : subtract(at(f0), off),
        },
      ];
    }
    case 'dia':
      return [];
  }
};
