import { type Path, type Point, type Speech, apply, distance, minusSign, sayAll, say, sayNumber } from '@fayplate/core';
import { type Plate, outlineSize } from '@fayplate/plate';
import type { TableAxes } from '../frame/axes.js';

/** Centres this near are one, mm. */
const SAME = 0.01;

interface Arc {
  readonly centre: Point;
  readonly radius: number;
}

const arcsOf = (path: Path): readonly Arc[] => {
  const arcs = path.edges.flatMap((e) =>
    e.kind === 'arc' ? [{ centre: e.centre, radius: distance(e.centre, e.to) }] : [],
  );
  return arcs.filter(
    (a, i) => arcs.findIndex((b) => distance(a.centre, b.centre) < SAME && Math.abs(a.radius - b.radius) < SAME) === i,
  );
};

/** Where the sides of a rectangle lie, as long as it lies along the axes. */
const fromTo = ({ blank, motion }: TableAxes, speech: Speech, places: number): string => {
  if (Math.abs(Math.sin(motion.turn)) > 1e-9) return '';
  const { left, bottom, width, height, finished } = blank;
  const at = (mm: number): string => minusSign(sayNumber(mm, speech, places));
  const side = (from: number, whole: number, own: number): string =>
    `${at(from + (whole - own) / 2)} to ${at(from + (whole + own) / 2)}`;
  return (
    `, as seen from side B from X ${side(left, width, finished.width)} and from Y ` +
    side(bottom, height, finished.height)
  );
};

/**
 * How the outline is set out with dividers and a rule: its circle, its corners, or the arcs about the holes that it
 * follows and the lines that touch them. An outline of many short arcs is not set out but taken from the template.
 */
export const outlineWords = (plate: Plate, axes: TableAxes, speech: Speech): string => {
  const notches = plate.bores.flatMap((b) => (b.box?.notch === true && b.depth === null ? [b.id] : []));
  const rest = wholeWords(plate, axes, speech);
  return notches.length === 0 ? rest : `${rest} ${sayAll(notches)}: as milled, not sawn.`;
};

const wholeWords = (plate: Plate, axes: TableAxes, speech: Speech): string => {
  const { shape } = plate.outline;
  const path = plate.outline.whole ?? plate.outline.path;
  const places = speech.unit === 'in' ? 3 : 2;
  const arcs = arcsOf(path);
  const nameOf = (p: Point): string => {
    const cut = [...plate.holes, ...plate.bores].find((c) => distance(c, p) < SAME);
    const at = apply(axes.motion, p);
    return cut?.id ?? `X ${sayNumber(at.x, speech)}, Y ${sayNumber(at.y, speech)}`;
  };
  if (shape === 'round' && arcs.length === 1) {
    const [only] = arcs;
    return only === undefined
      ? 'Its outline is on the template.'
      : `Its outline is a circle of radius ${say(only.radius, speech, places)} about ${nameOf(only.centre)}.`;
  }
  if (shape === 'rectangle') {
    const [corner] = arcs;
    const round = corner === undefined ? 'square corners' : `corners of radius ${say(corner.radius, speech, places)}`;
    return (
      `Its outline is a rectangle of ${outlineSize(plate.outline.blank, speech)} with ` +
      `${round}${fromTo(axes, speech, places)}.`
    );
  }
  if (shape === 'like' || arcs.length === 0) return 'Its outline is on the template.';
  const byRadius = new Map<string, string[]>();
  for (const a of arcs) {
    const r = say(a.radius, speech, places);
    byRadius.set(r, [...(byRadius.get(r) ?? []), nameOf(a.centre)]);
  }
  const each = [...byRadius].map(([r, about]) => `radius ${r} about ${sayAll(about)}`);
  const lines = path.edges.some((e) => e.kind === 'line') ? '; straight lines touch each arc and the next' : '';
  return `Its outline: arcs of ${each.join('; of ')}${lines}.`;
};
