import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { answer } from '../src/index.js';
import { bareWorld } from './support.js';

const example = readFileSync(join(import.meta.dirname, '../../../examples/what-moves.yaml'), 'utf8');
const withThickness = (thickness: string, more = ''): string =>
  `${example.replace(/ thickness: 24 ± 0\.2 .*/, ` thickness: ${thickness}`)}${more}`;
const own = withThickness('24');

interface Place {
  readonly plus_minus: readonly [number, number, number];
}

const ask = async (text: string, command: 'plate' | 'table' | 'prove') => {
  const a = await answer(text, command, { trials: 100 }, bareWorld);
  return { ...a, words: JSON.stringify([a.report, a.json]) };
};

// The shaft stands out 90 and is let in 60 with the plate: at 24 ± 0.2 the tip keeps 90 − 60 − 24 = 6, give or take
// 0.5.
const chain = (least: string): string => `stack:
  links: { reach: 90 ± 0.2, floor: 60 ± 0.3, plate: { find: 12 .. 40 } }
  limits: { tip gap: { sum: reach - floor - plate, least: ${least} } }
`;

describe('a stated thickness with a ±', () => {
  test('is said in words, in the JSON and as what the table may leave', async () => {
    const plate = await ask(withThickness('24 ± 0.2'), 'plate');
    expect(plate.words).toContain('24.00 ± 0.20 mm thick');
    expect(plate.json).toMatchObject({ thickness: 24, thickness_plus_minus: 0.2 });
    const table = await ask(withThickness('24 ± 0.2'), 'table');
    expect(table.words).toContain('23.80 mm to 24.20 mm will do');
    const plain = await ask(own, 'plate');
    expect(plain.words).not.toContain('thickness_plus_minus');
  });

  test('meets a limit of the chain along the shaft at the end where it is met worse', async () => {
    // By hand: 90 − 0.2 − 60 − 0.3 − 24 = 5.5 as drawn, 5.3 at 24.2.
    expect((await ask(withThickness('24', chain('5.4')), 'plate')).exit).toBe(0);
    expect((await ask(withThickness('24 ± 0.05', chain('5.4')), 'plate')).exit).toBe(0);
    const thick = await ask(withThickness('24 ± 0.2', chain('5.4')), 'plate');
    expect(thick.exit).toBe(1);
    expect(thick.words).toContain('with a plate of 24.20 mm the tip gap is 5.30 mm');
  });

  test('goes into the ± of what moves with the part', async () => {
    const within = async (thickness: string): Promise<number> => {
      const { json } = await ask(withThickness(thickness), 'plate');
      const { moves } = json as {
        readonly moves: { readonly places: readonly { readonly name: string; readonly is: Place }[] };
      };
      return moves.places.find((p) => p.name === 'output')!.is.plus_minus[2];
    };
    const [sure, unsure] = [await within('24'), await within('24 ± 0.8')];
    expect(unsure ** 2 - sure ** 2).toBeCloseTo(0.8 ** 2, 6);
  });

  test('is what the drilled plate is held to, and the ± of the reading beside it', async () => {
    const drilled = (thick: string): string => `drilled: { thickness: ${thick}, readings: [] }\n`;
    const proved = async (thickness: string, thick: string): Promise<boolean> =>
      (await ask(withThickness(thickness, drilled(thick)), 'prove')).words.match(
        /"id":"drilled-thickness"[^}]*"state":"fails"/,
      ) !== null;
    // A general tolerance bears 0.2 of 24; the job may bear less or more.
    expect(await proved('24', '24.15')).toBe(false);
    expect(await proved('24 ± 0.1', '24.15')).toBe(true);
    expect(await proved('24 ± 0.1', '24.15 ± 0.06')).toBe(false);
    expect(await proved('24 ± 0.5', '24.45')).toBe(false);
    expect(await proved('24', '24.45')).toBe(true);
  });

  test('an old plate that only tells where the old part stood says nothing of the new thickness', async () => {
    expect(own).toContain('old: { thickness: 18');
    expect((await ask(own, 'plate')).words).not.toContain('The new plate is');
    const fromOld = readFileSync(join(import.meta.dirname, '../../../examples/weir-gate/job.yaml'), 'utf8');
    expect((await ask(fromOld, 'plate')).words).toContain('The new plate is');
  });

  test('the same in inches', async () => {
    const inch = await ask(withThickness('0.9449 in ± 0.0079 in'), 'plate');
    expect(inch.words).toContain('24.00 ± 0.20 mm thick');
    expect(inch.exit).toBe((await ask(withThickness('24 ± 0.2'), 'plate')).exit);
  });
});
