import { norm } from '@fayplate/core';
import { endsPast, featureOf } from '../checks/studs.js';
import { pairsOf } from '../checks/webs.js';
import { otherSide } from '../desk.js';
import { type Draft, cutsOf, turnsWith } from '../draft.js';
import { edgeLimit, webLimit } from '../limits.js';
import { type Cut, cutRadius, mouthRadius } from '../solids/cut.js';
import { endGap } from '../solids/gap.js';
import type { PlateBore, PlateHole } from '../types.js';
import type { AngleTest } from './angle-test.js';
import { pairTest, spineTest } from './pairs.js';
import { type AtClocking, atClocking } from './at-clocking.js';

const turning = (draft: Draft, cut: PlateHole | PlateBore): boolean => turnsWith(draft.desk, cut);

/** Pockets that turning may bring under the plate count with the rest, under a name that no finding has. */
const allCuts = (draft: Draft): readonly Cut[] => [
  ...draft.cuts,
  ...cutsOf(
    draft.desk,
    [],
    draft.spared.map((b) => ({ ...b, id: `pocket for ${b.feature ?? ''}` })),
  ),
];

/** Metal between everything that turns and everything that does not: all in closed form. */
const webTests = (draft: Draft): readonly AngleTest[] =>
  pairsOf(draft.desk, allCuts(draft))
    .filter((p) => p.a.turns !== p.b.turns)
    .map((p) => pairTest(p, draft.desk.clocking));

/**
 * Ends of cuts that come near each other: their metal grows with the distance between the axes, so one distance
 * decides.
 */
const endTests = (draft: Draft): readonly AngleTest[] =>
  allCuts(draft).flatMap((a, i, cuts) =>
    cuts.slice(i + 1).flatMap((b) => {
      if (a.turns === b.turns || (a.what !== 'hole' && b.what !== 'hole')) return [];
      const { value } = webLimit(draft.desk, [a, b]);
      const gap = (apart: number): number => endGap(a, b, apart) ?? Infinity;
      if (gap(0) >= value) return [];
      let low = 0;
      let high = cutRadius(a) + cutRadius(b) + value;
      for (let k = 0; k < 60; k++) {
        const middle = (low + high) / 2;
        if (gap(middle) >= value) high = middle;
        else low = middle;
      }
      // A hole that comes out on a pocket's floor meets it there by design.
      const pocket = [a, b].find((c) => c.what !== 'hole');
      const [moving, fixed] = a.turns ? [a, b] : [b, a];
      return [
        spineTest(
          'floor-between-cuts',
          [a.id, b.id],
          moving.spine,
          fixed.spine,
          high,
          pocket === undefined ? 0 : cutRadius(pocket),
          draft.desk.clocking,
        ),
      ];
    }),
  );

/** Sockets beside heads, and seats beside holes, on the same side: closed form as well. */
const roomTests = (draft: Draft): readonly AngleTest[] =>
  draft.holes.flatMap((hole) => {
    const head = hole.fastening?.head ?? null;
    if (head === null || head.kind === 'countersunk screw' || hole.sink !== null) return [];
    return draft.holes.flatMap((other, i) => {
      if (turning(draft, hole) === turning(draft, other)) return [];
      const [moving, fixed] = turning(draft, hole) ? [hole, other] : [other, hole];
      const next = other.fastening?.head ?? null;
      const out: AngleTest[] = [];
      if (next !== null && next.kind !== 'countersunk screw' && next.side === head.side && next.proud > 0)
        out.push(
          spineTest(
            'socket-room',
            [hole.id, other.id],
            [moving, moving],
            [fixed, fixed],
            head.socket / 2 + next.diameter / 2,
            0,
            draft.desk.clocking,
          ),
        );
      const z = head.side === 'A' ? 0 : draft.desk.thickness;
      const cut = draft.cuts[i];
      const mouth = cut === undefined ? 0 : mouthRadius(cut, z);
      if (cut !== undefined && mouth > 0) {
        const seat = [hole, hole] as const;
        const [turns, stays] = moving === hole ? [seat, cut.spine] : [cut.spine, seat];
        out.push(
          spineTest('head-seat', [hole.id, other.id], turns, stays, mouth + head.diameter / 2, 0, draft.desk.clocking),
        );
      }
      return out;
    });
  });

/**
 * How fast the edge can come nearer to a cut, mm a radian. A hull turns with what it holds, so that seen from the cut's
 * own group only the other group moves, none of its centres faster than it is far from the origin; the sides of a
 * rectangle do not turn, and both the cut and what pushes them out may move.
 */
const edgeRate = (draft: Draft, turns: boolean): number => {
  const places = [
    ...draft.cuts.flatMap((c) => c.spine.map((p) => ({ turns: c.turns, far: norm(p) }))),
    ...draft.bores
      .filter((b) => b.kind === 'spigot' || b.box?.notch === true)
      .map((b) => ({ turns: turning(draft, b), far: norm(b) + (b.box?.behind ?? 0) })),
  ];
  const others = Math.max(1, ...places.filter((p) => p.turns !== turns).map((p) => p.far));
  return draft.desk.spec.outline.shape === 'rectangle'
    ? 2 * Math.max(others, ...places.map((p) => p.far))
    : draft.desk.spec.outline.shape === 'follow'
      ? others
      : Math.max(others, ...places.map((p) => p.far));
};

