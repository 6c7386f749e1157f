import fc from 'fast-check';
import { distance } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { type LabelWish, type PlacedLabel, obstaclesOf, placeLabels } from '../../src/index.js';
import { boxMeetsCircle, boxToCircle, boxesMeet, segmentMeetsBox, segmentMeetsCircle } from '../../src/label/meet.js';

const wish = fc.record({
  x: fc.double({ min: -150, max: 150, noNaN: true }),
  y: fc.double({ min: -150, max: 150, noNaN: true }),
  radius: fc.double({ min: 1, max: 15, noNaN: true }),
  width: fc.double({ min: 5, max: 40, noNaN: true }),
  height: fc.double({ min: 2, max: 9, noNaN: true }),
});

/** Random plates: holes that do not overlap, each with a cross-hair beyond its rim. */
const plates = fc.array(wish, { minLength: 1, maxLength: 40 }).map((all) => {
  const kept: LabelWish[] = [];
  for (const [i, w] of all.entries()) {
    const centre = { x: w.x, y: w.y };
    if (kept.every((k) => distance(k.centre, centre) > k.radius + w.radius + 1))
      kept.push({ id: `H${i}`, centre, radius: w.radius, reach: w.radius + 3, width: w.width, height: w.height });
  }
  return kept;
});

/** Everything that lies on something else, in words. */
const overlaps = (wishes: readonly LabelWish[], labels: readonly PlacedLabel[]): readonly string[] => {
  const things = wishes.flatMap(obstaclesOf);
  const onHoles = labels.flatMap((label) =>
    things.flatMap((o) => {
      const hit =
        o.kind === 'circle'
          ? boxMeetsCircle(label.box, o.circle) || (label.leader !== null && segmentMeetsCircle(label.leader, o.circle))
          : o.kind === 'segment' && segmentMeetsBox(o.segment, label.box);
      return hit ? [`${label.id} on the ${o.kind} of ${o.owner}`] : [];
    }),
  );
  const onLabels = labels.flatMap((a) =>
    labels.flatMap((b) =>
      a !== b && (boxesMeet(a.box, b.box) || (b.leader !== null && segmentMeetsBox(b.leader, a.box)))
        ? [`${a.id} on ${b.id}`]
        : [],
    ),
  );
  return [...onHoles, ...onLabels];
};

