import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { mixed, model, pens, substance, written } from './model.js';
import { jobOf } from './support.js';

const contract = readFileSync(join(import.meta.dirname, 'contract.yaml'), 'utf8');
const folder = join(import.meta.dirname, '../../../test/cases');
const cases = readdirSync(folder)
  .filter((f) => f.endsWith('.yaml'))
  .map((f) => readFileSync(join(folder, f), 'utf8'));
const runs = { numRuns: 100, seed: 20_260_102 };

describe('how a job is written does not change it', () => {
  test('units: inches, millimetres, fractions, thou, each in a job of either unit', () => {
    const styles = (['in', 'mm'] as const).flatMap((units) => pens[units].map((pen) => ({ units, pen })));
    fc.assert(
      fc.property(model, (m) => {
        const jobs = styles.map(({ units, pen }) => substance(jobOf(written(m, units, pen))));
        for (const job of jobs) expect(job).toEqual(jobs[0]);
      }),
      runs,
    );
  });

  test('a length half a 64th longer is another job', () => {
    const m = fc.sample(model, { seed: 3, numRuns: 1 })[0];
    if (m === undefined) throw new Error('no model');
    const half = (n: number): string => String((n + 0.5) / 64);
    expect(substance(jobOf(written(m, 'in', half)))).not.toEqual(
      substance(jobOf(written(m, 'in', (n) => String(n / 64)))),
    );
  });

  test('names: features under other names give the same job under those names', () => {
    const others = fc
      .uniqueArray(fc.stringMatching(/^[A-Z][a-z0-9]{1,7}$/), { minLength: 6, maxLength: 6 })
      .filter((all) => !all.some((n) => /^(By|Aside)$/.test(n)));
    fc.assert(
      fc.property(model, others, (m, names) => {
        const renamed = { ...m, names: m.names.map((_, i) => names[i] ?? '') };
        const pen = mixed;
        const back = new Map(renamed.names.map((n, i) => [n, m.names[i]]));
        const job = JSON.stringify(substance(jobOf(written(renamed, 'in', pen)))).replace(
          /"([A-Z][a-z0-9]{1,7})"/g,
          (all, n: string) => (back.has(n) ? JSON.stringify(back.get(n)) : all),
        );
        expect(JSON.parse(job)).toEqual(substance(jobOf(written(m, 'in', pen))));
      }),
      runs,
    );
  });

  test('the order of sections, comments and empty lines', () => {
    const sections = contract.split(/^(?=[a-z])/m);
    fc.assert(
      fc.property(
        fc.shuffledSubarray(sections, { minLength: sections.length, maxLength: sections.length }),
        fc.array(fc.nat(200), { maxLength: 8 }),
        (order, at) => {
          const lines = order.join('').split('\n');
          for (const n of at)
            lines.splice(n % lines.length, 0, n % 2 === 0 ? '' : '  # a remark: [with, marks] {in: it}');
          expect(substance(jobOf(lines.join('\n')))).toEqual(substance(jobOf(contract)));
        },
      ),
      { ...runs, numRuns: 50 },
    );
  });

  /** YAML 1.2 holds JSON: another writer's YAML and JSON of the same file give the same job. */
  test.each([contract, ...cases].map((text) => [text.split('\n', 1)[0], text] as const))(
    'as YAML and JSON of a general library: %s',
    (_, text) => {
      const plain: unknown = parse(text);
      expect(substance(jobOf(stringify(plain)))).toEqual(substance(jobOf(text)));
      expect(substance(jobOf(JSON.stringify(plain, null, 1)))).toEqual(substance(jobOf(text)));
    },
  );

  test('line ends', () =>
    expect(substance(jobOf(contract.replaceAll('\n', '\r\n')))).toEqual(substance(jobOf(contract))));
});

test('reading is repeatable', () => expect(jobOf(contract)).toEqual(jobOf(contract)));
