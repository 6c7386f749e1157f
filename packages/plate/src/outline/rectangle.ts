import { type Box, type Edge, type Path, polygonPath } from '@fayplate/core';

/** A rectangle with rounded corners (`corner` no more than half its shorter side), counter-clockwise; square corners where `corner` is 0. */
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
