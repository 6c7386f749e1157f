import {
  type Circle,
  type LengthUnit,
  type Motion,
  type Path,
  type Point,
  apply,
  circlePath,
  crossingOf,
  flatten,
  offsetPath,
  say,
  speechFor,
} from '@fayplate/core';
import type { Face, RimPoint } from '@fayplate/job';
import type { Desk } from '../desk.js';
import type { MatedFace } from '../types.js';
import { beltPath } from './hull.js';
import { type Outlined, type Piece, outlineOfPieces } from './stretches.js';

type RimDrawn =
  | { readonly ok: true; readonly path: Path; readonly rests: Outlined['rests'] }
  | { readonly ok: false; readonly fault: string };

/** Chords this near to their arcs show whether an outline crosses itself, mm. */
const FINE = 0.5;

const noOutline = (face: Face): RimDrawn => ({
  ok: false,
  fault: `the rim of ${face.name} does not make a closed outline: give at least three places, in order round the part`,
});

const filletOf = ({ fillet }: RimPoint): { readonly fillet?: number } => (fillet === undefined ? {} : { fillet });

/**
 * The rim of a part on the plate, moved outward by `margin`, mm. Places are in the face's bench frame where its
 * readings fix one (`bench`), else in the face's own. Corners and features alone are gone round as by a belt; where a
 * stretch of an arc or a line is fitted, or a lobe is given by its radius, each piece ends where it crosses its
 * neighbours, and the whole is moved out exactly.
 */
export const rimOutline = (
  face: Face,
  mated: MatedFace,
  bench: Motion | null,
  margin: number,
  unit: LengthUnit = 'mm',
): RimDrawn => {
  if (face.rim.length === 0)
    return {
      ok: false,
      fault: `${face.name} has no \`rim\`: list the points of its outline, or choose another outline`,
    };
  const laid = (p: Point): Point => apply(mated.motion, bench === null ? p : apply(bench, p));
  // Moved inward no belt goes round corners: they stay corners.
  const belt = margin >= 0 && face.rim.every((p) => 'at' in p || 'feature' in p);
  const circles: Circle[] = [];
  const pieces: Piece[] = [];
  for (const point of face.rim) {
    if ('at' in point) {
      circles.push({ centre: laid(point.at), radius: margin });
      pieces.push({ kind: 'corner', at: laid(point.at) });
      continue;
    }
    if ('along' in point) {
      pieces.push({ kind: point.along, points: point.points.map(laid), ...filletOf(point) });
      continue;
    }
    const name = 'round' in point ? point.round : point.feature;
    const i = mated.pattern.ids.indexOf(name);
    const centre = mated.pattern.points[i];
    if (centre === undefined)
      return { ok: false, fault: `the rim of ${face.name} runs round ${name}, whose place is not known` };
    const own = mated.pattern.radii[i] ?? (face.features.find((f) => f.id === name)?.diameter?.value ?? 0) / 2;
    const radius = 'round' in point ? point.radius : own + point.margin;
    circles.push({ centre, radius: radius + margin });
    pieces.push({ kind: 'lobe', centre, radius, ...filletOf(point) });
  }
  if (belt) {
    // A belt may take a loop up in a corner; the centres still show that they are out of order.
    const crossed = crossingOf(circles.map((c) => c.centre)) !== null;
    const path = crossed ? null : beltPath(circles);
    return path === null || crossingOf(flatten(path, FINE)) !== null ? noOutline(face) : { ok: true, path, rests: [] };
  }
  const [alone] = pieces;
  // A lobe by itself is a round part.
  if (pieces.length === 1 && alone?.kind === 'lobe')
    return alone.radius + margin > 0
      ? { ok: true, path: circlePath(alone.centre, alone.radius + margin), rests: [] }
      : noOutline(face);
  const outlined = outlineOfPieces(pieces);
  if (outlined === null) return noOutline(face);
  const path = offsetPath(outlined.path, margin);
  return path === null
    ? {
        ok: false,
        fault: `a margin of ${say(margin, speechFor(unit))} is more than a hollow of the rim of ${face.name} allows`,
      }
    : { ok: true, path, rests: outlined.rests };
};

/** The rim of one of the two parts on the desk, moved outward by `margin`, mm. */
export const rimOnDesk = (desk: Desk, face: Face, margin: number): RimDrawn =>
  rimOutline(
    face,
    desk.mated[face === desk.faces[0] ? 0 : 1],
    desk.benches.get(face.name) ?? null,
    margin,
    desk.job.units,
  );

/**
 * What is wrong with a rim that makes no outline: the piece to look at, counted from 0, and the earlier one that it
 * crosses where it crosses one. Null where it makes one, or where a feature that it runs round is not placed, which is
 * told of by itself.
 */
export const rimFault = (
  face: Face,
  mated: MatedFace,
  bench: Motion | null,
): { readonly piece: number; readonly crosses: number | null } | null => {
  const placeOf = (id: string): Point | undefined => mated.pattern.points[mated.pattern.ids.indexOf(id)];
  const named = face.rim.flatMap((p) => ('round' in p ? [p.round] : 'feature' in p ? [p.feature] : []));
  if (face.rim.length === 0 || named.some((id) => placeOf(id) === undefined)) return null;
  if (rimOutline(face, mated, bench, 0).ok) return null;
  const laid = (p: Point): Point => apply(mated.motion, bench === null ? p : apply(bench, p));
  const along = face.rim.flatMap((p, piece) => {
    const points =
      'at' in p ? [laid(p.at)] : 'along' in p ? p.points.map(laid) : [placeOf('round' in p ? p.round : p.feature)];
    return points.flatMap((at) => (at === undefined ? [] : [{ at, piece }]));
  });
  const crossing = crossingOf(along.map((p) => p.at));
  return crossing === null
    ? { piece: 0, crosses: null }
    : { piece: along[crossing[1]]?.piece ?? 0, crosses: along[crossing[0]]?.piece ?? 0 };
};
