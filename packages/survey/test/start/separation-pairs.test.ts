import { randomFrom } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { networkOf } from '../../src/network/network.js';
import { separationPairsOf } from '../../src/start/separation-pairs.js';
import { sketchOf } from '../../src/start/sketch.js';

/** A strip of triangles: every hole tied to the two before it, and nothing else. */
const strip = (count: number) => {
  const random = randomFrom(4_206);
  const at = Array.from({ length: count }, (_, i) => ({
    x: 20 * i + 9 * random.uniform(),
    y: (i % 2) * 35 + 9 * random.uniform(),
  }));
  const ties = at.flatMap((p, i) =>
    at
      .slice(i + 1, i + 3)
      .map((q, k) => `      - centres H${i} H${i + 1 + k} = ${Math.hypot(p.x - q.x, p.y - q.y).toFixed(3)} by caliper`),
  );
  const read = readJob(
    `job: t\nunits: mm\ninstruments: { caliper: ± 0.05 }\nfaces:\n  a:\n    features:\n${at
      .map((_, i) => `      H${i}: { kind: hole }\n`)
      .join('')}    readings:\n${ties.join('\n')}\n`,
  );
  const face = read.ok ? read.job.faces[0] : undefined;
  if (!read.ok || face === undefined) throw new Error('the strip does not read');
  return sketchOf(networkOf({ face, instruments: read.job.instruments }));
};

describe('separation pairs', () => {
  test.each([12, 150, 152])('of a strip of %d holes: every two neighbours that have holes on both sides', (count) => {
    const pairs = separationPairsOf(strip(count)).map(({ pins: [a, b], part }) => ({
      pins: [Math.min(a, b), Math.max(a, b)],
      part: part.length,
    }));
    expect(pairs).toStrictEqual(
      Array.from({ length: count - 3 }, (_, k) => k + 1).map((a) => ({
        pins: [a, a + 1],
        part: Math.min(a, count - a - 2),
      })),
    );
  });

  test('of a large face no more than so many', () => {
    expect(separationPairsOf(strip(400))).toHaveLength(150);
  });
});
