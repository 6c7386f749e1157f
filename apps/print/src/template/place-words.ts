import type { Box, Point } from '@fayplate/core';
import { type LabelWish, type Lettering, type Obstacle, type PlacedLabel, type Placement, type Shape, circle, group, line, pens, placeLabels, text } from '@fayplate/drawing';
import { fitText } from '../sheet/fit.js';
import type { TemplateLabel } from './types.js';

/** Baseline to baseline, in capitals. */
export const LEAD = 1.7;
/** A name longer than this is cut short beside its hole; the list of holes has it in full. */
const WIDEST = 60;

/** Words of one label and the height of its first line's capitals; the others are smaller. */
export interface Words {
  readonly lines: readonly string[];
  readonly name: number;
}

const DETAIL = 2.3;
const capitalOf = (w: Words, i: number): number => (i === 0 ? w.name : DETAIL);
const weightOf = (i: number): 'bold' | 'regular' => (i === 0 ? 'bold' : 'regular');

/** How much a label says, most first: everything; its name and feature; its short name in small letters. */
const levels: readonly ((l: TemplateLabel) => Words)[] = [
  (l) => ({ lines: l.lines, name: 3 }),
  (l) => ({ lines: l.short === null ? l.lines : l.lines.slice(0, 1), name: l.short === null ? 3 : 2.6 }),
  (l) => ({ lines: l.short === null ? l.lines.slice(0, 1) : [l.short], name: l.short === null ? 2.6 : 2 }),
];

const fitted = (w: Words, lettering: Lettering): Words => ({ ...w, lines: w.lines.map((words, i) => fitText(words, WIDEST, capitalOf(w, i), weightOf(i), lettering)) });

const wishFor = (label: TemplateLabel, words: Words, lettering: Lettering): LabelWish => ({
  id: label.id,
  centre: label.centre,
  radius: label.radius,
  reach: label.reach,
  width: Math.max(...words.lines.map((each, i) => lettering.width(each, capitalOf(words, i), weightOf(i)))),
  height: words.name + (words.lines.length - 1) * LEAD * DETAIL + (words.lines.length > 1 ? 0.33 * DETAIL : 0.1),
});

export interface Placed {
  readonly words: ReadonlyMap<string, Words>;
  readonly wishes: readonly LabelWish[];
  readonly placement: Placement;
}

/** More leaders than this, as a part of all labels, and the drawing reads worse than with shorter words. */
const MOST_LEADERS = 0.4;
const MOST_UNPLACED = 0.15;

/**
 * All labels at the fullest level at which most stand beside their holes; the few that then find no place say less, one level at a
 * time.
 */
export const placeWords = (labels: readonly TemplateLabel[], lettering: Lettering, others: readonly Obstacle[], within: Box): Placed => {
  const at = (level: ReadonlyMap<string, number>): Placed => {
    const words = new Map(labels.map((l) => [l.id, fitted((levels[level.get(l.id) ?? 0] ?? levels[0])?.(l) ?? { lines: l.lines, name: 3 }, lettering)]));
    const wishes = labels.map((l) => wishFor(l, words.get(l.id) ?? { lines: [''], name: 3 }, lettering));
    return { words, wishes, placement: placeLabels(wishes, others, within) };
  };
  const all = (level: number): ReadonlyMap<string, number> => new Map(labels.map((l) => [l.id, level]));
  const bad = ({ placement: p }: Placed): boolean =>
    p.unplaced.length > MOST_UNPLACED * labels.length || p.labels.filter((l) => l.leader !== null).length > MOST_LEADERS * labels.length + 2;
  const last = levels.length - 1;
  let level = 0;
  let now = at(all(level));
  while (level < last && bad(now)) now = at(all(++level));
  const own = new Map(all(level));
  for (let turn = level; turn < last && now.placement.unplaced.length > 0; turn++) {
    for (const id of now.placement.unplaced) own.set(id, Math.min(last, (own.get(id) ?? 0) + 1));
    now = at(own);
  }
  return now;
};

export const labelShapes = (label: PlacedLabel, words: Words, centre: Point): Shape => {
  const right = label.box.right <= centre.x;
  const x = right ? label.box.right : label.box.left;
  return group(`label ${label.id}`, [
    ...words.lines.map((line, i) =>
      text('note', { x, y: label.box.top - words.name - i * LEAD * DETAIL }, line, { capital: capitalOf(words, i), weight: weightOf(i), anchor: right ? 'end' : 'start' }),
    ),
    ...(label.leader === null ? [] : [line('note', label.leader.from, label.leader.to, pens.hair), circle('note', label.leader.to, 0.35, null, 0)]),
  ]);
};
