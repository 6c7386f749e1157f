import { type Point, add, distance, heading, midpoint, polar, scale as times, subtract } from '@fayplate/core';
import { type Lettering, type Picture, type Shape, circle, group, line, pens, polygon } from '@fayplate/drawing';
import type { ReadingKind } from '@fayplate/job';
import { type Label, crossable, labelShapes, shapeObstacles } from './labels.js';
import { readingTouch } from './reading-lines.js';
import { enlarged, scaleFor, sheet } from './sheet.js';

/**
 * A feature as a measuring sheet shows it: its name, where it lies (mm in the frame of the drawing) and what it looks
 * like.
 */
export interface SheetFeature {
  readonly id: string;
  readonly at: Point;
  /** mm; null where nobody knows it yet. */
  readonly radius: number | null;
  /** Named at its centre, for its rim is far from it. */
  readonly large: boolean;
  readonly shapes: readonly Shape[];
}

/** A reading to be taken, with the number that the sheet gives it. */
export interface SheetReading {
  readonly number: number;
  readonly kind: ReadingKind;
  /** In the order in which the reading names them. */
  readonly features: readonly string[];
}

/** Radius of a feature that nobody has measured, mm. */
const UNKNOWN = 3;

const headAt = (tip: Point, direction: number, length: number): Shape => {
  const base = subtract(tip, polar(length, direction));
  const side = polar(length / 5, direction + Math.PI / 2);
  return polygon('note', [tip, add(base, side), subtract(base, side)], null, 0);
};

/** A line from edge to edge with a head at either end; where there is no room between, the heads come from outside. */
const between = (from: Point, to: Point, length: number): readonly Shape[] => {
  const d = distance(from, to);
  if (d === 0) return [];
  const along = heading(subtract(to, from));
  if (d > 2.5 * length)
    return [line('note', from, to, pens.narrow), headAt(to, along, length), headAt(from, along + Math.PI, length)];
  const out = times(subtract(to, from), (2 * length) / d);
  return [
    line('note', subtract(from, out), from, pens.narrow),
    line('note', to, add(to, out), pens.narrow),
    headAt(from, along, length),
    headAt(to, along + Math.PI, length),
  ];
};

/**
 * What a person looks at while measuring: features named, and each reading as a numbered line with an arrow head on
 * each of the two edges that it is taken at. `ground`: what lies under the features, such as the outline of a plate.
 */
export const measuringPicture = (
  title: string,
  features: readonly SheetFeature[],
  readings: readonly SheetReading[],
  ground: readonly Shape[],
  notes: readonly string[],
  lettering: Lettering,
): Picture => {
  const corners = features.flatMap(({ at, radius }) =>
    [-1, 1].map((s) => ({ x: at.x + s * (radius ?? UNKNOWN), y: at.y + s * (radius ?? UNKNOWN) })),
  );
  const scale = enlarged(scaleFor(corners), 1.25);
  const places = new Map(features.map((f) => [f.id, { ...f.at, radius: f.radius ?? UNKNOWN }]));
  const drawn = readings.map((r) => {
    const { lines, dots } = readingTouch(r.kind, r.features, places);
    const [first] = lines;
    const middle = first === undefined ? (dots[0] ?? null) : midpoint(...first);
    return {
      number: r.number,
      middle,
      shapes: [
        ...lines.flatMap(([from, to]) => between(from, to, 0.8 * scale.capital)),
        ...(lines.length === 0 ? dots.map((p) => circle('note', p, 0.2 * scale.capital, pens.narrow, 0)) : []),
      ],
    };
  });
  const labels: readonly Label[] = [
    ...drawn.flatMap(({ number, middle }) =>
      middle === null ? [] : [{ id: `reading ${number}`, centre: middle, radius: 0.4, lines: [String(number)] }],
    ),
    ...features.map((f) => ({
      id: f.id,
      centre: f.at,
      radius: f.large ? 1.2 : (f.radius ?? UNKNOWN),
      lines: [f.id],
    })),
  ];
  const arrows = drawn.flatMap((d) => d.shapes);
  const rims = features.filter((f) => f.large).flatMap((f) => f.shapes);
  const named = labelShapes(
    labels,
    { solid: crossable(shapeObstacles([...rims, ...ground])), thin: shapeObstacles(arrows) },
    scale,
    lettering,
  );
  const shapes = [
    group('ground', ground),
    group(
      'features',
      features.flatMap((f) => f.shapes),
    ),
    ...drawn.map((d) => group(`reading ${d.number}`, d.shapes)),
    ...named.shapes,
  ];
  const unnamed = named.unnamed.length === 0 ? [] : [`No room to name in the drawing: ${named.unnamed.join(', ')}.`];
  return sheet(title, shapes, [...notes, ...unnamed], scale, null, lettering);
};
