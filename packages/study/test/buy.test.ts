import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { normalBelow, randomFrom } from '@fayplate/core';
import { lettering } from '@fayplate/drawing';
import { sheets } from '@fayplate/print';
import { describe, expect, test } from 'vitest';
import { type Options, type World, answer } from '../src/index.js';
import { bareWorld, example } from './support.js';

interface Bought {
  readonly odds: number;
  readonly thickness: readonly [number, number, number] | null;
  readonly stops: readonly { readonly what: string; readonly share: number }[];
  readonly ask: readonly { readonly says: string; readonly doubt_left: number; readonly right: number }[];
}

/**
 * Two plain faces of three studs each, far apart on their circles, and a chain of which the reach is a seller's. The
 * gap is 10 to 10.5 mm; asked for, the reach is known to ± 0.2, so that the plate must be reach − 10.3 to reach − 10.2
 * thick, and 20 mm at most: it exists where reach ≤ 30.3.
 */
const chain = (reach: number, plusMinus: number): string => `
job: Buying
units: mm
instruments: { dro: ± 0.02 }
faces:
  low:
    centre: ring
    up: N
    features:
      ring: { kind: spigot, diameter: 20, stands: 2 }
      N: { kind: hole, diameter: 3, vacant: true }
      A1: { kind: hole, thread: M6 }
      A2: { kind: hole, thread: M6 }
    readings:
      - at ring = (0, 0) by dro
      - at N = (0, 20) by dro
      - at A1 = (40, 30) by dro
      - at A2 = (-40, 30) by dro
  high:
    seller: ± 0.5
    centre: hub
    up: B1
    features:
      hub: { kind: spigot, diameter: 30, stands: 2 }
      B1: { kind: hole, diameter: 9 }
      B2: { kind: hole, diameter: 9 }
    readings:
      - at hub = (0, 0) by dro
      - at B1 = (0, 90) by dro
      - at B2 = (0, -90) by dro
plate:
  between: [low, high]
  material: mild steel
  thickness: from stack
  bore: none
  locate: { low: { register: 20.1, depth: 3 }, high: { register: 30.1, depth: 4 } }
  fasten: { low: { as: clearance, cap screw: counterbored }, high: { as: tapped, thread: M8 } }
  outline: { shape: round, margin: 15 }
  drilling: ± 0.02
stack:
  links:
    reach: ${reach} ± ${plusMinus}
    plate: { find: 12 .. 20 }
  limits:
    gap: { sum: reach - plate, least: 10, most: 10.5 }
`;

const buy = async (text: string, options: Options = {}): Promise<Bought> => {
  const a = await answer(text, 'buy', options, bareWorld);
  if (a.error !== null || a.faults.length > 0) throw new Error(JSON.stringify([a.error, a.faults, a.thrown]));
  return a.json as Bought;
};

describe('before buying', () => {
  test('the odds of a chain are those of the normal law, worked out by hand', async () => {
    // σ is half the ±.
    for (const [reach, by] of [
      [30, 2],
      [29, 2],
    ] as const) {
      const hand = normalBelow((30.3 - reach) / (by / 2));
      const b = await buy(chain(reach, by), { trials: 150 });
      // Three standard deviations of 150 trials.
      expect(Math.abs(b.odds - hand)).toBeLessThan(3 * Math.sqrt((hand * (1 - hand)) / 150));
      expect(b.ask[0]?.says).toBe('reach');
      // The reach decides alone: hardly any doubt is left, and what is asked for next takes none away.
      expect(b.ask[0]?.doubt_left).toBeLessThan(0.25);
      expect(b.stops[0]?.what).toMatch(/^stack/);
    }
  });

  test('a reach that is sure either way: 1 or 0, and nothing to ask', async () => {
    const sure = await buy(chain(25, 0.5), { trials: 60 });
    expect([sure.odds, sure.ask]).toEqual([1, []]);
    expect(sure.thickness?.[1]).toBeCloseTo(14.75, 0);
    expect((await buy(chain(40, 0.5), { trials: 60 })).odds).toBe(0);
  });

  test('the same job, the same answer', async () =>
    expect(await buy(chain(30, 2), { trials: 60 })).toEqual(await buy(chain(30, 2), { trials: 60 })));

  test('what is claimed comes true: of sellers with every kind of odds, as many parts fit as was said', async () => {
    const random = randomFrom(77);
    let [claimed, came, brier] = [0, 0, 0];
    const n = 16;
    for (let i = 0; i < n; i++) {
      // What the seller says, and what is then found: his ± holds 95 times in 100.
      const says = Number((28.5 + 3.5 * random.uniform()).toFixed(2));
      const is = says + random.normal();
      const { odds } = await buy(chain(says, 2), { trials: 50 });
      const fits = is <= 30.3 ? 1 : 0;
      claimed += odds;
      came += fits;
      brier += (odds - fits) ** 2;
    }
    // Three standard deviations of what n draws of those odds may give, at most 0.5 √n.
    expect(Math.abs(claimed - came)).toBeLessThan(1.5 * Math.sqrt(n));
    // Always saying one half would score 0.25.
    expect(brier / n).toBeLessThan(0.25);
  });

  test('a part that is not at hand is Not yet for every other command, and says what to do', async () => {
    const a = await answer(chain(25, 0.5), 'plate', { trials: 100 }, bareWorld);
    expect(a.exit).toBe(1);
    expect(JSON.stringify(a.json)).toContain('high is not at hand');
    expect((a.json as { readonly verdict: { readonly answer: string } }).verdict.answer).toBe('not yet');
  });

  test('on paper: one page with the odds, the sizes in plain words, and room to write what comes back', async () => {
    const font = (name: string): ArrayBuffer => {
      const bytes = readFileSync(join(import.meta.dirname, '../node_modules/dejavu-fonts-ttf/ttf', name));
      return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
    };
    const letters = lettering({ regular: font('DejaVuSansCondensed.ttf'), bold: font('DejaVuSansCondensed-Bold.ttf') });
    const paper: World = {
      ...bareWorld,
      lettering: () => Promise.resolve(letters),
      sheets: () => Promise.resolve(sheets),
    };
    const text = example('barn-saw');
    const a = await answer(text, 'print', { what: 'buy', trials: 60 }, paper);
    expect([a.error, a.exit, (a.json as { readonly pages: number }).pages]).toEqual([null, 1, 1]);
    expect(a.files.map((f) => f.name)).toEqual(['second-hand-motor-for-the-barn-saw-buy.pdf']);
    const words = JSON.stringify(a.report);
    expect(words).toContain('the length called shaft');
    expect(words).toContain('_____');
    const at = { ...paper, sheets: bareWorld.sheets };
    expect(
      (await answer(text.replace('    seller: ± 1 ', '    # '), 'print', { what: 'buy', svg: true }, at)).exit,
    ).toBe(2);
  });

  test('a job whose parts are all at hand is told which word to write', async () => {
    const text = chain(30, 2)
      .replace('    seller: ± 0.5\n', '')
      .replace(/stack:[\s\S]*$/, '')
      .replace('from stack', '16');
    const a = await answer(text, 'buy', {}, bareWorld);
    expect([a.exit, a.error]).toEqual([2, expect.stringContaining('seller: ± 1 mm')]);
  });
});
