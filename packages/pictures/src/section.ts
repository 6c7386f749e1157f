import { type Point, type Speech, dot, formatClock, polar, say } from '@fayplate/core';
import {
  type Lettering,
  type Picture,
  type Shape,
  arrow,
  group,
  inGrey,
  line,
  pens,
  polygon,
  text,
} from '@fayplate/drawing';
import type { Check, CheckId, Plate } from '@fayplate/plate';
import { failure, failureWords } from './feature.js';
import { hatch } from './hatch.js';
import { boreNotes, holeNotes } from './plate-notes.js';
import { type Profile, sectionProfile } from './section-profile.js';
import { boreDimensions, holeSizes } from './section-sizes.js';
import { scaleFor, sheet } from './sheet.js';

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

/**
 * Where a failed check lies in the section: floors where they are thin, webs between two holes that are both cut
 * through their axes.
 */
/** Floors under what is sunk or drilled from above: marked in the hole itself. */
const floorsUnder = new Set<CheckId>(['counterbore-floor', 'countersink-floor', 'drill-point-floor']);

const marksIn = (plate: Plate, profile: Profile): readonly { readonly check: Check; readonly at: Point }[] => {
  const along = polar(1, profile.direction);
  const axis = new Map(profile.holes.filter((h) => h.axial).map((h) => [h.id, h.u]));
  const middle = (id: string): number => {
    const h = plate.holes.find((x) => x.id === id);
    if (h === undefined) return plate.thickness / 2;
    const [low, high] = h.land;
    if (h.depth !== null) return h.from === 'B' ? (low + high - h.depth) / 2 : (high + low + h.depth) / 2;
    const sink = h.sink?.depth ?? 0;
    return h.sink?.side === 'B' ? (low + high - sink) / 2 : (high + low + sink) / 2;
  };
  return plate.checks.flatMap((check) => {
    const [a = '', b = ''] = check.of;
    const [u, v] = [axis.get(a), axis.get(b)];
    if (check.ok || u === undefined) return [];
    if (floorsUnder.has(check.id)) return [{ check, at: { x: u, y: middle(a) } }];
    return v !== undefined &&
      check.at !== null &&
      (check.id === 'web-between-cuts' || check.id === 'floor-between-cuts')
      ? [{ check, at: { x: dot(check.at, along), y: check.level ?? plate.thickness / 2 } }]
      : [];
  });
};

