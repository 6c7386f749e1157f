import { identity } from '@fayplate/core';
import type { Job, TrialSpec } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { solveTrial, trialRequirements } from '../../src/index.js';
import type { MatedFace } from '../../src/types.js';

/** Four bolts on a circle of 120 mm at 12, 3, 6 and 9 o'clock. */
const bolts = { M1: [0, 60], M2: [60, 0], M3: [0, -60], M4: [-60, 0] } as const;
const ids = Object.keys(bolts);
const job = {
  faces: [{ name: 'motor', features: ids.map((id) => ({ id, kind: 'hole', vacant: false })) }],
  stack: null,
  plate: { alignment: { offset: null, tilt: (0.02 * Math.PI) / 180 } },
} as unknown as Job;
const mated = [
  {
    face: 'motor',
    motion: identity,
    pattern: { ids, points: Object.values(bolts).map(([x, y]) => ({ x, y })) },
  },
] as unknown as readonly MatedFace[];
const trial = (gaps: readonly number[], more: Partial<TrialSpec> = {}): TrialSpec => ({
  face: 'motor',
  gaps: gaps.map((value, i) => ({ name: ids[i] ?? '', at: null, value, plusMinus: 0.03 })),
  instrument: null,
  zero: null,
  inside: false,
  leave: 0,
  gasket: null,
  shims: null,
  ...more,
});
const solved = (t: TrialSpec) => {
  const s = solveTrial(job, t, mated);
  if (!s.ok) throw new Error(s.why);
  return s.result;
};
const wanted = (t: TrialSpec) => solved(t).bolts.map((b) => Number(b.wanted.toFixed(9)));

describe('final shims from the gaps of a trial assembly', () => {
  test('a joint that leans takes at each bolt what is open there, less the gasket', () => {
    const t = trial([0.7, 0.78, 0.7, 0.62], { gasket: { value: 0.3, plusMinus: 0.02 } });
    expect(wanted(t)).toEqual([0.4, 0.48, 0.4, 0.32]);
    const r = solved(t);
    // It opens by 0.16 mm over 120 mm towards 3 o'clock.
    expect(r.lean.tilt).toBeCloseTo(Math.atan(0.16 / 120), 12);
    expect(r.lean.towards).toBeCloseTo(0, 9);
    expect([r.lean.sure, r.flat, r.alike]).toEqual([true, true, false]);
    // Var at a bolt of four on a circle: σ²/4 + 60² · σ²/(2 · 60²) = 3/4 σ², with the gasket's ± beside it.
    expect(r.bolts[0]?.plusMinus).toBeCloseTo(2 * Math.sqrt(0.75 * 0.015 ** 2 + 0.01 ** 2), 12);
    expect(r.leanLeft).toBeCloseTo(0, 12);
  });

  test('one that leans no more than the feeler can tell takes the same at each: the height of its middle', () =>
    expect(wanted(trial([0.4, 0.42, 0.41, 0.41]))).toEqual([0.41, 0.41, 0.41, 0.41]));

  test('by clay inside, shims open the gap to what is to be left', () =>
    expect(wanted(trial([0.2, 0.2, 0.2, 0.2], { inside: true, leave: 0.5 }))).toEqual([0.3, 0.3, 0.3, 0.3]));

  test('the pile on hand that comes nearest, and what it leaves', () => {
    const r = solved(trial([0.43, 0.43, 0.43, 0.43], { shims: { from: [0.05, 0.1, 0.25], atMost: 3 } }));
    expect(r.bolts[0]?.pieces).toEqual([0.25, 0.1, 0.1]);
    expect(r.bolts[0]?.left).toBeCloseTo(-0.02, 9);
  });

  test('shims that are too coarse leave a tilt, which is held against what the coupling bears', () => {
    const r = solved(trial([0.7, 0.78, 0.7, 0.62], { shims: { from: [0.5], atMost: 1 } }));
    // 0.5 at every bolt: the lean is left as it was, 0.076°, where 0.02° is borne.
    expect(r.leanLeft).toBeCloseTo(Math.atan(0.16 / 120), 6);
    const tilt = trialRequirements(job, r, { unit: 'mm', fraction: null }).find((q) => q.id === 'trial-tilt');
    expect(tilt?.state).toBe('fails');
  });

  test('a gap that does not fit the plane is named, and nothing is sure', () => {
    const r = solved(trial([0.4, 0.8, 0.4, 0.4]));
    expect(r.flat).toBe(false);
    // All four lie equally far off a plane through a square: ± 0.1 mm.
    expect(Math.abs(r.worst.off)).toBeCloseTo(0.1, 9);
  });

  test('a joint that is too tight takes none, and says by how much', () => {
    const r = solved(trial([0.2, 0.2, 0.2, 0.2], { gasket: { value: 0.3, plusMinus: 0.02 } }));
    expect([r.enough, r.bolts[0]?.pieces]).toEqual([false, []]);
    expect(r.bolts[0]?.wanted).toBeCloseTo(-0.1, 9);
  });

  test('gaps along one line do not tell how the part leans', () => {
    const s = solveTrial(
      job,
      {
        ...trial([0.4, 0.4]),
        gaps: [...trial([0.4, 0.4, 0.4]).gaps]
          .filter((g) => g.name !== 'M2')
          .concat([{ name: 'x', at: { x: 0, y: 10 }, value: 0.4, plusMinus: 0.03 }]),
      },
      mated,
    );
    expect(s).toMatchObject({ ok: false, why: expect.stringContaining('one line') });
  });
});
