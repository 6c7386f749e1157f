import { speechFor } from '@fayplate/core';
import { captioned } from '@fayplate/drawing';
import type { StackSpec } from '@fayplate/job';
import { solveStack } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { chainPicture } from '../src/index.js';
import { flat, letters, meetingTexts, outside, textsOf } from './support.js';

const chain = (more: Partial<StackSpec>): StackSpec => ({
  links: [{ name: 'reach', value: 60, plusMinus: 0.2 }],
  unknown: { name: 'plate', from: 10, to: 90, made: null },
  limits: [
    {
      name: 'gap',
      sum: new Map([
        ['plate', 1],
        ['reach', -1],
      ]),
      least: 1.1,
      most: 1.9,
    },
  ],
  shims: null,
  onHand: null,
  ...more,
});
const drawn = (spec: StackSpec) => captioned(chainPicture(spec, solveStack(spec), speechFor('mm'), letters), letters);
const words = (spec: StackSpec): string =>
  textsOf(drawn(spec))
    .map((t) => t.text)
    .join(' ');

describe('the chain', () => {
  test('shims lie with the plate, and are said', () => {
    const spec = chain({ onHand: [60], shims: { from: [0.5], atMost: 3 } });
    expect(words(spec)).toContain('plus plate and shims 61.500 mm');
    expect(words(spec)).toContain('Drawn with plate 60.00 mm and shims 0.500 mm + 0.500 mm + 0.500 mm.');
  });
  test('where nothing meets the limits, the sum is drawn at what its words are about', () => {
    // Plate ≥ 61.7 and ≤ 61.3: told at the middle, 61.5, where the sum is 1.5.
    const spec = chain({ links: [{ name: 'reach', value: 60, plusMinus: 0.6 }] });
    expect(words(spec)).toContain('No plate meets every limit; drawn at 61.500 mm.');
    expect(words(spec)).toContain('gap: 0.900 mm to 2.100 mm in the worst case');
    const bar = flat(drawn(spec).shapes).flatMap((s) => (s.kind === 'path' && s.stroke?.width === 0.9 ? [s.path] : []));
    expect(bar.map((p) => p.edges[0]?.to.x)).toEqual([expect.closeTo(1.5, 9)]);
    expect(words(chain({ onHand: [50] }))).toContain('Nothing on hand fits; drawn at 61.500 mm.');
  });
  test('nothing is clipped and no lettering meets other lettering', () => {
    for (const spec of [
      chain({}),
      chain({ onHand: [50] }),
      chain({ onHand: [60], shims: { from: [0.5], atMost: 3 } }),
    ]) {
      expect(outside(drawn(spec))).toEqual([]);
      expect(meetingTexts(drawn(spec))).toEqual([]);
    }
  });
});
