import type { Path, Point } from '@fayplate/core';
import { flatten } from '@fayplate/core';
import { type LabelWish, type Lettering, type Obstacle, type Shape, circle, group, line, pens, placeLabels, text } from '@fayplate/drawing';
import type { Scale } from './scale.js';

/** A name (bold) and what else there is to say beside a feature. */
export interface Label {
  readonly id: string;
  readonly centre: Point;
  readonly radius: number;
  readonly lines: readonly string[];
}

const LEAD = 1.6;

export const pathObstacles = (path: Path): readonly Obstacle[] => {
  const points = flatten(path, 0.3);
  return points.flatMap((from, i) => {
    const to = points[i + 1] ?? (path.closed ? points[0] : undefined);
    return to === undefined ? [] : [{ kind: 'segment', segment: { from, to } } as const];
  });
};

export const lineObstacle = (from: Point, to: Point): Obstacle => ({ kind: 'segment', segment: { from, to } });

/** The labels laid so that none lies on a feature, a line of `others` or another label; with leaders where there is no room beside. */
export const labelShapes = (labels: readonly Label[], others: readonly Obstacle[], scale: Scale, lettering: Lettering): readonly Shape[] => {
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
  const { labels: placed } = placeLabels(wishes, others);
  return placed.map((p) => {
    const label = labels.find((l) => l.id === p.id);
    const right = label !== undefined && p.box.right <= label.centre.x;
    return group(`label ${p.id}`, [
      ...(label?.lines ?? []).map((words, i) =>
        text('note', { x: right ? p.box.right : p.box.left, y: p.box.top - scale.capital - i * LEAD * scale.small }, words, {
          capital: capital(i),
          weight: weight(i),
          anchor: right ? 'end' : 'start',
        }),
      ),
      ...(p.leader === null ? [] : [line('note', p.leader.from, p.leader.to, pens.hair), circle('note', p.leader.to, 0.3, null, 0)]),
    ]);
  });
};
