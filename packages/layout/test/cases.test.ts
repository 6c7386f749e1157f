import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { layoutFace, layoutJson, usedPattern } from '../src/index.js';
import { located } from './support/case.js';

interface Answer {
  readonly layout: {
    readonly diameter: number;
    readonly divisions: number;
    readonly occupied: readonly number[];
    readonly truth: Readonly<Record<string, readonly [number, number]>>;
  };
  readonly layout_checks: { readonly truth_chi2: number; readonly truth_dof: number; readonly truth_p: number };
}

// Solved by a separate program that shares no code with this one.
describe('a layout solved independently', () => {
  const answer = JSON.parse(
    readFileSync(join(import.meta.dirname, '../../../test/cases/lay07-five-equal.json'), 'utf8'),
  ) as Answer;
  const { face, located: there } = located('lay07-five-equal.yaml');
  const layout = layoutFace(face, there);
  const chosen = layout.candidates[layout.chosen ?? -1];

  test('the same divisions, size and places, with the same χ²', () => {
    expect(chosen?.circles).toHaveLength(1);
    const [circle] = chosen?.circles ?? [];
    expect(circle?.diameter).toBeCloseTo(answer.layout.diameter, 9);
    expect(circle?.size).toBe('5 3/16 in');
    expect(circle?.about).toBe('nose');
    expect(circle?.divisions).toBe(answer.layout.divisions);
    expect([...(circle?.occupied ?? [])].sort((a, b) => a - b)).toEqual(answer.layout.occupied);
    expect(chosen?.dof).toBe(answer.layout_checks.truth_dof);
    expect(chosen?.chi2).toBeCloseTo(answer.layout_checks.truth_chi2, 3);
    expect(chosen?.p).toBeCloseTo(answer.layout_checks.truth_p, 4);
    for (const [id, [x, y]] of Object.entries(answer.layout.truth)) {
      expect(chosen?.features.get(id)?.x).toBeCloseTo(x, 8);
      expect(chosen?.features.get(id)?.y).toBeCloseTo(y, 8);
    }
  });

  test('odds add up to 1, and the document says the same', () => {
    expect(layout.candidates.reduce((s, c) => s + c.odds, layout.asMeasured)).toBeCloseTo(1, 12);
    const json = JSON.parse(JSON.stringify(layoutJson([layout]))) as {
      faces: { end: { chosen: number; candidates: { circles: { phase: number }[] }[] } };
    };
    expect(json.faces.end.chosen).toBe(layout.chosen);
    expect(json.faces.end.candidates[0]?.circles[0]?.phase).toBeCloseTo(0, 9);
  });

  test('an intended position has no uncertainty of its own here: nothing in it is free', () => {
    const used = usedPattern({ ...face, layout: { kind: 'intended' } }, there, layout);
    const covariance = used.ok ? used.used.pattern.covariance : [[Number.NaN]];
    expect(Math.max(...covariance.flat().map(Math.abs))).toBeLessThan(1e-9);
  });
});
