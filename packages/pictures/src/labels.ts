import type { Path, Point } from '@fayplate/core';
import { distance, flatten } from '@fayplate/core';
import { type LabelWish, type Lettering, type Obstacle, type PlacedLabel, type Shape, circle, group, growBox, line, obstaclesOf, pens, placeLabels, rectangle, text } from '@fayplate/drawing';
import type { Scale } from './scale.js';

/** A name (bold) and what else there is to say beside a feature. */
export interface Label {
  readonly id: string;
  readonly centre: Point;
  readonly radius: number;
  readonly lines: readonly string[];
}

/** What labels keep clear of: `solid` always; `thin` lines unless there is no room near, when the label is set over them on a white ground. */
export interface Ground {
  readonly solid: readonly Obstacle[];
  readonly thin?: readonly Obstacle[];
  /** The longest leader, in capitals, that is better than lettering set over thin lines; 3 unless told. */
  readonly leader?: number;
}

export interface Labelled {
  readonly shapes: readonly Shape[];
  /** Ids for which there was no room: the notes must name them. */
  readonly unnamed: readonly string[];
}

const LEAD = 1.6;
const LEADER = 3;

export const pathObstacles = (path: Path): readonly Obstacle[] => {
  const points = flatten(path, 0.3);
  return points.flatMap((from, i) => {
    const to = points[i + 1] ?? (path.closed ? points[0] : undefined);
    return to === undefined ? [] : [{ kind: 'segment', segment: { from, to } } as const];
  });
};

export const lineObstacle = (from: Point, to: Point): Obstacle => ({ kind: 'segment', segment: { from, to } });

/** Lines that a leader may run over, where the page would be too narrow between them. */
export const crossable = (lines: readonly Obstacle[]): readonly Obstacle[] => lines.map((o) => (o.kind === 'segment' ? { ...o, crossable: true } : o));

/** The straight lines and arcs among some shapes, as things to keep clear of. */
export const shapeObstacles = (shapes: readonly Shape[]): readonly Obstacle[] =>
  shapes.flatMap((s): readonly Obstacle[] => (s.kind === 'path' ? pathObstacles(s.path) : s.kind === 'group' ? shapeObstacles(s.shapes) : []));

const reaches = (p: PlacedLabel, length: number): boolean => p.leader === null || distance(p.leader.from, p.leader.to) <= length;

/**
 * The labels laid so that none lies on a feature, a solid line or another label; beside what they name where there is room, else with a
 * short leader, else over thin lines on a white ground.
 */
export const labelShapes = (labels: readonly Label[], ground: Ground, scale: Scale, lettering: Lettering): Labelled => {
  const capital = (i: number): number => (i === 0 ? scale.capital : scale.small);
  const weight = (i: number): 'bold' | 'regular' => (i === 0 ? 'bold' : 'regular');
  const wishes: readonly LabelWish[] = labels.map((l) => ({
    id: l.id,
    centre: l.centre,
    radius: l.radius,
    reach: 0,
    width: Math.max(...l.lines.map((words, i) => lettering.width(words, capital(i), weight(i)))),
    height: scale.capital + (l.lines.length - 1) * LEAD * scale.small,
  }));
  const length = (ground.leader ?? LEADER) * scale.capital;
  const clear = placeLabels(wishes, [...ground.solid, ...(ground.thin ?? [])], null, length).labels.filter((p) => reaches(p, length));
  const set = new Set(clear.map((p) => p.id));
  const taken = [
    ...clear.flatMap((p): readonly Obstacle[] => [{ kind: 'box', box: p.box }, ...(p.leader === null ? [] : [lineObstacle(p.leader.from, p.leader.to)])]),
    ...wishes.filter((w) => set.has(w.id)).flatMap(obstaclesOf),
  ];
  const over = placeLabels(wishes.filter((w) => !set.has(w.id)), [...ground.solid, ...taken]);
  const drawn = (p: PlacedLabel, onWhite: boolean): Shape => {
    const label = labels.find((l) => l.id === p.id);
    const right = label !== undefined && p.box.right <= label.centre.x;
    const words = (label?.lines ?? []).map((line, i) =>
      text('note', { x: right ? p.box.right : p.box.left, y: p.box.top - scale.capital - i * LEAD * scale.small }, line, {
        capital: capital(i),
        weight: weight(i),
        anchor: right ? 'end' : 'start',
      }),
    );
    const leader = p.leader === null ? [] : [line('note', p.leader.from, p.leader.to, pens.hair), circle('note', p.leader.to, 0.3, null, 0)];
    return group(`label ${p.id}`, [...(onWhite ? [rectangle('note', growBox(p.box, 0.2 * scale.capital), null, 1)] : []), ...words, ...leader]);
  };
  return { shapes: [...over.labels.map((p) => drawn(p, true)), ...clear.map((p) => drawn(p, false))], unnamed: over.unplaced };
};
