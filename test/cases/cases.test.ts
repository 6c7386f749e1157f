import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { fayplate } from '../support/cli.js';
import { type FaceAnswer, answerOf, differences } from './answer.js';

const names = readdirSync(import.meta.dirname).flatMap((f) =>
  f.endsWith('.yaml') ? [f.slice(0, -'.yaml'.length)] : [],
);
const solved = async <T>(command: string, name: string): Promise<T> =>
  JSON.parse((await fayplate([command, `test/cases/${name}.yaml`, '--json'])).out) as T;
const ofKind = (...kinds: readonly string[]): readonly string[] =>
  names.filter((n) => kinds.includes(answerOf(n).kind));

test('all ten are here', () => expect(names).toHaveLength(10));

describe.each(ofKind('locate', 'layout', 'plate'))('%s', (name) => {
  test('the centres, their ±, the residuals and the suspects are those of the independent solver', async () => {
    const { faces } = await solved<{ faces: Readonly<Record<string, FaceAnswer>> }>('locate', name);
    for (const [face, theirs] of Object.entries(answerOf(name).faces ?? {})) {
      const ours = faces[face];
      if (ours === undefined) throw new Error(`no face ${face}`);
      expect(differences(ours, theirs)).toEqual([]);
      // Answers that must not pass: one centre two tenths of a micrometre out, one ± a fifth of a per cent too wide,
      // one reading unsuspected.
      const [id, f] = Object.entries(theirs.features).at(-1) ?? [];
      if (id === undefined || f === undefined) throw new Error('no features');
      const changed = (more: object): FaceAnswer => ({
        ...ours,
        features: { ...ours.features, [id]: { ...f, ...more } },
      });
      expect(differences(changed({ x: f.x + 2e-4 }), theirs)).toHaveLength(1);
      const [[xx, xy], [yx, yy]] = f.covariance;
      expect(
        differences(
          changed({
            covariance: [
              [xx, xy],
              [yx, yy * 1.002],
            ],
          }),
          theirs,
        ),
      ).toHaveLength(yy > 0 ? 1 : 0);
      if (theirs.suspects.length > 0) expect(differences({ ...ours, suspects: [] }, theirs)).not.toEqual([]);
    }
  });
});

describe.each(ofKind('layout'))('%s', (name) => {
  test('the layout chosen is the one that was drawn', async () => {
    const { layout } = answerOf(name);
    interface Circle {
      readonly diameter: number;
      readonly divisions: number;
      readonly occupied: readonly number[];
    }
    const { faces } = await solved<{
      faces: Record<string, { chosen: number | null; candidates: readonly { circles: readonly Circle[] }[] }>;
    }>('layout', name);
    const [face] = Object.values(faces);
    const circle = face?.candidates[face.chosen ?? -1]?.circles[0];
    expect(circle?.diameter).toBeCloseTo(layout?.diameter ?? Number.NaN, 6);
    expect(circle?.divisions).toBe(layout?.divisions);
    // Up to turning: the gaps between occupied places, in order round the circle, as one of their rotations.
    const gaps = (c: readonly number[], n: number): readonly number[] =>
      [...c].sort((a, b) => a - b).map((d, i, all) => (((all[(i + 1) % all.length] ?? d) - d + n - 1) % n) + 1);
    const ours = gaps(circle?.occupied ?? [], circle?.divisions ?? 1);
    const theirs = gaps(layout?.occupied ?? [], layout?.divisions ?? 1);
    expect(theirs.map((_, k) => [...theirs.slice(k), ...theirs.slice(0, k)].join())).toContain(ours.join());
  });
});

describe.each(ofKind('plate'))('%s', (name) => {
  test('every hole lies where the independent solver puts it, seen from side B', async () => {
    const { holes } = await solved<{ holes: readonly { feature: string; x: number; y: number }[] }>('plate', name);
    const theirs = answerOf(name).holes ?? {};
    expect(holes.map((h) => h.feature).sort()).toEqual(Object.keys(theirs).sort());
    for (const h of holes) {
      const [x, y] = theirs[h.feature] ?? [Number.NaN, Number.NaN];
      expect([h.feature, Math.hypot(h.x - x, h.y - y) < 1e-4]).toEqual([h.feature, true]);
      if (Math.abs(x) > 1) expect(Math.hypot(h.x + x, h.y - y)).toBeGreaterThan(1); // its mirror image is another plate
    }
  });
});

describe.each(ofKind('stack'))('%s', (name) => {
  test('the windows and the limits are those of corner enumeration', async () => {
    const theirs = answerOf(name);
    interface Window {
      readonly from: number;
      readonly to: number;
    }
    interface Stack {
      readonly worst: Window;
      readonly statistical: Window;
      readonly chosen: number;
      readonly limits: readonly { name: string; nominal: number; worst: readonly [number, number]; ok: boolean }[];
    }
    const ours = await solved<Stack>('stack', name);
    // The other takes the factor of 0.9973 where ours is 3: 2.99998.
    for (const way of ['worst', 'statistical'] as const) {
      expect(ours[way].from).toBeCloseTo(theirs[way]?.from ?? Number.NaN, 4);
      expect(ours[way].to).toBeCloseTo(theirs[way]?.to ?? Number.NaN, 4);
    }
    expect(ours.worst.from).not.toBeCloseTo(ours.statistical.from, 2);
    expect(ours.chosen).toBeGreaterThan(ours.worst.from);
    expect(ours.chosen).toBeLessThan(ours.worst.to);
    for (const t of theirs.limits ?? []) {
      const o = ours.limits.find((l) => l.name === t.name);
      const nominal = t.nominal_without_unknown + t.coefficient * ours.chosen;
      expect(o?.nominal).toBeCloseTo(nominal, 6);
      expect(o?.worst[0]).toBeCloseTo(nominal - t.band_worst, 6);
      expect(o?.worst[1]).toBeCloseTo(nominal + t.band_worst, 6);
    }
  });
});
