import { type Speech, formatLength } from '@fayplate/core';
import { type PlateBore, boreLimits, depthLimitsOf } from '@fayplate/plate';
import type { HoleList } from './types.js';
import { type PunchedHole, boreKinds, cutWords, depthWords, limitWords, sinkLine } from './words.js';

/** Every hole and bore with its place on the plate as seen from side B, and its cut. */
export const drillList = (holes: readonly PunchedHole[], bores: readonly PlateBore[], speech: Speech): HoleList => {
  const place = (v: number): string => formatLength(v, speech.unit, speech.unit === 'in' ? 4 : 2);
  return {
    columns: [
      { title: 'Hole', align: 'left' },
      { title: 'Feature', align: 'left' },
      { title: `X, ${speech.unit}`, align: 'point' },
      { title: `Y, ${speech.unit}`, align: 'point' },
      { title: 'Cut', align: 'left' },
      { title: 'Depth', align: 'left' },
      { title: 'Sunk', align: 'left' },
    ],
    rows: [
      ...holes.map((h) => [
        h.id,
        h.feature ?? '',
        place(h.x),
        place(h.y),
        cutWords(h, speech),
        h.depth === null ? depthWords(h, speech) : `${depthWords(h, speech)}, side ${h.from}`,
        h.sink === null ? '' : sinkLine(h.sink, speech),
      ]),
      ...bores.map((b) => [
        b.id,
        b.feature ?? '',
        place(b.x),
        place(b.y),
        `${boreKinds[b.kind]} ⌀${limitWords(boreLimits(b), speech)}`,
        b.depth === null
          ? 'through'
          : `${limitWords(depthLimitsOf(b) ?? [b.depth, b.depth], speech)} ${b.kind === 'spigot' ? 'high' : 'deep'}, side ${b.side}`,
        '',
      ]),
    ],
  };
};