describe('labels beside holes', () => {
  test('no label on a hole, a cross-hair, a leader or another label; no leader through a label or a hole', () => {
    fc.assert(
      fc.property(plates, (wishes) => {
        const { labels, unplaced } = placeLabels(wishes);
        expect(unplaced).toEqual([]);
        expect(labels.map((l) => l.id)).toEqual(wishes.map((w) => w.id));
        expect(overlaps(wishes, labels)).toEqual([]);
      }),
      { seed: 7, numRuns: 150 },
    );
  });

  test('the check does see labels that lie on each other and on a hole', () => {
    const at = (id: string, x: number): LabelWish => ({
      id,
      centre: { x, y: 0 },
      radius: 5,
      reach: 8,
      width: 20,
      height: 6,
    });
    const box = { left: 1, right: 21, bottom: -3, top: 3 };
    const found = overlaps(
      [at('H1', 0), at('H2', 30)],
      [
        { id: 'H1', box, leader: null, setting: 0 },
        { id: 'H2', box, leader: null, setting: 0 },
      ],
    );
    expect(found).toContain('H1 on the circle of H1');
    expect(found).toContain('H1 on the segment of H1');
    expect(found).toContain('H1 on H2');
  });

  test('a lone hole has its label right above it at the right, without a leader', () => {
    const [label] = placeLabels([
      { id: 'H1', centre: { x: 10, y: 20 }, radius: 5, reach: 8, width: 20, height: 6 },
    ]).labels;
    expect(label?.leader).toBeNull();
    expect(label?.box.left).toBeGreaterThan(10);
    expect(label?.box.bottom).toBeGreaterThan(20);
    expect(label?.box.right).toBeCloseTo((label?.box.left ?? 0) + 20, 9);
  });

  test('words that fit only when set otherwise are set otherwise', () => {
    const wish = {
      id: 'H1',
      centre: { x: 0, y: 0 },
      radius: 3,
      reach: 5,
      width: 60,
      height: 4,
      otherwise: [{ width: 20, height: 10 }],
    };
    const room = { left: -29, right: 29, bottom: -29, top: 29 };
    expect(placeLabels([wish]).labels[0]?.setting).toBe(0);
    expect(placeLabels([wish], [], room).labels[0]).toMatchObject({ setting: 1, leader: null });
  });

  test('on a ring of close holes no name without a leader stands as near to another hole as to its own', () => {
    const ring = Array.from({ length: 36 }, (_, i): LabelWish => {
      const a = (i * Math.PI) / 18;
      return {
        id: `H${i + 1}`,
        centre: { x: 190 * Math.cos(a), y: 190 * Math.sin(a) },
        radius: 10.25,
        reach: 0,
        width: 24,
        height: 9,
      };
    });
    const { labels, unplaced } = placeLabels(ring);
    expect(unplaced).toEqual([]);
    const doubtful = labels.filter((l) => {
      const [own, other] = [true, false].map((mine) =>
        Math.min(...ring.filter((w) => (w.id === l.id) === mine).map((w) => boxToCircle(l.box, w))),
      );
      return l.leader === null && (own ?? 0) >= (other ?? 0);
    });
    expect(doubtful.map((l) => l.id)).toEqual([]);
  });

  test('a leader crosses a line that may be crossed, but never runs along it', () => {
    const wish: LabelWish = { id: 'H1', centre: { x: 0, y: 0 }, radius: 5, reach: 0, width: 20, height: 6 };
    const wall = { kind: 'box', box: { left: -40, right: 40, bottom: -40, top: 8 } } as const;
    const to = { x: 7.5, y: 60 };
    const line = { kind: 'segment', crossable: true, segment: { from: { x: 0, y: 0 }, to } } as const;
    const angle = (others: Parameters<typeof placeLabels>[1]): number => {
      const leader = placeLabels([wish], others).labels[0]?.leader ?? null;
      return leader === null ? 0 : Math.abs(Math.atan2(leader.from.x, leader.from.y) - Math.atan2(to.x, to.y));
    };
    expect(angle([wall])).toBeLessThan(0.17);
    expect(angle([wall, line])).toBeGreaterThan(0.17);
  });

  test('a leader leaves a strip that its own hole lies in', () => {
    const strip = { kind: 'box', box: { left: -15, right: 15, bottom: -200, top: 200 } } as const;
    const wish: LabelWish = { id: 'H1', centre: { x: 0, y: 0 }, radius: 2, reach: 0, width: 20, height: 4 };
    const [label] = placeLabels([wish], [strip]).labels;
    expect(label?.leader).not.toBeNull();
    expect(Math.abs((label?.box.left ?? 0) + 10)).toBeGreaterThan(25);
  });

  test('a hole that breaks into a larger one is named all the same', () => {
    const hole = (id: string, x: number, radius: number): LabelWish => ({
      id,
      centre: { x, y: 0 },
      radius,
      reach: 0,
      width: 20,
      height: 4,
    });
    const { labels, unplaced } = placeLabels([hole('H1', 0, 10), hole('H2', 6, 3)]);
    expect(unplaced).toEqual([]);
    expect(labels.find((l) => l.id === 'H2')?.leader).not.toBeNull();
  });

  test('names that need a leader stand away from what they are about', () => {
    const wish: LabelWish = { id: 'H1', centre: { x: -30, y: 0 }, radius: 3, reach: 0, width: 12, height: 4 };
    const near = { kind: 'box', box: { left: -40, right: -20, bottom: -10, top: 10 } } as const;
    const rule = { gap: 0.8, step: 3, farthest: 90 };
    expect(placeLabels([wish], [near], null, { ...rule, about: { x: 0, y: 0 } }).labels[0]?.box.right).toBeLessThan(
      -40,
    );
    expect(placeLabels([wish], [near], null, { ...rule, about: { x: -60, y: 0 } }).labels[0]?.box.left).toBeGreaterThan(
      -20,
    );
  });

  test('what has no room is told, not forced', () => {
    const wishes = [{ id: 'H1', centre: { x: 0, y: 0 }, radius: 5, reach: 8, width: 20, height: 6 }];
    expect(placeLabels(wishes, [], { left: -10, right: 10, bottom: -10, top: 10 }).unplaced).toEqual(['H1']);
  });

  test('moving the plate moves the labels with it', () => {
    fc.assert(
      fc.property(plates, fc.integer({ min: -500, max: 500 }), (wishes, d) => {
        const here = placeLabels(wishes).labels;
        const there = placeLabels(wishes.map((w) => ({ ...w, centre: { x: w.centre.x + d, y: w.centre.y } }))).labels;
        for (const [i, label] of here.entries()) {
          expect((there[i]?.box.left ?? 0) - label.box.left).toBeCloseTo(d, 6);
          expect(there[i]?.leader === null).toBe(label.leader === null);
        }
      }),
      { seed: 11, numRuns: 20 },
    );
  });
});
