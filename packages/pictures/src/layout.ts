import { type Point, type Speech, add, distance, polar } from '@fayplate/core';
import { type Drawing, type Lettering, type Obstacle, type Shape, circle, crossHair, ellipse, group, inGrey, line, pens } from '@fayplate/drawing';
import type { Face } from '@fayplate/job';
import type { Candidate, FaceLayout, LaidCircle, LaidGrid } from '@fayplate/layout';
import type { LocatedFace } from '@fayplate/survey';
import { extentOf, placedFeatures, viewedWords } from './face.js';
import { type Label, labelShapes, lineObstacle } from './labels.js';
import { type Scale, enlargement, scaleFor } from './scale.js';
import { sheet } from './sheet.js';

/** Direction of a division, counter-clockwise from +x: divisions are counted clockwise from the phase, which is clockwise from 12. */
const directionOf = (c: LaidCircle, division: number): number => Math.PI / 2 - c.phase - (division * 2 * Math.PI) / (c.divisions ?? 1);

const divisionEnds = (c: LaidCircle, scale: Scale): readonly (readonly [Point, Point])[] =>
  c.divisions === null || c.divisions > 48
    ? []
    : Array.from({ length: c.divisions }, (_, k) => {
        const a = directionOf(c, k);
        return [add(c.centre, polar(c.diameter / 2 - 2 * scale.capital, a)), add(c.centre, polar(c.diameter / 2 + 2 * scale.capital, a))] as const;
      });

const circleShapes = (c: LaidCircle, scale: Scale): readonly Shape[] => {
  const empty = Array.from({ length: c.divisions ?? 0 }, (_, k) => k).filter((k) => !c.occupied.includes(k));
  return [
    circle('note', c.centre, c.diameter / 2, pens.centre),
    ...crossHair('note', c.centre, { open: 0, reach: 2 * scale.capital }, pens.hair),
    ...divisionEnds(c, scale).map(([from, to]) => line('note', from, to, pens.hair)),
    ...empty.map((k) => circle('note', add(c.centre, polar(c.diameter / 2, directionOf(c, k))), scale.capital * 0.45, pens.hidden, 1)),
  ];
};

const gridShapes = (g: LaidGrid, candidate: Candidate): readonly Shape[] => {
  const zero = candidate.features.get(g.from);
  if (zero === undefined) return [];
  const reach = Math.max(...[...candidate.features.values()].map((f) => distance(f, zero)));
  // The true step is too fine to draw: every line would touch the next. The lines through each feature show what it says.
  return g.features.flatMap((id) => {
    const f = candidate.features.get(id);
    if (f === undefined) return [];
    return [0, Math.PI / 2].map((quarter) => {
      const u = polar(reach * 0.08 + 3, g.axis + quarter);
      return line('note', { x: f.x - u.x, y: f.y - u.y }, add(f, u), pens.hair);
    });
  });
};

const mirrorShapes = (axis: number, reach: number): readonly Shape[] => {
  const u = polar(reach, axis);
  return [line('note', { x: -u.x, y: -u.y }, u, pens.centre)];
};

const obstaclesOf = (c: LaidCircle, scale: Scale): readonly Obstacle[] => divisionEnds(c, scale).map(([from, to]) => lineObstacle(from, to));

/** Measured centres with their ellipses, the intended positions and the construction that makes them, at true scale. */
export const layoutPicture = (face: Face, located: LocatedFace, layout: FaceLayout, _speech: Speech, lettering: Lettering): Drawing => {
  const placed = placedFeatures(face, located);
  const extent = extentOf(placed);
  const scale = scaleFor(extent);
  const shown = layout.candidates[layout.chosen ?? 0] ?? null;
  const widest = Math.max(0, ...placed.map(([, at]) => at.ellipse95.major));
  const larger = enlargement(widest, 3.2 * scale.capital);
  const reach = Math.max(10, ...extent.map((p) => Math.hypot(p.x, p.y))) * 1.08;
  const construction: readonly Shape[] =
    shown === null
      ? []
      : [
          ...shown.circles.flatMap((c) => circleShapes(c, scale)),
          ...(shown.grid === null ? [] : gridShapes(shown.grid, shown)),
          ...(shown.mirror === null ? [] : mirrorShapes(shown.mirror.axis, reach)),
        ];
  const measured = placed.flatMap(([f, at]) => [
    ...(f.kind === 'bore' || f.kind === 'spigot' ? [circle('note', at, at.radius ?? 2, inGrey(pens.narrow, 0.4))] : []),
    ellipse('note', at, { major: larger * at.ellipse95.major, minor: larger * at.ellipse95.minor, angle: at.ellipse95.angle }, pens.narrow),
  ]);
  // The step from measured to intended is enlarged as the ellipses are, so that both can be compared by eye.
  const intended = [...(shown?.features ?? [])].flatMap(([id, f]) => {
    const at = located.features.get(id);
    if (at === undefined) return [];
    const moved = { x: at.x + larger * (f.x - at.x), y: at.y + larger * (f.y - at.y) };
    return [...crossHair('note', moved, { open: 0, reach: scale.capital * 0.55 }, pens.wide)];
  });
  const labels: readonly Label[] = placed
    .filter(([f]) => f.kind !== 'bore' && f.kind !== 'spigot')
    .map(([f, at]) => ({ id: f.id, centre: at, radius: Math.max(larger * at.ellipse95.major, scale.capital * 0.7), lines: [f.id] }));
  const shapes = [
    group('construction', construction),
    group('measured', measured),
    group('intended', intended),
    ...labelShapes(labels, (shown?.circles ?? []).flatMap((c) => obstaclesOf(c, scale)), scale, lettering),
  ];
  const notes = [
    shown === null ? 'No simple layout fits.' : `${layout.chosen === null ? 'The likeliest, yet not likely enough to be taken' : 'Taken'}: ${shown.says}.`,
    `Ellipse: where the centre was measured, 95 %. Cross: where the maker meant it. Both steps and ellipses are drawn ${larger} times larger. ${viewedWords(face)}.`,
  ];
  return sheet(`${face.name}: as its maker meant it`, shapes, notes, scale, lettering);
};
