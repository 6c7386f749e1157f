import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type JobCommand, answer as answerOf } from '@fayplate/study';
import { describe, expect, test } from 'vitest';
import { root } from '../support/cli.js';
import { bare } from '../verdict/job.js';

/** What is read here of any answer. */
interface Answer {
  readonly verdict: { readonly answer: string; readonly because: string };
  readonly faces: Readonly<Record<string, { readonly suspects: readonly { readonly reading: string }[] }>>;
  readonly checks: readonly { readonly id: string; readonly of: readonly string[]; readonly ok: boolean }[];
  readonly thickness: number;
  readonly goes_on: Readonly<Record<string, { readonly probability: number }>>;
}

const written = (name: string): string => readFileSync(join(root, 'test/journeys/shop', `${name}.yaml`), 'utf8');

/** A job of the shop with some of its words changed, as a person changes them: every change must find its words. */
const changed = (name: string, changes: readonly (readonly [string, string])[]): string =>
  changes.reduce((text, [from, to]) => {
    expect(text).toContain(from);
    return text.replace(from, to);
  }, written(name));

const ask = async (command: JobCommand, text: string): Promise<{ readonly code: number; readonly answer: Answer }> => {
  const { exit, json, error, faults } = await answerOf(text, command, {}, bare);
  expect([error, faults]).toEqual([null, []]);
  return { code: exit, answer: json as unknown as Answer };
};

const suspects = async (text: string, face: string): Promise<readonly string[]> =>
  (await ask('locate', text)).answer.faces[face]?.suspects.map((s) => s.reading) ?? [];

describe('the band saw: a ring with gaps, a boss, a motor made to a standard', () => {
  const again = [['- over S2 S4 = 7.238', '- aside over S2 S4 = 7.238']] as const;

  test('the reading a tenth too far is named, and nothing is made of it', async () => {
    expect(await suspects(written('band-saw'), 'frame')).toEqual(['12']);
    const { code, answer } = await ask('plate', written('band-saw'));
    expect([code, answer.verdict.answer]).toEqual([1, 'not yet']);
  });

  test('without it the plate is sound, and as drilled it goes on both', async () => {
    const { code, answer } = await ask('prove', changed('band-saw', again));
    expect([code, answer.verdict.answer]).toEqual([0, 'yes']);
    expect(Object.values(answer.goes_on).every((g) => g.probability > 0.997)).toBe(true);
  });

  test('a plate too thick for the shaft to reach, or a ring wider than the bore, is No', async () => {
    const thick = await ask('plate', changed('band-saw', [...again, ['thickness: from stack', 'thickness: 1 1/8']]));
    expect(thick.answer.verdict.answer).toBe('no');
    const wide = await ask('plate', changed('band-saw', [...again, ['register: 4.747', 'register: 4.752']]));
    expect(wide.answer.verdict.answer).toBe('no');
  });
});

describe('the cider mill: a shaft that is not in the middle of its spigot', () => {
  const again = [['- over G3 G4 = 82.86', '- between G3 G4 = 82.86']] as const;

  test('the gap written down for the far walls is named', async () => {
    expect(await suspects(written('cider-mill'), 'motor')).toEqual(['3']);
  });

  test('the shafts are laid over each other, and a hole then breaks into the raised ring', async () => {
    const { answer } = await ask('plate', changed('cider-mill', again));
    expect(answer.verdict.answer).toBe('no');
    const failing = answer.checks.filter((c) => !c.ok).map((c) => c.id);
    expect(failing).toContain('hole-to-raised-spigot');
    expect(failing).toContain('shaft-offset');
  });

  test('tapped blind and dowelled after lining up, a thinner plate is sound', async () => {
    const { code, answer } = await ask(
      'plate',
      changed('cider-mill', [
        ...again,
        ['thickness: from stack', 'thickness: 26'],
        ['{ as: tapped, thread: M8 }', '{ as: tapped, thread: M8, blind: true }'],
        ['{ register: 110.06, depth: 4.5 }', '{ dowels: 2, diameter: 8 }'],
      ]),
    );
    expect([code, answer.verdict.answer]).toEqual([0, 'yes']);
  });
});

describe('the dust extractor: seen from behind, a standard motor, a shaft too short', () => {
  const again = [['- over A5 A6 = 104.05', '- aside over A5 A6 = 104.05']] as const;

  test('the reading 5 mm short is named', async () => {
    expect(await suspects(written('dust-extractor'), 'housing')).toEqual(['5']);
  });

  test('no plate lets the shaft hold the fan, and the stack says by how much', async () => {
    for (const command of ['stack', 'plate', 'check'] as const) {
      const { code, answer } = await ask(command, changed('dust-extractor', again));
      // `check` asks of the file first: it reads without fault.
      expect([command, code, answer.verdict.answer]).toEqual([command, command === 'check' ? 0 : 1, 'no']);
      expect(answer.verdict.because).toMatch(/key/);
    }
  });

  test('with the longer shaft a plate can be made', async () => {
    // 2 11/16 in in place of 2 1/16: five eighths longer.
    const longer = changed('dust-extractor', [...again, ['reach: 52.35 ± 0.1', 'reach: 68.2 ± 0.1']]);
    expect((await ask('stack', longer)).code).toBe(0);
  });
});

describe('the boat winch: a lobed rim, and the old plate as a reference', () => {
  test('the new plate is as thick as the old with its shims, and the difference of the shafts more', async () => {
    const { code, answer } = await ask('plate', written('boat-winch'));
    expect([code, answer.verdict.answer]).toEqual([0, 'yes']);
    // 12.00 + 0.62 + 49.75 - 46.25, by hand.
    expect(answer.thickness).toBeCloseTo(16.12, 9);
  });

  test('as drilled it goes on; with one hole a millimetre off it does not', async () => {
    expect((await ask('prove', written('boat-winch'))).answer.verdict.answer).toBe('yes');
    const off = changed('boat-winch', [
      ['at L1 = (24.65, 67.71)', 'at L1 = (25.85, 67.71)'],
      ['- over L1 L2 = 143.24 by caliper\n    ', ''],
      ['- over L3 L1 = 144.60 by caliper\n    ', ''],
    ]);
    expect((await ask('prove', off)).answer.verdict.answer).not.toBe('yes');
  });
});
