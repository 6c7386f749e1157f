import { type Path, circlePath, distance, polygonPath, randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { type Body, type Spot, chainsOf, ringOf } from '../../src/exploded/solid.js';
import { hiderOf, project, seenOf } from '../../src/exploded/visible.js';

// An independent answer: walk from a place toward the eye in small steps and ask of every shape, by its own formula,
// whether it holds it.

type Shape = { x: number; y: number; r: number } | { left: number; right: number; bottom: number; top: number };
interface Part {
  readonly shape: Shape;
  readonly from: number;
  readonly to: number;
  readonly cut: boolean;
}

const pathOf = (s: Shape): Path =>
  'r' in s
    ? circlePath(s, s.r)
    : polygonPath([
        { x: s.left, y: s.bottom },
        { x: s.right, y: s.bottom },
        { x: s.right, y: s.top },
        { x: s.left, y: s.top },
      ]);
/** Metal grown by `more`, cuts shrunk by it. */
const holds = (s: Shape, x: number, y: number, more: number): boolean =>
  'r' in s
    ? Math.hypot(x - s.x, y - s.y) < s.r + more
    : x > s.left - more && x < s.right + more && y > s.bottom - more && y < s.top + more;
const isMetal = (parts: readonly Part[], p: Spot, more: number): boolean => {
  const own = (cut: boolean, m: number): boolean =>
    parts.some((q) => q.cut === cut && p.z > q.from - m && p.z < q.to + m && holds(q.shape, p.x, p.y, m));
  return own(false, more) && !own(true, -more);
};
const STEP = 0.02;
const hidden = (scene: readonly (readonly Part[])[], p: Spot, more: number): boolean => {
  const top = Math.max(...scene.flat().map((q) => q.to));
  for (let t = 0.1; p.z + t < top + 1; t += STEP) {
    const at = { x: p.x - t, y: p.y + t, z: p.z + t };
    if (scene.some((parts) => isMetal(parts, at, more))) return true;
  }
  return false;
};

/** Whether metal lies within the first tenth of a millimetre, which the walk steps over. */
const skinned = (scene: readonly (readonly Part[])[], p: Spot): boolean =>
  Array.from({ length: 60 }, (_, i) => 0.12 * 0.85 ** i).some((t) =>
    scene.some((parts) => isMetal(parts, { x: p.x - t, y: p.y + t, z: p.z + t }, 0)),
  );

const bodyOf = (parts: readonly Part[]): Body =>
  parts.map((p) => ({ ring: ringOf(pathOf(p.shape), 0.0003), from: p.from, to: p.to, cut: p.cut }));

const scene = (seed: number): readonly (readonly Part[])[] => {
  const random = randomFrom(seed);
  const between = (a: number, b: number): number => a + random.uniform() * (b - a);
  let z = 0;
  return [0, 1, 2].map((k): readonly Part[] => {
    const from = (z += between(2, 14));
    const to = (z = from + between(1, 8));
    const shape: Shape =
      k === 1 ? { left: -15, right: 14, bottom: -11, top: 12 } : { x: between(-3, 3), y: between(-3, 3), r: 14 };
    const cuts = Array.from({ length: 5 }, (): Part => {
      const deep = random.uniform() < 0.4 ? between(0.3, 0.9) * (to - from) : to - from;
      const hole = { x: between(-15, 15), y: between(-12, 12), r: between(0.6, 5) };
      const below = random.uniform() < 0.5;
      return { shape: hole, from: below ? from - 1 : to - deep, to: below ? from + deep : to + 1, cut: true };
    });
    const boss = { x: between(-8, 8), y: between(-8, 8), r: between(1, 4) };
    return [{ shape, from, to, cut: false }, { shape: boss, from: to, to: to + between(1, 5), cut: false }, ...cuts];
  });
};

const near = (p: { x: number; y: number }, runs: readonly (readonly { x: number; y: number }[])[]): boolean =>
  runs.some((run) =>
    run.slice(1).some((b, i) => {
      const a = run[i]!;
      return distance(a, p) + distance(p, b) - distance(a, b) < 1e-9;
    }),
  );

describe('hidden lines', () => {
  test.each([1, 2, 4, 6])(
    'seed %i: every edge is drawn where a walk to the eye meets no metal, and nowhere else',
    (seed) => {
      const parts = scene(seed);
      const bodies = parts.map(bodyOf);
      const chains = bodies.flatMap((b) => chainsOf(b).flat());
      const seen = seenOf(hiderOf(bodies), chains, chains);
      const random = randomFrom(100 + seed);
      let [asked, drawnCount] = [0, 0];
      for (const [i, chain] of chains.entries())
        for (const [k, b] of chain.slice(1).entries()) {
          if (random.uniform() > 0.01) continue;
          const a = chain[k]!;
          const t = random.uniform();
          const p = { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y), z: a.z + t * (b.z - a.z) };
          const [sure, maybe] = [hidden(parts, p, -0.03), hidden(parts, p, 0.03)];
          // Where the line of sight only grazes metal neither answer is wrong.
          if (sure !== maybe || (!sure && skinned(parts, p))) continue;
          const drawn = near(project(p), seen[i]!);
          if (drawn === sure) throw new Error(`${JSON.stringify(p)} ${drawn ? 'drawn' : 'not drawn'}`);
          asked++;
          if (drawn) drawnCount++;
        }
      expect(asked).toBeGreaterThan(60);
      expect(drawnCount).toBeGreaterThan(15);
      expect(asked - drawnCount).toBeGreaterThan(15);
    },
  );
});
