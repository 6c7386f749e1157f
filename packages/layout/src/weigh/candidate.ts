import { type Point, chiSquareTail, distance } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import type { Pattern } from '@fayplate/survey';
import { adjust } from '../fit/adjust.js';
import { carryCovariance, rowsOf, slopesOfPlaces } from '../fit/carry.js';
import { holdAll } from '../fit/constrain.js';
import { positionOf } from '../fit/construction.js';
import type { Informing } from '../fit/information.js';
import { type Drawn, type Group, laidBy } from '../groups/group.js';
import type { Measured } from '../measured/points.js';
import type { Candidate, LaidFeature } from '../types.js';
import { sayLayout } from '../words/candidate.js';
import { type Answering, conditions, decidedBy, intoFrame } from './frame.js';
import { type Placed, arrayOf, circleOf, gridOf, mirrorOf } from './laid.js';
import type { Settled } from './quantise.js';
import { followingMirror } from './symmetry.js';
import { construct } from './weigh.js';

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

/** Adjusts a composition with its quantities settled, every other centre of the face free, and tells it in the face's frame. */
export const candidate = (
  reporting: Reporting,
  groups: readonly Group[],
  way: Settled,
  odds: number,
): Candidate | null => {
  const { measured, answering } = reporting;
  const everything = measured.ids.map((_, i) => i);
  const laid = new Set(groups.flatMap((g) => [...g.members, ...('feature' in g.about ? [g.about.feature] : [])]));
  const { construction: open, drawn } = construct(
    measured,
    groups,
    everything.filter((i) => !laid.has(i)),
  );
  const held = holdAll(open, way.values);
  const adjusted = adjust(held, measured.points, reporting.inform(everything));
  if (adjusted === null) return null;
  const fitted = everything.map((i): Point => {
    const place = held.places.get(i);
    if (place === undefined) throw new RangeError('candidate: a centre has no place');
    return positionOf(place, adjusted.parameters);
  });
  const parameters = adjusted.parameters.length;
  // Three coordinates are exact by choice of frame, no observations; a parameter that only they decide is none either.
  const slopes = slopesOfPlaces(held, adjusted.parameters, everything.length);
  const decided = decidedBy(conditions(measured.ids, fitted, answering), slopes, parameters);
  const dof = 2 * everything.length - 3 - (parameters - decided);
  const framed = intoFrame(
    measured.ids,
    fitted,
    carryCovariance(slopes, adjusted.covariance, 2 * everything.length, parameters),
    answering,
  );
  const placed: Placed = {
    ids: measured.ids,
    construction: held,
    parameters: adjusted.parameters,
    way,
    move: framed.move,
    turn: framed.turn,
    framed: framed.points,
  };
  const told = <T>(how: (p: Placed, d: Drawn) => T | null): readonly T[] => drawn.flatMap((d) => how(placed, d) ?? []);
  const idsOf = (members: readonly number[]): readonly string[] => members.map((i) => measured.ids[i] ?? '');
  const opposite = groups.flatMap((g) => (g.kind === 'opposite' ? idsOf(g.members) : []));
  const circles = told(circleOf);
  const arrays = told(arrayOf);
  const [said] = told(mirrorOf);
  const [grid] = told(gridOf);
  const centre =
    circles[0]?.centre ??
    arrays[0]?.centre ??
    (grid === undefined ? null : (framed.points[measured.ids.indexOf(grid.from)] ?? null));
  const parts = {
    circles,
    arrays,
    grid: grid ?? null,
    mirror: said ?? (centre === null ? null : followingMirror(measured, framed.points, centre)),
    opposite: opposite.length === 0 ? null : opposite,
    asMeasured: idsOf(measured.fasteners.filter((f) => !groups.some((g) => laidBy(g, measured).includes(f)))),
  };
  const pattern: Pattern = {
    ids: measured.ids,
    points: framed.points,
    radii: reporting.radii,
    covariance: rowsOf(framed.covariance, 2 * everything.length),
  };
  return {
    ...parts,
    says: sayLayout(parts, reporting.kindOf, { unit: 'mm', fraction: null }),
    chi2: adjusted.chi2,
    dof,
    p: dof > 0 ? chiSquareTail(adjusted.chi2, dof) : null,
    odds,
    features: new Map(
      measured.fasteners.map((i): [string, LaidFeature] => [
        measured.ids[i] ?? '',
        shiftOf(framed.points[i], measured.points[i], reporting.within[i]),
      ]),
    ),
    pattern,
  };
};

const shiftOf = (at: Point | undefined, seen: Point | undefined, within: number | undefined): LaidFeature => {
  if (at === undefined || seen === undefined) throw new RangeError('candidate: a centre is missing');
  return { x: at.x, y: at.y, shift: distance(at, seen), within: within ?? 0 };
};

/** Whether two candidates imply the same drawing: the same positions with the same freedom. */
export const sameDrawing = (a: Candidate, b: Candidate): boolean => {
  const far = a.pattern.points.some((p, i) => distance(p, b.pattern.points[i] ?? p) > 1e-5);
  if (far || a.dof !== b.dof) return false;
  return a.pattern.covariance.every((row, i) =>
    row.every((v, j) => Math.abs(v - (b.pattern.covariance[i]?.[j] ?? 0)) < 1e-6),
  );
};
