import { type Point, add, chiSquareTail, distance, heading, polar, subtract } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import type { Pattern } from '@fayplate/survey';
import { adjust } from '../fit/adjust.js';
import { holdAll } from '../fit/constrain.js';
import { type Construction, positionOf, slopesOf } from '../fit/construction.js';
import type { Informing } from '../fit/information.js';
import type { Drawn } from '../groups/group.js';
import type { Measured } from '../measured/points.js';
import type { Candidate, LaidFeature } from '../types.js';
import { sayLayout } from '../words/candidate.js';
import { type Answering, conditions, decidedBy, intoFrame } from './frame.js';
import { type Placed, arrayOf, circleOf, gridOf, mirrorOf } from './laid.js';
import type { Settled } from './quantise.js';
import { construct } from './weigh.js';
import type { Group } from '../groups/group.js';

/** What a candidate is reported against: the face's own frame, centres and words. */
export interface Reporting {
  /** Free of any frame: what the odds are judged by. */
  readonly free: Measured;
  /** In the face's frame, whose origin and direction are exact: what is answered. */
  readonly measured: Measured;
  readonly answering: Answering;
  readonly radii: readonly (number | null)[];
  /** 95 % radius of each measured centre, mm. */
  readonly within: readonly number[];
  readonly kindOf: (id: string) => FeatureKind;
  readonly inform: Informing;
}

/** J, 2n × d row by row. */
const slopesOfPlaces = (construction: Construction, parameters: readonly number[], count: number): Float64Array => {
  const d = parameters.length;
  const j = new Float64Array(2 * count * d);
  for (const [i, place] of construction.places) {
    slopesOf(place, parameters, (row, p, slope) => {
      const at = (2 * i + row) * d + p;
      j[at] = (j[at] as number) + slope;
    });
  }
  return j;
};

/** J Σ Jᵀ. */
const carryCovariance = (j: Float64Array, sigma: Float64Array, rows: number, d: number): Float64Array => {
  const half = new Float64Array(rows * d);
  for (let i = 0; i < rows; i++) {
    for (let p = 0; p < d; p++) {
      const v = j[i * d + p] as number;
      if (v !== 0) for (let q = 0; q < d; q++) half[i * d + q] = (half[i * d + q] as number) + v * (sigma[p * d + q] as number);
    }
  }
  const out = new Float64Array(rows * rows);
  for (let i = 0; i < rows; i++) {
    for (let k = 0; k <= i; k++) {
      let s = 0;
      for (let p = 0; p < d; p++) s += (half[i * d + p] as number) * (j[k * d + p] as number);
      out[i * rows + k] = s;
      out[k * rows + i] = s;
    }
  }
  return out;
};

const rowsOf = (m: Float64Array, size: number): readonly (readonly number[])[] => Array.from({ length: size }, (_, i) => Array.from(m.subarray(i * size, (i + 1) * size)));

