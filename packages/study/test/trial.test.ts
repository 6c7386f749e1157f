import { describe, expect, test } from 'vitest';
import { answer } from '../src/index.js';
import { bareWorld, example } from './support.js';

const text = example('grain-auger');
const trial = (job: string) => answer(job, 'trial', { trials: 100 }, bareWorld);

describe('trial', () => {
  // 0.70, 0.78, 0.70, 0.62 less a gasket of 0.30.
  test('gives the shims at each bolt, and counts in the verdict', async () => {
    const a = await trial(text);
    const { bolts } = a.json as { readonly bolts: readonly { readonly bolt: string; readonly wanted: number }[] };
    expect(bolts.map((b) => [b.bolt, Number(b.wanted.toFixed(3))])).toEqual([
      ['G1', 0.4],
      ['G2', 0.48],
      ['G3', 0.4],
      ['G4', 0.32],
    ]);
    expect(a.exit).toBe(0);
    expect(JSON.stringify(a.json)).toContain('"trial-shims"');
  });

  test('a joint too tight for its gasket is No for the whole job', async () => {
    const a = await answer(text.replace('gasket: 0.30', 'gasket: 1.30'), 'plate', { trials: 100 }, bareWorld);
    expect(a.exit).toBe(1);
    expect(JSON.stringify(a.json)).toContain('too tight by 0.68');
  });

  test('without a section it says what to take, and how to write it', async () => {
    const a = await trial(text.replace(/\ntrial:[\s\S]*$/, '\n'));
    expect([a.exit, a.error]).toEqual([2, expect.stringContaining('trial: { on: gear, gaps: { G1: 0.40')]);
  });
});
