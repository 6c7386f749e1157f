import { type Point, type Speech, formatClock, say } from '@fayplate/core';
import { type Drawing, type Lettering, type Shape, arrow, group, inGrey, line, pens, polygon, text } from '@fayplate/drawing';
import type { Plate } from '@fayplate/plate';
import { hatch } from './hatch.js';
import { scaleFor } from './scale.js';
import { sectionProfile } from './section-profile.js';
import { sheet } from './sheet.js';

/** A dimension between two heights at x, with its words to the right. */
const thickness = (x: number, from: number, to: number, words: string, capital: number): readonly Shape[] => {
  const middle: Point = { x, y: (from + to) / 2 };
  const room = capital * 1.1;
  return [
    line('note', { x: x - room * 3, y: from }, { x: x + 1, y: from }, pens.hair),
    line('note', { x: x - room * 3, y: to }, { x: x + 1, y: to }, pens.hair),
    ...arrow('note', middle, { x, y: to }, pens.hair, capital),
    ...arrow('note', middle, { x, y: from }, pens.hair, capital),
    text('note', { x: x + room, y: middle.y - capital / 2 }, words, { capital }),
  ];
};

/** Height of each name over the plate, in rows from 0, so that none meets another. */
const rowsOf = (names: readonly { readonly u: number; readonly width: number }[], gap: number): readonly number[] => {
  const ends: number[] = [];
  const order = [...names.keys()].sort((a, b) => (names[a]?.u ?? 0) - (names[b]?.u ?? 0));
  const rows: number[] = names.map(() => 0);
  for (const i of order) {
    const { u, width } = names[i] ?? { u: 0, width: 0 };
    let row = 0;
    while ((ends[row] ?? Number.NEGATIVE_INFINITY) > u - width / 2) row++;
    rows[i] = row;
    ends[row] = u + width / 2 + gap;
  }
  return rows;
};

/** The plate cut through its centre at true scale: side B above, side A below, metal hatched. */
export const sectionPicture = (plate: Plate, speech: Speech, lettering: Lettering): Drawing => {
  const profile = sectionProfile(plate);
  const points = profile.solids.flat();
  const scale = scaleFor(points);
  const right = Math.max(...points.map((p) => p.x));
  const left = Math.min(...points.map((p) => p.x));
  const bottom = Math.min(...points.map((p) => p.y));
  const top = Math.max(...points.map((p) => p.y));
  const t = plate.thickness;
  const rows = rowsOf(profile.holes.map(({ id, u }) => ({ u, width: lettering.width(id, scale.capital, 'bold') })), scale.gap / 2);
  const shapes: readonly Shape[] = [
    group('metal', profile.solids.map((piece) => polygon('note', piece, { ...pens.wide, width: 0.6 }))),
    group('hatching', hatch(profile.solids, profile.voids, Math.max(1.6, scale.capital * 0.6)).map(([a, b]) => line('note', a, b, inGrey(pens.hair, 0.3)))),
    // Empty space is painted over the outline's own line, then its edges are drawn again.
    group('cuts', profile.voids.map((piece) => polygon('note', piece, pens.narrow, 1))),
    ...profile.holes.flatMap(({ id, u, axial }, i) => {
      const up = 1.6 * scale.capital * (rows[i] ?? 0);
      return [
        ...(axial ? [line('note', { x: u, y: bottom - scale.gap }, { x: u, y: top + scale.gap + up }, pens.centre)] : []),
        text('note', { x: u, y: top + 1.4 * scale.gap + up }, id, { capital: scale.capital, anchor: 'middle', weight: axial ? 'bold' : 'regular' }),
      ];
    }),
    line('note', { x: 0, y: bottom - scale.gap }, { x: 0, y: top + scale.gap }, pens.centre),
    ...thickness(right + 4 * scale.gap, 0, t, say(t, speech), scale.capital),
    text('note', { x: left - scale.gap, y: t - scale.capital }, `side B, ${plate.faces[1]}`, { capital: scale.capital, anchor: 'end' }),
    text('note', { x: left - scale.gap, y: 0 }, `side A, ${plate.faces[0]}`, { capital: scale.capital, anchor: 'end' }),
  ];
  const clock = formatClock(profile.direction);
  return sheet('Plate in section', shapes, [`Cut through the centre from ${clock} o'clock as seen from side B; ${plate.faces[1]} above, ${plate.faces[0]} below. Drawn full size.${profile.holes.some((h) => !h.axial) ? ' A hole without a centre line is cut beside its axis.' : ''}`], scale, lettering);
};
