import type { Plate, PlateHole } from '@fayplate/plate';

const disc = (diameter: number): number => (Math.PI * diameter ** 2) / 4;

/**
 * Volume of a plate by school formulas, for plates whose holes stand apart and in the open face, and whose bores lie
 * about one centre: written apart from the solid's own geometry.
 */
export const volumeByFormula = (p: Plate, outlineArea: number): number => {
  const t = p.thickness;
  const spigots = p.bores.filter((b) => b.kind === 'spigot').reduce((s, b) => s + disc(b.diameter) * b.depth!, 0);
  const through = p.bores.find((b) => b.side === 'through');
  const tall = p.bores.filter((b) => b.kind === 'spigot').reduce((s, b) => s + b.depth!, 0);
  const bore = through === undefined ? 0 : disc(through.diameter) * (t + tall);
  const recesses = p.bores
    .filter((b) => b.kind === 'recess' || b.kind === 'relief')
    .reduce((s, b) => s + (disc(b.diameter) - disc(through?.diameter ?? 0)) * b.depth!, 0);
  return outlineArea * t + spigots - bore - recesses - p.holes.reduce((s, h) => s + holeVolume(h, t), 0);
};

const holeVolume = (h: PlateHole, t: number): number => {
  const d = h.diameter;
  const section = disc(d) + (h.slot?.length ?? 0) * d;
  // A 118° drill's point is a cone of height d/2 / tan 59°.
  const body =
    h.depth === null
      ? section * t
      : section * h.depth + (h.slot === null ? (disc(d) * (d / 2 / Math.tan((59 * Math.PI) / 180))) / 3 : 0);
  if (h.sink === null) return body;
  const { diameter: w, depth } = h.sink;
  if (h.sink.kind !== 'countersunk') return body + (disc(w) - disc(d)) * depth;
  const frustum = (Math.PI * depth * (w * w + w * d + d * d)) / 12;
  return body + frustum - disc(d) * depth;
};
