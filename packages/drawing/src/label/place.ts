import { type Box, type Point, add, distance, polar } from '@fayplate/core';
import { type LabelWish, beside, directionsFrom, leaderTo, ringOf } from './beside.js';
import { type Field, type Obstacle, field } from './field.js';
import { type Segment, boxToCircle } from './meet.js';

/** A label where it came to lie, mm. */
export interface PlacedLabel {
  readonly id: string;
  /** The room for the lettering. */
  readonly box: Box;
  /** From the label to the rim of what it names; null where it stands right beside it. */
  readonly leader: Segment | null;
  /** 0: as first wished; 1 …: the setting of `otherwise` that was taken. */
  readonly setting: number;
}

/** Where every label lies, and those that found no place. */
export interface Placement {
  readonly labels: readonly PlacedLabel[];
  /** Ids for which no free place was found: list them beside the drawing. */
  readonly unplaced: readonly string[];
}

/** How labels stand, where it is not as on a template at true scale. */
export interface LabelRule {
  /** Bare paper kept about lettering, mm. */
  readonly gap: number;
  /** How much farther out each try is than the one before, and the farthest, mm. */
  readonly step: number;
  readonly farthest: number;
  /**
   * Names with a leader stand rather on the far side from this, so that they keep their order round it; null: rather
   * above and right.
   */
  readonly about: Point | null;
}

const TRUE_SCALE: LabelRule = { gap: 0.8, step: 3, farthest: 90, about: null };
const grown = (b: Box, by: number): Box => ({
  left: b.left - by,
  right: b.right + by,
  bottom: b.bottom - by,
  top: b.top + by,
});

const inside = (box: Box, within: Box | null): boolean =>
  within === null ||
  (box.left >= within.left && box.right <= within.right && box.bottom >= within.bottom && box.top <= within.top);

const settingsOf = (wish: LabelWish): readonly LabelWish[] => [
  wish,
  ...(wish.otherwise ?? []).map((size) => ({ ...wish, ...size })),
];

/** Nearer its own hole than any other by more than half a gap: else it would be read as the other's. */
const isPlain = (wish: LabelWish, box: Box, taken: Field, gap: number): boolean =>
  !taken.besideOther(box, wish.id, boxToCircle(box, { centre: wish.centre, radius: wish.radius }) + gap / 2);

const placeOne = (
  wish: LabelWish,
  taken: Field,
  within: Box | null,
  { gap, step, farthest, about }: LabelRule,
): PlacedLabel | null => {
  const free = (box: Box): boolean => inside(box, within) && !taken.coversBox(grown(box, gap * 0.9));
  const settings = settingsOf(wish);
  let doubtful: PlacedLabel | null = null;
  for (const [setting, own] of settings.entries()) {
    for (const box of beside(own, gap)) {
      if (!free(box)) continue;
      const label = { id: wish.id, box, leader: null, setting };
      if (isPlain(wish, box, taken, gap)) return label;
      doubtful ??= label;
    }
  }
  const directions = directionsFrom(wish, about);
  for (let reach = step; reach <= farthest; reach += step) {
    for (const [setting, own] of settings.entries()) {
      for (const box of ringOf(own, reach, directions)) {
        if (!free(box)) continue;
        const leader = leaderTo(own, box, gap);
        if (!taken.crosses(leader, wish.id, gap)) return { id: wish.id, box, leader, setting };
      }
    }
  }
  return doubtful;
};

/** Each hole with its cross-hair as things to keep clear of. */
export const obstaclesOf = (wish: LabelWish): readonly Obstacle[] => {
  const { centre: c, reach, id: owner } = wish;
  const disc: Obstacle = { kind: 'circle', circle: { centre: c, radius: wish.radius }, owner };
  if (reach <= wish.radius) return [disc];
  return [
    disc,
    { kind: 'segment', owner, segment: { from: { x: c.x - reach, y: c.y }, to: { x: c.x + reach, y: c.y } } },
    { kind: 'segment', owner, segment: { from: { x: c.x, y: c.y - reach }, to: { x: c.x, y: c.y + reach } } },
  ];
};

/**
 * Lettering beside holes, by this rule: the holes with the nearest neighbours choose first; each takes the first free
 * place of those right beside it (right above, right below, left above, left below, along the arms, beyond the arms)
 * that is not as near to another and, where all are taken, the nearest free one round about with a leader; words that
 * may be set otherwise try each setting in turn. A label never lies on a hole, a cross-hair, another label, a leader or
 * anything in `others`, and a leader crosses none of them but lines marked `crossable`; what finds no place near enough
 * is `unplaced`.
 */
export const placeLabels = (
  wishes: readonly LabelWish[],
  others: readonly Obstacle[] = [],
  within: Box | null = null,
  rule: LabelRule = TRUE_SCALE,
): Placement => {
  const taken = field([...others, ...wishes.flatMap(obstaclesOf)]);
  const room = (w: LabelWish): number =>
    wishes.reduce(
      (least, o) => (o === w ? least : Math.min(least, distance(o.centre, w.centre) - o.radius - w.radius)),
      Infinity,
    );
  const order = wishes.map((wish, i) => ({ wish, i, room: room(wish) })).sort((a, b) => a.room - b.room || a.i - b.i);
  const placed = new Map<number, PlacedLabel>();
  for (const { wish, i } of order) {
    const label = placeOne(wish, taken, within, rule);
    if (label === null) continue;
    placed.set(i, label);
    taken.add({ kind: 'box', box: label.box, owner: `label of ${wish.id}` });
    if (label.leader !== null) taken.add({ kind: 'segment', segment: label.leader, owner: `leader of ${wish.id}` });
  }
  return {
    labels: wishes.flatMap((_, i) => placed.get(i) ?? []),
    unplaced: wishes.filter((_, i) => !placed.has(i)).map((w) => w.id),
  };
};

const STEP = 3;

/**
 * Room for a block of lettering: the free place whose centre is nearest to `near` (rings of 3 mm, walked
 * counter-clockwise from the right), wholly `within`; null where there is none.
 */
export const findRoom = (
  size: { readonly width: number; readonly height: number },
  near: Point,
  taken: Field,
  within: Box,
): Box | null => {
  const at = (c: Point): Box => ({
    left: c.x - size.width / 2,
    right: c.x + size.width / 2,
    bottom: c.y - size.height / 2,
    top: c.y + size.height / 2,
  });
  const most = Math.hypot(within.right - within.left, within.top - within.bottom);
  for (let r = 0; r <= most; r += STEP) {
    const n = Math.max(1, Math.round((2 * Math.PI * r) / (2 * STEP)));
    for (let i = 0; i < n; i++) {
      const box = at(add(near, polar(r, (i * 2 * Math.PI) / n)));
      const inside =
        box.left >= within.left && box.right <= within.right && box.bottom >= within.bottom && box.top <= within.top;
      if (inside && !taken.coversBox(box)) return box;
    }
  }
  return null;
};