/** The plate cut through its centre at true scale: side B above, side A below, metal hatched. */
export const sectionPicture = (plate: Plate, speech: Speech, lettering: Lettering): Picture => {
  const profile = sectionProfile(plate);
  const points = profile.solids.flat();
  const scale = scaleFor(points);
  const right = Math.max(...points.map((p) => p.x));
  const left = Math.min(...points.map((p) => p.x));
  const bottom = Math.min(...points.map((p) => p.y));
  const top = Math.max(...points.map((p) => p.y));
  const t = plate.thickness;
  // Of a hole that is cut beside its axis the section shows no size.
  const sizes = profile.holes.map(({ id, axial }) => {
    const hole = plate.holes.find((h) => h.id === id);
    return hole === undefined || !axial ? [] : holeSizes(hole, speech);
  });
  const names = profile.holes.map(({ id, u }, i) => ({
    u,
    width: Math.max(
      lettering.width(id, scale.capital, 'bold'),
      ...(sizes[i] ?? []).map((words) => lettering.width(words, scale.small, 'regular')),
    ),
  }));
  /** From one line of sizes to the next, and from one row of names to the next. */
  const pitch = 1.5 * scale.small;
  const rowHeight = 1.6 * scale.capital + pitch * Math.max(0, ...sizes.map((s) => s.length));
  const rows = rowsOf(names, scale.gap / 2);
  /** A centre line runs up to its name, unless another name stands in between. */
  const free = (u: number, row: number): boolean =>
    names.every((n, j) => (rows[j] ?? 0) >= row || Math.abs(n.u - u) > n.width / 2 + scale.gap / 4);
  const shapes: readonly Shape[] = [
    group(
      'metal',
      profile.outlines.map((piece) => polygon('note', piece, { ...pens.wide, width: 0.6 })),
    ),
    group(
      'hatching',
      hatch(profile.solids, profile.voids, Math.max(1.6, scale.capital * 0.6)).map(([a, b]) =>
        line('note', a, b, inGrey(pens.hair, 0.3)),
      ),
    ),
    // Empty space is painted over the outline's own line, then its edges are drawn again.
    group(
      'cuts',
      profile.voids.map((piece) => polygon('note', piece, pens.narrow, 1)),
    ),
    group(
      'threads',
      profile.threads.map(([a, b]) => line('note', a, b, pens.hair)),
    ),
    ...profile.holes.flatMap(({ id, u, axial }, i) => {
      const row = rows[i] ?? 0;
      const up = rowHeight * row;
      const own = sizes[i] ?? [];
      const foot = top + 1.4 * scale.gap + up;
      return [
        ...(axial
          ? [
              line(
                'note',
                { x: u, y: bottom - scale.gap },
                { x: u, y: top + scale.gap + (free(u, row) ? up : 0) },
                pens.centre,
              ),
            ]
          : []),
        ...own.map((words, n) =>
          text('note', { x: u, y: foot + pitch * (own.length - 1 - n) }, words, {
            capital: scale.small,
            anchor: 'middle',
          }),
        ),
        text('note', { x: u, y: foot + pitch * own.length }, id, {
          capital: scale.capital,
          anchor: 'middle',
          weight: axial ? 'bold' : 'regular',
        }),
      ];
    }),
    line('note', { x: 0, y: bottom - scale.gap }, { x: 0, y: top + scale.gap }, pens.centre),
    ...boreDimensions(
      plate,
      profile,
      speech,
      scale,
      {
        above: names.length === 0 ? top + scale.gap : top + 1.4 * scale.gap + rowHeight * (Math.max(...rows) + 1),
        below: bottom - scale.gap,
        words: names.map(({ u, width }, i) => {
          const foot = top + 1.4 * scale.gap + rowHeight * (rows[i] ?? 0);
          return {
            left: u - width / 2 - 0.3 * scale.gap,
            right: u + width / 2 + 0.3 * scale.gap,
            bottom: foot - 0.3 * scale.gap,
            top: foot + rowHeight,
          };
        }),
      },
      lettering,
    ),
    ...thickness(right + 4 * scale.gap, 0, t, say(t, speech, speech.unit === 'in' ? 3 : 2), scale.capital),
    // Their words keep apart beside a thin plate too.
    text(
      'note',
      { x: left - scale.gap, y: Math.max(t - scale.capital, t / 2 + 0.3 * scale.capital) },
      `side B, ${plate.faces[1]}`,
      { capital: scale.capital, anchor: 'end' },
    ),
    text('note', { x: left - scale.gap, y: Math.min(0, t / 2 - 1.3 * scale.capital) }, `side A, ${plate.faces[0]}`, {
      capital: scale.capital,
      anchor: 'end',
    }),
  ];
  const failed = marksIn(plate, profile);
  const clocks = [profile.direction, profile.direction + Math.PI].map(formatClock);
  const notes = [
    `Cut through the centre, ${clocks[0] ?? ''} o'clock on the right and ${clocks[1] ?? ''} on the left as seen ` +
      `from side B; ${plate.faces[1]} above, ${plate.faces[0]} ` +
      `below.${profile.holes.some((h) => !h.axial) ? ' A hole without a centre line is cut beside its axis.' : ''}`,
    // Sizes of what the section shows, as the plate's own pictures have them.
    ...holeNotes({ holes: plate.holes.filter((h) => profile.holes.some((p) => p.id === h.id)) }, speech),
    ...boreNotes(plate, speech),
    ...(failed.length === 0
      ? []
      : [
          `Ringed twice with a bar, what does not hold: ${failureWords(
            plate,
            failed.map((f) => f.check),
          )}.`,
        ]),
  ];
  return sheet(
    'Plate in section',
    [
      ...shapes,
      ...failed.flatMap((f) =>
        failure(f.at, { ...scale, capital: Math.min(scale.capital, Math.max(t / 5, 0.6 * scale.capital)) }),
      ),
    ],
    notes,
    scale,
    1,
    lettering,
  );
};
