import fc from 'fast-check';
import { distance } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { type LabelWish, obstaclesOf, placeLabels } from '../../src/index.js';
import { boxMeetsCircle, boxesMeet, segmentMeetsBox, segmentMeetsCircle } from '../../src/label/meet.js';

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

describe('labels beside holes', () => {
  test('no label on a hole, a cross-hair, a leader or another label; no leader through a label or a hole not its own', () => {
    fc.assert(
      fc.property(plates, (wishes) => {
        const { labels, unplaced } = placeLabels(wishes);
        expect(unplaced).toEqual([]);
        expect(labels.map((l) => l.id)).toEqual(wishes.map((w) => w.id));
        const things = wishes.flatMap(obstaclesOf);
        for (const label of labels) {
          for (const o of things) {
            if (o.kind === 'circle') {
              expect(boxMeetsCircle(label.box, o.circle)).toBe(false);
              if (label.leader !== null) expect(segmentMeetsCircle(label.leader, o.circle)).toBe(false);
            }
            if (o.kind === 'segment') expect(segmentMeetsBox(o.segment, label.box)).toBe(false);
          }
          for (const other of labels) {
            if (other === label) continue;
            expect(boxesMeet(label.box, other.box)).toBe(false);
            if (other.leader !== null) expect(segmentMeetsBox(other.leader, label.box)).toBe(false);
          }
        }
      }),
      { seed: 7, numRuns: 150 },
    );
  });

  test('a lone hole has its label right above it at the right, without a leader', () => {
    const [label] = placeLabels([{ id: 'H1', centre: { x: 10, y: 20 }, radius: 5, reach: 8, width: 20, height: 6 }]).labels;
    expect(label?.leader).toBeNull();
    expect(label?.box.left).toBeGreaterThan(10);
    expect(label?.box.bottom).toBeGreaterThan(20);
    expect(label?.box.right).toBeCloseTo((label?.box.left ?? 0) + 20, 9);
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
