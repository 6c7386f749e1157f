import type { Box } from '@fayplate/core';
import { type Lettering, type Picture, type Shape, pens, rectangle, text, wrapText } from '@fayplate/drawing';
import type { Job } from '@fayplate/job';
import { scaleIn, viewsOf } from './arrange.js';
import { type SheetTable, tableShapes, tableSize } from './columns.js';
import { CAPITAL, type Numbers, datumLetters, datumsOf, limits } from './dimension.js';
import { type WorkshopDrawing, groundRules, zoneGroups } from './notes.js';
import { holeRows, outlineRows } from './rows.js';
import { toleranceFrame } from './symbols.js';
import { TITLE, titleBlock } from './title-block.js';

/** The sheet lying on its long side, mm, and its name. */
export interface Paper {
  readonly name: string;
  readonly width: number;
  readonly height: number;
}

const sayScale = (k: number): string => (k >= 1 ? `${k} : 1` : `1 : ${Math.round(1 / k)}`);

/** Bare paper round the frame, mm: 20 for filing on the left (ISO 5457). */
const EDGE = { left: 20, other: 10 } as const;
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
