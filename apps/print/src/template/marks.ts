import { type Path, type Point, type Speech, add, cross, distance, flatten, polar, subtract } from '@fayplate/core';
import { type Obstacle, type Shape, line, pens, polygon } from '@fayplate/drawing';
import { sizeWords } from './words.js';

/** A centre line that stops short of every punch point it would run through, so that the bare centre stays bare. */
export const centreLine = (
  from: Point,
  to: Point,
  keepOff: readonly { readonly at: Point; readonly keep: number }[],
): readonly Shape[] => {
  const length = distance(from, to);
  const u = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const gaps = keepOff
    .map(({ at, keep }) => {
      const along = (at.x - from.x) * u.x + (at.y - from.y) * u.y;
      const off = Math.abs((at.x - from.x) * u.y - (at.y - from.y) * u.x);
      return { along, half: off < keep ? keep : 0 };
    })
    .filter((g) => g.half > 0)
    .sort((a, b) => a.along - b.along);
  const out: Shape[] = [];
  let pen = 0;
  const draw = (a: number, b: number): void => {
    const at = (k: number): Point => ({ x: from.x + k * u.x, y: from.y + k * u.y });
    if (b - a > 1) out.push(line('note', at(a), at(b), pens.centre));
  };
  for (const g of gaps) {
    draw(pen, Math.min(length, g.along - g.half));
    pen = Math.max(pen, g.along + g.half);
  }
  draw(pen, length);
  return out;
};

/** How far out a ray leaves the path for good, mm; 0 where it never meets it. */
export const rayExit = (path: Path, from: Point, direction: number): number => {
  const u = polar(1, direction);
  const points = flatten(path, 0.05);
  return points.reduce((far, a, i) => {
    const v = subtract(points[(i + 1) % points.length] ?? a, a);
    const w = cross(u, v);
    if (w === 0) return far;
    const r = subtract(a, from);
    const along = cross(r, v) / w;
    const across = cross(r, u) / w;
    return across >= 0 && across <= 1 ? Math.max(far, along) : far;
  }, 0);
};

/** A triangle that stands inside the outline at a clock direction and points out to its edge. */
export const clockMark = (
  outline: Path,
  centre: Point,
  direction: number,
): { readonly middle: Point; readonly shape: Shape } => {
  const edge = rayExit(outline, centre, direction);
  const at = (k: number): Point => add(centre, polar(k, direction));
  const base = at(edge - 3.6);
  const half = polar(1.3, direction + Math.PI / 2);
  return {
    middle: at(edge - 2.3),
    shape: polygon('note', [at(edge - 1), add(base, half), { x: base.x - half.x, y: base.y - half.y }], null, 0),
  };
};

/** A centre or hole punch as it is sold; diameter in mm. */
export interface Punch {
  readonly name: string;
  readonly diameter: number;
}

/** A soft sheet is punched no finer than a tenth of a millimetre or a thousandth of an inch. */
export const softWords = (mm: number, speech: Speech): string => {
  const step = speech.unit === 'in' ? 0.0254 : 0.1;
  return sizeWords(Math.round(mm / step) * step, speech);
};

/**
 * The smallest punch on hand that is no smaller than the eased hole (0.05 mm let pass) and no more than a tenth and 1
 * mm larger.
 */
export const punchFor = (diameter: number, punches: readonly Punch[]): Punch | null =>
  punches
    .filter((p) => p.diameter >= diameter - 0.05 && p.diameter <= diameter * 1.1 + 1)
    .reduce<Punch | null>((best, p) => (best === null || p.diameter < best.diameter ? p : best), null);

/**
 * The nearest hollow punch that is sold and no smaller (0.05 mm let pass): by thirty-seconds of an inch or half
 * millimetres (common practice).
 */
const soldPunch = (diameter: number, speech: Speech): string => {
  const step = speech.unit === 'in' ? 25.4 / 32 : 0.5;
  const sold = Math.ceil((diameter - 0.05) / step - 1e-9) * step;
  return `${sizeWords(sold, speech)} ${speech.unit}`;
};

export const punchWords = (diameter: number, punches: readonly Punch[] | null, speech: Speech): string => {
  const size = `⌀${softWords(diameter, speech)}`;
  if (punches === null) return `punch ${soldPunch(diameter, speech)}`;
  const punch = punchFor(diameter, punches);
  return punch === null ? `${size}: no punch fits, cut by hand` : `punch ${punch.name}`;
};

/** Lines of a closed path as things to keep lettering off; arcs as chords that stray less than 0.3 mm. */
export const edgeObstacles = (path: Path): readonly Obstacle[] => {
  const points = flatten(path, 0.3);
  return points.map((from, i) => ({
    kind: 'segment',
    crossable: true,
    segment: { from, to: points[(i + 1) % points.length] ?? from },
  }));
};

/** The arms of a cross-hair that stands elsewhere than at its label's centre, such as at the end of a slot. */
export const armObstacles = ({ x, y }: Point, reach: number, owner: string): readonly Obstacle[] => [
  { kind: 'segment', owner, segment: { from: { x: x - reach, y }, to: { x: x + reach, y } } },
  { kind: 'segment', owner, segment: { from: { x, y: y - reach }, to: { x, y: y + reach } } },
];
