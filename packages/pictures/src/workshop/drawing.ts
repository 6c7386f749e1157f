import { type Box, type Point, add, pathBox, polar, subtract, heading, norm } from '@fayplate/core';
import { type Lettering, type Picture, type Shape, pens, rectangle, text, wrapText } from '@fayplate/drawing';
import type { Job } from '@fayplate/job';
import { sectionProfile } from '../section-profile.js';
import { type SheetTable, tableShapes, tableSize } from './columns.js';
import { CAPITAL, type Numbers, datumLetters, datumsOf, dimension, limits, size } from './dimension.js';
import { type WorkshopDrawing, groundRules, zoneGroups } from './notes.js';
import { holeRows, outlineRows } from './rows.js';
import { sectionShapes, sectionSize } from './section-view.js';
import { datumFlag, toleranceFrame } from './symbols.js';
import { TITLE, titleBlock } from './title-block.js';
import { cuttingLine, viewShapes } from './views.js';

/** The sheet lying on its long side, mm, and its name. */
export interface Paper {
  readonly name: string;
  readonly width: number;
  readonly height: number;
}

/** Scales that may be used: ISO 5455, and those of ASME Y14.100 in inches (both from memory). */
const scales = { mm: [5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20], in: [4, 2, 1, 1 / 2, 1 / 4, 1 / 8, 1 / 16] } as const;

const sayScale = (k: number): string => (k >= 1 ? `${k} : 1` : `1 : ${Math.round(1 / k)}`);

/** Bare paper round the frame, mm: 20 for filing on the left (ISO 5457). */
const EDGE = { left: 20, other: 10 } as const;
/** Room about a view for its dimensions and letters, mm. */
const AROUND = { x: 17, y: 16 } as const;
/** Between blocks of the lower band, mm. */
const GAP = 5;

interface Band {
  readonly holes: SheetTable;
  readonly outline: SheetTable | null;
  readonly lines: readonly string[];
  readonly frames: readonly { readonly before: string; readonly zone: string; readonly atMost: boolean }[];
  /** The outline's table stands beside that of the holes, else over the title block. */
  readonly beside: boolean;
  readonly height: number;
}

const lowerBand = (d: WorkshopDrawing, n: Numbers, inner: Box, lettering: Lettering): Band | null => {
  const holes = holeRows(d.plate, d.table, d.zones, n);
  const outline = outlineRows(d.plate, d.table.motion, n);
  const right = TITLE.width;
  const own = tableSize(holes, lettering);
  const free = inner.right - inner.left - right - GAP - own.width;
  if (free < 0) return null;
  const rim = outline === null ? { width: 0, height: 0 } : tableSize(outline, lettering);
  const beside = rim.width + GAP <= free;
  const lines = groundRules(d, n).flatMap((w) =>
    wrapText(w, right - (beside ? 2 : rim.width + GAP), 2, 'regular', lettering),
  );
  const frames = zoneGroups(d, n);
  const notesHigh = lines.length * 3.6 + frames.length * (2 * CAPITAL + 1.5) + 3;
  const above = Math.max(notesHigh, beside ? 0 : rim.height);
  const height = Math.max(own.height, beside ? rim.height : 0, TITLE.height + above + GAP) + GAP;
  return { holes, outline, lines, frames, beside, height };
};

/**
 * The largest scale at which both views and the section stand side by side in a room; null where none is small enough.
 */
