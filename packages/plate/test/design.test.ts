import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { designPlate, plateJson } from '../src/index.js';
import { caseText, jobFrom, measured } from './support/fromFile.js';

const design = (text: string) => {
  const job = jobFrom(text);
  const designed = designPlate(job, measured(job), { stack: null });
  if (!designed.ok) throw new Error(designed.faults.join('\n'));
  return designed.plate;
};

describe('cases solved by an independent program, from the file to the plate', () => {
  test.each(['plt02-turned', 'plt04-second-behind'])('%s: holes lie where it says', (name) => {
    const solved = JSON.parse(
      readFileSync(join(import.meta.dirname, '../../../test/cases', `${name}.json`), 'utf8'),
    ) as {
      readonly holes: Record<string, readonly [number, number]>;
    };
    const plate = design(caseText(name));
    const json = plateJson(plate);
    expect(json.holes.map((h) => h.feature)).toEqual(Object.keys(solved.holes));
    for (const hole of json.holes) {
      const [x, y] = solved.holes[hole.feature ?? ''] ?? [Number.NaN, Number.NaN];
      expect(Math.hypot(hole.x - x, hole.y - y)).toBeLessThan(1e-4);
    }
  });
});
