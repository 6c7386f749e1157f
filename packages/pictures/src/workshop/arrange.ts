import { type Box, type Point, add, heading, norm, pathBox, polar, subtract } from '@fayplate/core';
import { type Lettering, type Shape, text } from '@fayplate/drawing';
import { sectionProfile } from '../section-profile.js';
import { CAPITAL, type Numbers, datumsOf, dimension, limits, size } from './dimension.js';
import type { WorkshopDrawing } from './notes.js';
import { sectionShapes, sectionSize } from './section-view.js';
import { datumFlag } from './symbols.js';
import { cuttingLine, viewShapes } from './views.js';

/** Scales that may be used: ISO 5455, and those of ASME Y14.100 in inches (both from memory). */
const scales = { mm: [5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20], in: [4, 2, 1, 1 / 2, 1 / 4, 1 / 8, 1 / 16] } as const;
/** Room about a view for its dimensions and letters, mm. */
const AROUND = { x: 17, y: 16 } as const;

/**
 * The largest scale at which both views and the section stand side by side in a room; null where none is small enough.
 */
export const scaleIn = (d: WorkshopDrawing, width: number, height: number): number | null => {
  const box = pathBox(d.plate.outline.whole ?? d.plate.outline.path);
  const [w, h] = [box.right - box.left, box.top - box.bottom];
  const { width: thick } = sectionSize(sectionProfile(d.plate), 1);
  const fits = (k: number): boolean => {
    const section = sectionSize(sectionProfile(d.plate), k);
    const high = Math.max(k * h, section.top - section.bottom);
    return k * (2 * w + thick) + 6 * AROUND.x <= width && high + 2 * AROUND.y <= height;
  };
  return scales[d.job.units].find(fits) ?? null;
};

/** The direction whose flag stands farthest from every hole. */
const freest = (angles: readonly number[], flagAt: (a: number) => Point, holes: readonly Point[]): number => {
  const room = (a: number): number => Math.min(...holes.map((h) => norm(subtract(h, flagAt(a)))), 1e6);
  return angles.reduce((best, a) => (room(a) > room(best) + 1e-6 ? a : best));
};

export const viewsOf = (
  d: WorkshopDrawing,
  n: Numbers,
  k: number,
  room: Box,
  third: boolean,
  lettering: Lettering,
): { readonly shapes: readonly Shape[]; readonly unnamed: readonly string[] } => {
  const { plate } = d;
  const box = pathBox(plate.outline.whole ?? plate.outline.path);
  const profile = sectionProfile(plate);
  const section = sectionSize(profile, k);
  const [w, h] = [k * (box.right - box.left), k * (box.top - box.bottom)];
  const spare = (room.right - room.left - 2 * w - section.width - 6 * AROUND.x) / 3;
  const middle = (room.top + room.bottom) / 2;
  const y = middle - (k * (box.top + box.bottom)) / 2;
  const front = { x: room.left + spare / 2 + AROUND.x - k * box.left, y };
  const sectionLeft = room.left + spare * 1.5 + 3 * AROUND.x + w;
  const flat = third ? sectionLeft + section.width : sectionLeft;
  const back = { x: room.left + spare * 2.5 + 5 * AROUND.x + w + section.width + k * box.right, y };
  const b = viewShapes(plate, 'B', front, k, lettering);
  const a = viewShapes(plate, 'A', back, k, lettering);
  // On the view that no cutting line crosses.
  const right = back.x - k * box.left;
  const below = y + k * box.bottom;
  const asme = n.asme;
  const at = (x: number, yy: number): Point => ({ x, y: yy });
  const round = plate.outline.shape === 'round';
  const sizes = [
    ...dimension(at(right - w, below), at(right, below), -10, `${round ? '⌀' : ''}${size(w / k, n)}`, asme),
    ...(round ? [] : dimension(at(right, below), at(right, below + h), -10, size(h / k, n), asme)),
  ];
  const datums = datumsOf(plate);
  const flag = (p: Point, reach: number, letter: string): readonly Shape[] => {
    const c = add(back, { x: -k * p.x, y: k * p.y });
    const own = norm(subtract(c, back)) < 1 ? null : heading(subtract(c, back));
    const away = freest(
      own === null ? Array.from({ length: 24 }, (_, i) => (i * Math.PI) / 12) : [own, own + 0.5, own - 0.5],
      (a) => add(c, polar(reach * k + 9, a)),
      plate.holes.map((h) => add(back, { x: -k * h.x, y: k * h.y })),
    );
    return datumFlag(letter, add(c, polar(reach * k, away)), add(c, polar(reach * k + 9, away)));
  };
  return {
    unnamed: [...new Set([...a.unnamed, ...b.unnamed])],
    shapes: [
      ...b.shapes,
      ...a.shapes,
      ...cuttingLine(plate, profile.direction, front, k, third),
      ...sectionShapes(
        plate,
        profile,
        at(flat, middle - (section.top + section.bottom) / 2),
        k,
        third,
        limits(d.thickness, n, n.unit === 'in' ? 3 : 2),
      ),
      ...sizes,
      ...(datums.b === null ? [] : flag(datums.b, datums.b.diameter / 2, 'B')),
      ...(datums.c === null ? [] : flag(datums.c, datums.c.diameter / 2, 'C')),
      ...(
        [
          [front, 'Side B'],
          [back, 'Side A, from behind'],
        ] as const
      ).map(([p, words]) =>
        text('note', { x: p.x, y: y + k * box.top + 10 }, words, {
          capital: CAPITAL,
          anchor: 'middle',
        }),
      ),
    ],
  };
};
