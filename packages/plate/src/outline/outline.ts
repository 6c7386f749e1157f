import {
  type Box,
  type Circle,
  type Edge,
  type Path,
  circlePath,
  distance,
  pathBox,
  polygonPath,
  signedArea,
} from '@fayplate/core';
import type { OutlineSpec } from '@fayplate/job';
import type { Desk } from '../desk.js';
import { type Cut, cutRadius } from '../solids/cut.js';
import type { Outline, PlateBore } from '../types.js';
import { hullOfCircles } from './hull.js';
import { rimOnDesk } from './rim.js';

/**
 * A rectangle with rounded corners (`corner` no more than half its shorter side), counter-clockwise; square corners
 * where `corner` is 0.
 */
export const rectanglePath = ({ left, bottom, right, top }: Box, corner: number): Path => {
  const r = Math.min(corner, (right - left) / 2, (top - bottom) / 2);
  if (r <= 0)
    return polygonPath([
      { x: left, y: bottom },
      { x: right, y: bottom },
      { x: right, y: top },
      { x: left, y: top },
    ]);
  const corners = [
    { centre: { x: right - r, y: bottom + r }, from: { x: right - r, y: bottom }, to: { x: right, y: bottom + r } },
    { centre: { x: right - r, y: top - r }, from: { x: right, y: top - r }, to: { x: right - r, y: top } },
    { centre: { x: left + r, y: top - r }, from: { x: left + r, y: top }, to: { x: left, y: top - r } },
    { centre: { x: left + r, y: bottom + r }, from: { x: left, y: bottom + r }, to: { x: left + r, y: bottom } },
  ];
  const edges = corners.flatMap(({ centre, from, to }): Edge[] => [
    { kind: 'line', to: from },
    { kind: 'arc', to, centre, ccw: true },
  ]);
  return { start: corners[3]?.to ?? { x: left, y: bottom }, edges, closed: true };
};

/** Every cut at its largest, a slot by both its ends, and raised spigots: what the outline has to hold. */
export const footprints = (cuts: readonly Cut[], bores: readonly PlateBore[]): readonly Circle[] => [
  ...cuts.filter((c) => c.notch !== true).flatMap((c) => c.spine.map((centre) => ({ centre, radius: cutRadius(c) }))),
  ...bores.filter((b) => b.kind === 'spigot').map((b) => ({ centre: { x: b.x, y: b.y }, radius: b.diameter / 2 })),
];

export type OutlineDrawn =
  | { readonly ok: true; readonly outline: Omit<Outline, 'mass'> }
  | { readonly ok: false; readonly fault: string };

/** How thick the blank has to be for the plate and the spigots that stand up from it, mm. */
const blankThickness = (desk: Desk, bores: readonly PlateBore[]): number =>
  (['A', 'B'] as const).reduce(
    (sum, side) =>
      sum + Math.max(0, ...bores.filter((b) => b.kind === 'spigot' && b.side === side).map((b) => b.depth ?? 0)),
    desk.thickness,
  );

const drawn = (shape: Outline['shape'], path: Path, thickness: number): OutlineDrawn => {
  const box = pathBox(path);
  return {
    ok: true,
    outline: {
      shape,
      path,
      area: Math.abs(signedArea(path)),
      blank: { width: box.right - box.left, height: box.top - box.bottom, thickness },
    },
  };
};

/** A round, rectangular or following outline round some circles; arcs stay arcs. Throws RangeError for no circles. */
export const outlineRound = (
  spec: Exclude<OutlineSpec, { readonly shape: 'like' }>,
  circles: readonly Circle[],
): Path => {
  if (spec.shape === 'round') {
    const reach = Math.max(...circles.map((c) => distance(c.centre, { x: 0, y: 0 }) + c.radius));
    return circlePath({ x: 0, y: 0 }, spec.diameter === null ? reach + (spec.margin ?? 0) : spec.diameter / 2);
  }
  const grown = circles.map((c) => ({ centre: c.centre, radius: c.radius + spec.margin }));
  if (spec.shape === 'follow')
    return hullOfCircles(grown.map((c) => ({ ...c, radius: Math.max(c.radius, spec.corner ?? 0) })));
  const boxes = grown.map(({ centre: { x, y }, radius: r }) => ({
    left: x - r,
    right: x + r,
    bottom: y - r,
    top: y + r,
  }));
  const box = {
    left: Math.min(...boxes.map((b) => b.left)),
    right: Math.max(...boxes.map((b) => b.right)),
    bottom: Math.min(...boxes.map((b) => b.bottom)),
    top: Math.max(...boxes.map((b) => b.top)),
  };
  return rectanglePath(box, spec.corner ?? 0);
};

/** The outline where what it holds has no say in it: a round plate of stated diameter, or the rim of a part. */
export const givenOutline = (desk: Desk): Path | null => {
  const spec = desk.spec.outline;
  if (spec.shape === 'round') return spec.diameter === null ? null : circlePath({ x: 0, y: 0 }, spec.diameter / 2);
  const face = desk.faces.find((f) => spec.shape === 'like' && f.name === spec.face);
  const rim = face === undefined || spec.shape !== 'like' ? null : rimOnDesk(desk, face, spec.margin);
  return rim === null || !rim.ok ? null : rim.path;
};

/**
 * The plate's outline round its cuts, as the job asks; arcs stay arcs. A round plate lies about the plate's origin,
 * which the registers share.
 */
export const drawOutline = (desk: Desk, cuts: readonly Cut[], bores: readonly PlateBore[]): OutlineDrawn => {
  const spec = desk.spec.outline;
  const circles = footprints(cuts, bores);
  const thickness = blankThickness(desk, bores);
  if (spec.shape === 'like') {
    const index = desk.faces.findIndex((f) => f.name === spec.face);
    const face = desk.faces[index];
    const mated = desk.mated[index];
    if (face === undefined || mated === undefined)
      return { ok: false, fault: `the outline is to be like ${spec.face}, which the plate does not join` };
    const rim = rimOnDesk(desk, face, spec.margin);
    if (!rim.ok) return rim;
    const made = drawn('like', rim.path, thickness);
    return made.ok ? { ok: true, outline: { ...made.outline, rests: rim.rests } } : made;
  }
  if (circles.length === 0)
    return { ok: false, fault: 'the plate has no hole and no bore, so there is nothing to draw an outline round' };
  return drawn(spec.shape, outlineRound(spec, circles), thickness);
};
