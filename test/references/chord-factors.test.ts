import { point, polar } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { fayplate } from '../support/cli.js';

// Handbook table of equal division: chord over diameter, four places, as a workshop spacing page prints it (read in one
// place, recomputed as sin(180°/n)). Its entry for 15 holes, 0.2070, is a misprint of 0.2079 and is left out.
const printed = [
  [3, 0.866],
  [4, 7071 / 10_000],
  [5, 0.5878],
  [6, 0.5],
  [7, 0.4339],
  [8, 0.3827],
  [9, 0.342],
  [10, 0.309],
  [11, 0.2817],
  [12, 0.2588],
  [13, 0.2393],
  [14, 0.2225],
] as const;

/** A ring of holes on a circle of 100 mm as a job, its neighbours measured by the printed factor alone. */
const ring = (n: number, chord: number): string => {
  const ids = Array.from({ length: n }, (_, k) => `H${k}`);
  const hours = (k: number): number => (12 * k) / n;
  const clock = (k: number): string =>
    `${Math.floor(hours(k)) || 12}:${String(Math.floor((hours(k) % 1) * 60)).padStart(2, '0')}`;
  return [
    'job: ring',
    'units: mm',
    'instruments: { chord: ± 0.01 }',
    'faces:',
    '  ring:',
    '    centre: B',
    '    up: H0',
    '    features:',
    '      B: { kind: bore, diameter: 50 }',
    ...ids.map((id, k) => `      ${id}: { kind: hole, diameter: 6, clock: "${clock(k)}" }`),
    '    readings:',
    ...ids.map((id) => `      - centres ${id} B = 50 by chord`),
    ...ids.map((id, k) => `      - centres ${id} ${ids[(k + 1) % n] ?? ''} = ${(100 * chord).toFixed(2)} by chord`),
  ].join('\n');
};

const read = async (command: string, job: string): Promise<{ readonly code: number; readonly json: unknown }> => {
  const { code, out } = await fayplate([command, '-', '--json'], { read: () => job });
  return { code, json: JSON.parse(out) as unknown };
};

describe('chord factors of equal division', () => {
  test.each(printed)('%d holes set out by the factor %d close up', async (n, chord) => {
    const { code, json } = await read('locate', ring(n, chord));
    expect(code).toBe(0);
    const features = (json as { faces: { ring: { features: Record<string, { x: number; y: number }> } } }).faces.ring
      .features;
    for (let k = 0; k < n; k++) {
      const want = polar(50, Math.PI / 2 - (2 * Math.PI * k) / n);
      const at = features[`H${k}`] ?? point(0, 0);
      // Four places of the factor are ± 0.005 mm of each chord; the ring, which must close, holds the rest together.
      expect(Math.hypot(at.x - want.x, at.y - want.y)).toBeLessThan(0.02);
    }
  });

  // The printed 0.2070 for fifteen holes is 0.09 mm short on 100 mm, fifteen times over: no ring closes with it.
  test('the misprint is told', async () => {
    const wrong = await read('locate', ring(15, 0.207));
    const right = await read('locate', ring(15, 0.2079));
    const p = ({ json }: { readonly json: unknown }): number =>
      (json as { faces: { ring: { fit: { p: number } } } }).faces.ring.fit.p;
    expect(p(wrong)).toBeLessThan(1e-6);
    expect(p(right)).toBeGreaterThan(0.01);
  });
});
