import type { Path, Point } from '@fayplate/core';
import { flatten } from '@fayplate/core';
import {
  type LabelRule,
  type LabelWish,
  type Lettering,
  type Obstacle,
  type PlacedLabel,
  type Shape,
  circle,
  group,
  growBox,
  line,
  obstaclesOf,
  pens,
  placeLabels,
  rectangle,
  text,
} from '@fayplate/drawing';
import type { Scale } from './sheet.js';

/** A name (bold) and what else there is to say beside a feature. */
export interface Label {
  readonly id: string;
  readonly centre: Point;
  readonly radius: number;
  readonly lines: readonly string[];
}

/**
 * What labels keep clear of: `solid` always; `thin` lines unless there is no room near, when the label is set over them
 * on a white ground.
 */
interface Ground {
  readonly solid: readonly Obstacle[];
  readonly thin?: readonly Obstacle[];
  /** The longest leader, in capitals, that is better than lettering set over thin lines; 3 unless told. */
  readonly leader?: number;
  /** What the names stand about: those with a leader stand rather away from it. */
  readonly about?: Point;
}

interface Labelled {
  readonly shapes: readonly Shape[];
  /** Ids with room for their name alone: the notes must say the rest. */
  readonly shortened: readonly string[];
  /** Ids for which there was no room: the notes must name them. */
  readonly unnamed: readonly string[];
}

const LEAD = 1.6;
const LEADER = 3;
/** The longest leader of a name over thin lines, in capitals. */
const FAR = 20;
/** Bare paper about lettering and between a name and what stands beside it in its line, in capitals. */
const GAP = 0.4;
const SPACE = 0.7;
/**
 * A large drawing is shrunk to the page, its lettering and the room about it with it; a small one keeps the room of a
 * template.
 */
const LEAST_GAP = 0.8;

export const pathObstacles = (path: Path): readonly Obstacle[] => {
  const points = flatten(path, 0.3);
  return points.flatMap((from, i) => {
    const to = points[i + 1] ?? (path.closed ? points[0] : undefined);
    return to === undefined ? [] : [{ kind: 'segment', segment: { from, to } } as const];
  });
};

export const lineObstacle = (from: Point, to: Point): Obstacle => ({ kind: 'segment', segment: { from, to } });

/** Lines that a leader may run over, where the page would be too narrow between them. */
export const crossable = (lines: readonly Obstacle[]): readonly Obstacle[] =>
  lines.map((o) => (o.kind === 'segment' ? { ...o, crossable: true } : o));

/** The straight lines and arcs among some shapes, as things to keep clear of. */
export const shapeObstacles = (shapes: readonly Shape[]): readonly Obstacle[] =>
  shapes.flatMap((s): readonly Obstacle[] =>
    s.kind === 'path' ? pathObstacles(s.path) : s.kind === 'group' ? shapeObstacles(s.shapes) : [],
  );

/** Labels already placed, and what they name, as things to keep clear of. */
const takenBy = (placed: readonly PlacedLabel[], wishes: readonly LabelWish[]): readonly Obstacle[] => [
  ...placed.flatMap((p): readonly Obstacle[] => [
    { kind: 'box', box: p.box },
    ...(p.leader === null ? [] : [lineObstacle(p.leader.from, p.leader.to)]),
  ]),
  ...wishes.filter((w) => placed.some((p) => p.id === w.id)).flatMap(obstaclesOf),
];

/**
 * The labels laid so that none lies on a feature, a solid line or another label; beside what they name where there is
 * room, else with a short leader, else over thin lines on a white ground, else their name alone. One of two lines
 * stands in one where that fits better.
 */
export const labelShapes = (labels: readonly Label[], ground: Ground, scale: Scale, lettering: Lettering): Labelled => {
  const capital = (i: number): number => (i === 0 ? scale.capital : scale.small);
  const weight = (i: number): 'bold' | 'regular' => (i === 0 ? 'bold' : 'regular');
  const widths = (l: Label): readonly number[] =>
    l.lines.map((words, i) => lettering.width(words, capital(i), weight(i)));
  const space = SPACE * scale.capital;
  const wishes: readonly LabelWish[] = labels.map((l) => ({
    id: l.id,
    centre: l.centre,
    radius: l.radius,
    reach: 0,
    width: Math.max(...widths(l)),
    height: scale.capital + (l.lines.length - 1) * LEAD * scale.small,
    otherwise: l.lines.length === 2 ? [{ width: widths(l).reduce((a, b) => a + b, space), height: scale.capital }] : [],
  }));
  const rule: LabelRule = {
    gap: Math.max(LEAST_GAP, GAP * scale.capital),
    step: scale.capital,
    farthest: (ground.leader ?? LEADER) * scale.capital,
    about: ground.about ?? null,
  };
  const unset = (placed: readonly PlacedLabel[]): readonly LabelWish[] =>
    wishes.filter((w) => placed.every((p) => p.id !== w.id));
  const clear = placeLabels(wishes, [...ground.solid, ...(ground.thin ?? [])], null, rule).labels;
  const over = placeLabels(unset(clear), [...ground.solid, ...takenBy(clear, wishes)], null, {
    ...rule,
    farthest: FAR * scale.capital,
  }).labels;
  const named = [...over, ...clear];
  const first = unset(named).flatMap((w) =>
    labels
      .filter((l) => l.id === w.id && l.lines.length > 1)
      .map((l) => ({ ...w, width: widths(l)[0] ?? 0, height: scale.capital, otherwise: [] })),
  );
  const short = placeLabels(first, [...ground.solid, ...takenBy(named, wishes)], null, rule).labels;
  const drawn = (p: PlacedLabel): Shape => {
    const label = labels.find((l) => l.id === p.id);
    const right = label !== undefined && p.box.right <= label.centre.x;
    const x = right ? p.box.right : p.box.left;
    const anchor = right ? 'end' : 'start';
    const [first = 0, second = 0] = label === undefined ? [] : widths(label);
    const shown = short.includes(p) ? label?.lines.slice(0, 1) : label?.lines;
    const words = (shown ?? []).map((line, i) => {
      if (p.setting === 0)
        return text('note', { x, y: p.box.top - scale.capital - i * LEAD * scale.small }, line, {
          capital: capital(i),
          weight: weight(i),
          anchor,
        });
      const along = right ? (i === 0 ? -second - space : 0) : i === 0 ? 0 : first + space;
      return text('note', { x: x + along, y: p.box.bottom }, line, { capital: capital(i), weight: weight(i), anchor });
    });
    const leader =
      p.leader === null
        ? []
        : [line('note', p.leader.from, p.leader.to, pens.hair), circle('note', p.leader.to, 0.3, null, 0)];
    return group(`label ${p.id}`, [...words, ...leader]);
  };
  // Every white ground lies under all lettering: none may cover a name next to it.
  const grounds = [...over, ...short].map((p) => rectangle('note', growBox(p.box, 0.2 * scale.capital), null, 1));
  const all = [...named, ...short];
  return {
    shapes: [...(grounds.length === 0 ? [] : [group('grounds', grounds)]), ...all.map(drawn)],
    shortened: short.map((p) => p.id),
    unnamed: unset(all).map((w) => w.id),
  };
};