const scaleIn = (d: WorkshopDrawing, width: number, height: number): number | null => {
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

const viewsOf = (
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

const titleOf = (d: WorkshopDrawing, n: Numbers, scale: number, third: boolean) => {
  const { plate, job } = d;
  const own = job.drawing ?? null;
  const kg = plate.outline.mass;
  return {
    title: `Adapter plate ${plate.faces[0]} – ${plate.faces[1]}`,
    job: job.name,
    material: plate.material?.name ?? 'not stated',
    mass: kg === null ? '' : n.unit === 'in' ? `${(kg / 0.45359237).toFixed(2)} lb` : `${kg.toFixed(2)} kg`,
    thickness: `${limits(d.thickness, n, n.unit === 'in' ? 3 : 2)} ${n.unit}`,
    scale: sayScale(scale),
    sheet: '1 of 1',
    units: `${n.unit}; ${n.asme ? 'ASME Y14.5' : 'ISO 8015, ISO 1101'}`,
    number: own?.number ?? '',
    revision: own?.revision ?? '–',
    by: own?.by ?? '',
    date: own?.date ?? '',
    third,
  };
};

/** Words in grey from corner to corner. */
const acrossShapes = (words: string | null, frame: Box): readonly Shape[] =>
  words === null
    ? []
    : [
        text('note', { x: (frame.left + frame.right) / 2, y: (frame.bottom + frame.top) / 2 }, words, {
          capital: 9,
          anchor: 'middle',
          weight: 'bold',
          turn: Math.PI / 7,
          grey: 0.75,
        }),
      ];

/** The habits that a job's drawing follows: those it states, else ISO in mm and ASME in inches. */
export const habitsOf = (job: Job): 'ISO' | 'ASME' => job.drawing?.standard ?? (job.units === 'in' ? 'ASME' : 'ISO');

/**
 * One sheet for another shop: side B, side A and a section at a standard scale, every hole and bore in a table with its
 * limits and the zone of its axis, datums, outline, title block. First angle by ISO, third by ASME. Null where the
 * sheet is too small for it.
 */
export const workshopDrawing = (given: WorkshopDrawing, paper: Paper, lettering: Lettering): Picture | null => {
  // A datum is not measured from itself.
  const own = datumsOf(given.plate).b?.id;
  const d = { ...given, zones: new Map([...given.zones].filter(([id]) => id !== own)) };
  const asme = habitsOf(d.job) === 'ASME';
  const n: Numbers = { unit: d.job.units, asme };
  const frame: Box = {
    left: asme ? EDGE.other : EDGE.left,
    right: paper.width - EDGE.other,
    bottom: EDGE.other,
    top: paper.height - EDGE.other,
  };
  const band = lowerBand(d, n, { ...frame, left: frame.left + 3 }, lettering);
  if (band === null) return null;
  const room: Box = { ...frame, bottom: frame.bottom + band.height };
  const k = scaleIn(d, room.right - room.left, room.top - room.bottom);
  if (k === null) return null;
  const views = viewsOf(d, n, k, room, asme, lettering);
  const right = frame.right - TITLE.width;
  const top = frame.bottom + band.height - GAP;
  const letters = datumLetters(datumsOf(d.plate));
  const lines = [
    ...band.lines,
    ...(views.unnamed.length === 0 ? [] : [`No room to name in the views: ${views.unnamed.join(', ')}.`]),
  ];
  const under = top - lines.length * 3.6 - 2;
  const shapes: readonly Shape[] = [
    rectangle('note', { left: 0, bottom: 0, right: paper.width, top: paper.height }, null, 1),
    rectangle('note', frame, { ...pens.wide, width: 0.7 }),
    ...acrossShapes(d.across, frame),
    ...views.shapes,
    ...tableShapes(band.holes, { x: frame.left + 3, y: top }, lettering),
    ...lines.map((words, i) => text('note', { x: right, y: top - 3 - i * 3.6 }, words, { capital: 2 })),
    ...band.frames.flatMap((f, i) =>
      toleranceFrame(
        { x: right, y: under - (i + 1) * (2 * CAPITAL + 1.5) },
        f.before,
        f.zone,
        letters,
        f.atMost,
        lettering,
      ),
    ),
    ...(band.outline === null
      ? []
      : tableShapes(
          band.outline,
          {
            x: band.beside
              ? frame.left + 3 + tableSize(band.holes, lettering).width + GAP
              : frame.right - tableSize(band.outline, lettering).width,
            y: top,
          },
          lettering,
        )),
    ...titleBlock(titleOf(d, n, k, asme), frame, lettering),
  ];
  return {
    title: `${d.job.name}: workshop drawing`,
    shapes,
    notes: [],
    scale: null,
    capital: CAPITAL,
    box: { left: 0, bottom: 0, right: paper.width, top: paper.height },
  };
};