/** Holes and rims from the edge, where the outline's own margin does not settle it whatever the angle. */
const edgeTests = (draft: Draft, turned: AtClocking): readonly AngleTest[] => {
  const { desk } = draft;
  const spec = desk.spec.outline;
  const notched = draft.bores.some((b) => b.box?.notch === true);
  if (spec.shape === 'round' && !notched) return [];
  const outlineTurns = spec.shape === 'like' && spec.face === desk.faces[1].name;
  return draft.cuts.flatMap((cut, i) => {
    const hole = draft.holes[i];
    const limit = edgeLimit(desk, hole?.as === 'cut' ? hole.diameter : null);
    const needs: number[] = [
      cutRadius(cut) + (hole === undefined || hole.sink !== null ? webLimit(desk, [cut]).value : 0),
    ];
    if (hole !== undefined)
      needs.push(limit.unit === 'mm' ? limit.value : limit.value * Math.max(hole.diameter, hole.thread?.major ?? 0));
    const need = hole !== undefined && hole.sink === null ? (needs[1] ?? 0) : Math.max(...needs);
    const settled =
      spec.shape === 'like' ? cut.turns === outlineTurns : cutRadius(cut) + (spec.margin ?? 0) >= need - 1e-9;
    if (cut.notch === true || (settled && !notched)) return [];
    const margin = (clocking: number): number =>
      Math.min(...cut.spine.map((p) => turned.depth(p, cut.turns, clocking))) - need;
    return [
      {
        id: 'hole-to-edge',
        of: [cut.id, 'outline'],
        margin,
        turns: null,
        web: null,
        rate: edgeRate(draft, cut.turns),
      },
    ];
  });
};

/** Studs and dowels that end past the plate, clear of the other part. */
const endsUnderPart = (draft: Draft, turned: AtClocking): readonly AngleTest[] =>
  draft.holes.flatMap((hole): readonly AngleTest[] => {
    const p = featureOf(draft, hole);
    const { fastener } = hole;
    if (p === null || fastener === null || !endsPast(draft, hole, p)) return [];
    const own = turning(draft, hole);
    const other = own ? 0 : 1;
    if (!turned.covers(other)) return [];
    return [
      {
        id: p.feature.kind === 'dowel' ? 'dowel-end' : 'stud-end',
        of: [hole.id],
        margin: (c) => turned.clearOf(other, hole, own, fastener / 2, c),
        turns: null,
        web: null,
        rate: norm(hole),
      },
    ];
  });

/** Nuts and heads that stand proud on the other part's side, and those that have to be reached past it. */
const partTests = (draft: Draft, turned: AtClocking): readonly AngleTest[] => {
  const heads = draft.holes.flatMap((hole) => {
    const head = hole.fastening?.head ?? null;
    const own: 0 | 1 = turning(draft, hole) ? 1 : 0;
    // A head on the far side of its own face looks at the other part, which turns relative to it.
    const looks = head !== null && head.side === otherSide(own === 0 ? 'A' : 'B') && turned.covers(own === 0 ? 1 : 0);
    return looks ? [{ hole, head, own }] : [];
  });
  const clear = (h: (typeof heads)[number], radius: number, clocking: number): number =>
    turned.clearOf(h.own === 0 ? 1 : 0, h.hole, h.own === 1, radius, clocking);
  const under = heads.flatMap((h): readonly AngleTest[] =>
    h.head.proud <= 0 || h.head.kind === 'countersunk screw'
      ? []
      : [
          {
            id: h.head.kind === 'nut' ? 'nut-under-part' : 'cap-screw-under-part',
            of: [h.hole.id],
            margin: (c) => clear(h, h.head.diameter / 2, c),
            turns: null,
            web: null,
            rate: norm(h.hole),
          },
        ],
  );
  const sides = ([0, 1] as const).map((own) => heads.filter((h) => h.own === own));
  const out = [...under, ...endsUnderPart(draft, turned)];
  if (sides.some((s) => s.length === 0)) return out;
  const reached = (own: readonly (typeof heads)[number][], c: number): number =>
    Math.min(...own.map((h) => clear(h, Math.max(h.head.socket, h.head.diameter) / 2, c)));
  const order: AngleTest = {
    id: 'assembly-order',
    of: [...draft.desk.spec.between],
    margin: (c) => Math.max(...sides.map((own) => reached(own, c))),
    turns: null,
    web: null,
    rate: Math.max(...heads.map((h) => norm(h.hole))),
  };
  return [...out, order];
};

/** Everything that turning the second face can change. */
export const angleTests = (draft: Draft, turned: AtClocking = atClocking(draft)): readonly AngleTest[] => [
  ...webTests(draft),
  ...endTests(draft),
  ...roomTests(draft),
  ...edgeTests(draft, turned),
  ...partTests(draft, turned),
];