/** Adjusts a composition with its quantities settled, every other centre of the face free, and tells it in the face's frame. */
export const candidate = (reporting: Reporting, groups: readonly Group[], way: Settled, odds: number): Candidate | null => {
  const { measured, answering } = reporting;
  const everything = measured.ids.map((_, i) => i);
  const laid = new Set(groups.flatMap((g) => [...g.members, ...('feature' in g.about ? [g.about.feature] : [])]));
  const { construction: open, drawn } = construct(measured, groups, everything.filter((i) => !laid.has(i)));
  const held = holdAll(open, way.values);
  const adjusted = adjust(held, measured.points, reporting.inform(everything));
  if (adjusted === null) return null;
  const fitted = everything.map((i): Point => {
    const place = held.places.get(i);
    if (place === undefined) throw new RangeError('candidate: a centre has no place');
    return positionOf(place, adjusted.parameters);
  });
  const free = new Set([...measured.fasteners].filter((f) => !groups.some((g) => g.members.includes(f))));
  const parameters = adjusted.parameters.length;
  // Three coordinates are exact by choice of frame, no observations; a parameter that only they decide is none either.
  const slopes = slopesOfPlaces(held, adjusted.parameters, everything.length);
  const decided = decidedBy(conditions(measured.ids, fitted, answering), slopes, parameters);
  const dof = 2 * everything.length - 3 - (parameters - decided);
  const framed = intoFrame(measured.ids, fitted, carryCovariance(slopes, adjusted.covariance, 2 * everything.length, parameters), answering);
  const placed: Placed = { ids: measured.ids, construction: held, parameters: adjusted.parameters, way, move: framed.move, turn: framed.turn, framed: framed.points };
  const told = <T>(how: (p: Placed, d: Drawn) => T | null): readonly T[] => drawn.flatMap((d) => how(placed, d) ?? []);
  const idsOf = (members: readonly number[]): readonly string[] => members.map((i) => measured.ids[i] ?? '');
  const opposite = groups.flatMap((g) => (g.kind === 'opposite' ? idsOf(g.members) : []));
  const circles = told(circleOf);
  const arrays = told(arrayOf);
  const [said] = told(mirrorOf);
  const [grid] = told(gridOf);
  const centre = circles[0]?.centre ?? arrays[0]?.centre ?? (grid === undefined ? null : (framed.points[measured.ids.indexOf(grid.from)] ?? null));
  const parts = {
    circles,
    arrays,
    grid: grid ?? null,
    mirror: said ?? (centre === null ? null : followingMirror(measured, framed.points, centre)),
    opposite: opposite.length === 0 ? null : opposite,
    asMeasured: idsOf([...free]),
  };
  const pattern: Pattern = { ids: measured.ids, points: framed.points, radii: reporting.radii, covariance: rowsOf(framed.covariance, 2 * everything.length) };
  return {
    ...parts,
    says: sayLayout(parts, reporting.kindOf, { unit: 'mm', fraction: null }),
    chi2: adjusted.chi2,
    dof,
    p: dof > 0 ? chiSquareTail(adjusted.chi2, dof) : null,
    odds,
    features: new Map(measured.fasteners.map((i): [string, LaidFeature] => [measured.ids[i] ?? '', shiftOf(framed.points[i], measured.points[i], reporting.within[i])])),
    pattern,
  };
};

const shiftOf = (at: Point | undefined, seen: Point | undefined, within: number | undefined): LaidFeature => {
  if (at === undefined || seen === undefined) throw new RangeError('candidate: a centre is missing');
  return { x: at.x, y: at.y, shift: distance(at, seen), within: within ?? 0 };
};

/** A line through the centre that all fasteners are symmetrical about as they are laid out, to rounding: the one nearest to upright. */
const followingMirror = (measured: Measured, points: readonly Point[], centre: Point): Candidate['mirror'] => {
  const some = measured.fasteners.map((f) => points[f] ?? centre);
  const [first] = some;
  if (first === undefined || some.length < 2) return null;
  const angle = (p: Point): number => heading(subtract(p, centre));
  const axes = some.flatMap((p) => [(angle(first) + angle(p)) / 2, (angle(first) + angle(p) + Math.PI) / 2]).map((a) => a - Math.PI * Math.floor(a / Math.PI));
  const near = 1e-7 * measured.room;
  const holds = (axis: number): boolean =>
    some.every((p) => {
      const image = add(centre, polar(distance(p, centre), 2 * axis - angle(p)));
      return some.some((q) => distance(q, image) < near);
    });
  const [axis] = axes.filter(holds).sort((a, b) => Math.abs(a - Math.PI / 2) - Math.abs(b - Math.PI / 2));
  return axis === undefined ? null : { axis, through: centre, said: false, features: measured.fasteners.map((f) => measured.ids[f] ?? '') };
};

/** Whether two candidates imply the same drawing: the same positions with the same freedom. */
export const sameDrawing = (a: Candidate, b: Candidate): boolean => {
  const far = a.pattern.points.some((p, i) => distance(p, b.pattern.points[i] ?? p) > 1e-5);
  if (far || a.dof !== b.dof) return false;
  return a.pattern.covariance.every((row, i) => row.every((v, j) => Math.abs(v - (b.pattern.covariance[i]?.[j] ?? 0)) < 1e-6));
};

