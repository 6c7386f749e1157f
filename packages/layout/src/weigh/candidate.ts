import { type Point, chiSquareTail, distance, wrapAngle } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import type { Pattern } from '@fayplate/survey';
import { Matrix, SVD } from 'ml-matrix';
import { adjust } from '../fit/adjust.js';
import { holdAll, quantityAt } from '../fit/constrain.js';
import { type Construction, positionOf, slopesOf, valueOf } from '../fit/construction.js';
import type { Whitening } from '../fit/whiten.js';
import type { Drawn } from '../groups/group.js';
import type { Measured } from '../measured/points.js';
import { sayRound } from '../prior/length.js';
import type { Candidate, LaidCircle, LaidFeature } from '../types.js';
import { sayLayout } from '../words/candidate.js';
import { type Answering, conditions, intoFrame } from './frame.js';
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
  readonly whitening: (indices: readonly number[]) => Whitening;
}

const slopesOfPlaces = (construction: Construction, parameters: readonly number[], count: number): Matrix => {
  const j = Matrix.zeros(2 * count, parameters.length);
  for (const [i, place] of construction.places) slopesOf(place, parameters, (row, p, slope) => j.set(2 * i + row, p, j.get(2 * i + row, p) + slope));
  return j;
};

/** Adjusts a composition with its quantities settled, every other centre of the face free, and tells it in the face's frame. */
export const candidate = (reporting: Reporting, groups: readonly Group[], way: Settled, odds: number): Candidate | null => {
  const { measured, answering } = reporting;
  const everything = measured.ids.map((_, i) => i);
  const laid = new Set(groups.flatMap((g) => [...g.members, ...('feature' in g.about ? [g.about.feature] : [])]));
  const { construction: open, drawn } = construct(measured, groups, everything.filter((i) => !laid.has(i)));
  const held = holdAll(open, way.values);
  const adjusted = adjust(held, measured.points, reporting.whitening(everything));
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
  const decided = new SVD(conditions(measured.ids, fitted, answering.frame, answering.clocked).mmul(slopes).transpose()).diagonal.filter((v) => v > 1e-9).length;
  const dof = 2 * everything.length - 3 - (parameters - decided);
  const framed = intoFrame(measured.ids, fitted, slopes.mmul(adjusted.covariance).mmul(slopes.transpose()), answering);
  const circles = drawn.flatMap((d) => circleOf(d, held, adjusted.parameters, way, framed.points, measured));
  const parts = {
    circles,
    arrays: [],
    grid: null,
    mirror: null,
    opposite: null,
    asMeasured: [...free].map((i) => measured.ids[i] ?? ''),
  };
  const pattern: Pattern = { ids: measured.ids, points: framed.points, radii: reporting.radii, covariance: framed.covariance.to2DArray() };
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

const circleOf = (d: Drawn, held: Construction, parameters: readonly number[], way: Settled, framed: readonly Point[], measured: Measured): readonly LaidCircle[] => {
  const { group } = d;
  const size = d.sizes[0];
  if ((group.kind !== 'divided' && group.kind !== 'circle') || size === undefined) return [];
  const diameter = quantityAt(held, size, parameters);
  const value = way.values[size] ?? null;
  const at = group.members.map((m) => framed[m] ?? { x: 0, y: 0 });
  const centre = 'feature' in group.about ? (framed[group.about.feature] ?? { x: 0, y: 0 }) : centreBehind(at, group.members, held, parameters, diameter);
  const unit = way.unitOf[size] ?? null;
  const base = {
    diameter,
    size: value === null || unit === null ? null : sayRound(value, unit),
    centre,
    about: 'feature' in group.about ? (measured.ids[group.about.feature] ?? null) : null,
    features: group.members.map((m) => measured.ids[m] ?? ''),
  };
  if (group.kind === 'circle') return [{ ...base, divisions: null, phase: 0, occupied: [] }];
  const first = at[0] ?? centre;
  const clockwise = Math.PI / 2 - Math.atan2(first.y - centre.y, first.x - centre.x);
  const part = (2 * Math.PI) / group.divisions;
  // The first member's own place counted clockwise from the division nearest to 12 o'clock.
  const offset = wrapAngle(clockwise);
  const whole = Math.floor(offset / part + 0.5 + 1e-9);
  const phase = offset - whole * part;
  const zero = group.places[0] ?? 0;
  const occupied = group.places.map((p) => (((p - zero + whole) % group.divisions) + group.divisions) % group.divisions);
  return [{ ...base, divisions: group.divisions, phase, occupied }];
};

/** The centre of a circle in the frame that its members were moved into: a step back along the direction of the first. */
const centreBehind = (at: readonly Point[], members: readonly number[], held: Construction, parameters: readonly number[], diameter: number): Point => {
  const place = held.places.get(members[0] ?? -1);
  const other = held.places.get(members[1] ?? -1);
  const [a, b] = at;
  if (place === undefined || other === undefined || a === undefined || b === undefined) return { x: 0, y: 0 };
  // Directions turn together when the drawing is turned: find that turn from one pair of members.
  const p = positionOf(place, parameters);
  const q = positionOf(other, parameters);
  const turn = Math.atan2(b.y - a.y, b.x - a.x) - Math.atan2(q.y - p.y, q.x - p.x);
  const back = valueOf(place.turn, parameters) + turn + Math.PI;
  return { x: a.x + (diameter / 2) * Math.cos(back), y: a.y + (diameter / 2) * Math.sin(back) };
};

/** Whether two candidates imply the same drawing: the same positions with the same freedom. */
export const sameDrawing = (a: Candidate, b: Candidate): boolean => {
  const far = a.pattern.points.some((p, i) => distance(p, b.pattern.points[i] ?? p) > 1e-5);
  if (far || a.dof !== b.dof) return false;
  return a.pattern.covariance.every((row, i) => row.every((v, j) => Math.abs(v - (b.pattern.covariance[i]?.[j] ?? 0)) < 1e-6));
};

