import type { Box, Point } from '@fayplate/core';
import {
  type LabelWish,
  type Lettering,
  type Obstacle,
  type PlacedLabel,
  type Placement,
  type Shape,
  type Size,
  circle,
  group,
  line,
  pens,
  placeLabels,
  text,
} from '@fayplate/drawing';
import { fitText } from '../sheet/frame.js';
import type { TemplateLabel } from './types.js';

/** Baseline to baseline, in capitals. */
export const LEAD = 1.7;
/** A name longer than this is cut short beside its hole; the list of holes has it in full. */
const WIDEST = 60;

/** One setting of a label's words, and the height of its first line's capitals; the others are smaller. */
interface Words {
  readonly lines: readonly string[];
  readonly name: number;
}

const DETAIL = 2.3;
const capitalOf = (w: Words, i: number): number => (i === 0 ? w.name : DETAIL);
const weightOf = (i: number): 'bold' | 'regular' => (i === 0 ? 'bold' : 'regular');

type Settings = readonly [Words, ...Words[]];

const set = (name: number, first: readonly string[], ...others: readonly (readonly string[])[]): Settings => [
  { lines: first, name },
  ...others.map((lines) => ({ lines, name })),
];

/**
 * How much a label says, most first: everything; its name and feature; its short name in small letters. Bores and
 * clocks, which have no short name, say everything always.
 */
const levels: readonly ((l: TemplateLabel) => Settings)[] = [
  (l) => set(3, ...l.settings),
  (l) => (l.short === null ? set(2.6, ...l.settings) : set(2.6, l.settings[0].slice(0, 1))),
  (l) => (l.short === null ? set(2.6, ...l.settings) : set(2, [l.short])),
];

/**
 * A name may be cut short, since the list has it in full; what is to be done there, only where no setting has room for
 * all of it.
 */
const settingsAt = (label: TemplateLabel, level: number, lettering: Lettering): Settings => {
  const fitted = (w: Words): Words => ({
    ...w,
    lines: w.lines.map((each, i) => fitText(each, WIDEST, capitalOf(w, i), weightOf(i), lettering)),
  });
  const all = (levels[level] ?? ((l: TemplateLabel) => set(3, ...l.settings)))(label);
  const fits = (w: Words, from: number): boolean =>
    w.lines.every((each, i) => i < from || lettering.width(each, capitalOf(w, i), weightOf(i)) <= WIDEST);
  const whole = all.filter((w) => fits(w, 0));
  const [first = all[0], ...others] = whole.length > 0 ? whole : all.filter((w) => fits(w, 1));
  return [fitted(first), ...others.map(fitted)];
};

const sizeOf = (words: Words, lettering: Lettering): Size => ({
  width: Math.max(...words.lines.map((each, i) => lettering.width(each, capitalOf(words, i), weightOf(i)))),
  height: words.name + (words.lines.length - 1) * LEAD * DETAIL + (words.lines.length > 1 ? 0.33 * DETAIL : 0.1),
});

const wishFor = (label: TemplateLabel, [first, ...others]: Settings, lettering: Lettering): LabelWish => ({
  id: label.id,
  centre: label.centre,
  radius: label.radius,
  reach: label.reach,
  ...sizeOf(first, lettering),
  otherwise: others.map((w) => sizeOf(w, lettering)),
});

interface Placed {
  readonly wishes: readonly LabelWish[];
  readonly placement: Placement;
  /** What stands beside each hole that was placed. */
  readonly words: ReadonlyMap<string, Words>;
  /** Labels that do not say all they have to say. */
  readonly shortened: readonly string[];
}

/** More leaders than this, as a part of all labels, and the drawing reads worse than with shorter words. */
const MOST_LEADERS = 0.6;
const MOST_UNPLACED = 0.15;

/**
 * All labels at the fullest level at which most stand beside their holes; the few that then find no place say less, one
 * level at a time.
 */
export const placeWords = (
  labels: readonly TemplateLabel[],
  lettering: Lettering,
  others: readonly Obstacle[],
  within: Box,
): Placed => {
  const at = (level: ReadonlyMap<string, number>): Placed => {
    const settings = new Map(labels.map((l) => [l.id, settingsAt(l, level.get(l.id) ?? 0, lettering)]));
    const wishes = labels.map((l) => wishFor(l, settings.get(l.id) ?? set(3, ['']), lettering));
    const placement = placeLabels(wishes, others, within);
    const words = new Map(
      placement.labels.flatMap((p) => {
        const own = settings.get(p.id)?.[p.setting];
        return own === undefined ? [] : [[p.id, own] as const];
      }),
    );
    const whole = (l: TemplateLabel): boolean => words.has(l.id) && (level.get(l.id) === 0 || l.short === null);
    return {
      wishes,
      placement,
      words,
      shortened: labels
        .filter((l) => !whole(l) || words.get(l.id)?.lines.some((w) => w.endsWith('…')) === true)
        .map((l) => l.id),
    };
  };
  const all = (level: number): ReadonlyMap<string, number> => new Map(labels.map((l) => [l.id, level]));
  const bad = ({ placement: p }: Placed): boolean =>
    p.unplaced.length > MOST_UNPLACED * labels.length ||
    p.labels.filter((l) => l.leader !== null).length > MOST_LEADERS * labels.length + 2;
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
      text('note', { x, y: label.box.top - words.name - i * LEAD * DETAIL }, line, {
        capital: capitalOf(words, i),
        weight: weightOf(i),
        anchor: right ? 'end' : 'start',
      }),
    ),
    ...(label.leader === null
      ? []
      : [line('note', label.leader.from, label.leader.to, pens.hair), circle('note', label.leader.to, 0.35, null, 0)]),
  ]);
};
