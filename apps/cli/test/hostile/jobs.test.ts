import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mutated } from '../../../../packages/job/test/mutate.js';
import { slipped } from './mutate.js';
import { type Went, go } from '../support/go.js';
import { wrongWith } from './world.js';

// A small part of bench/hostile.ts, where 2,000 jobs are solved and 200 taken to a packet; in time only a hang shows
// here.
const root = join(import.meta.dirname, '../../../..');
const text = (path: string): string => readFileSync(join(root, path), 'utf8');
const examples = readdirSync(join(root, 'examples'), { withFileTypes: true })
  .filter((d) => d.isDirectory())
  .map((d) => text(`examples/${d.name}/job.yaml`));
const jobs = [
  ...examples,
  ...readdirSync(join(root, 'test/cases'))
    .filter((n) => n.endsWith('.yaml'))
    .map((n) => text(`test/cases/${n}`)),
  text('packages/job/test/contract.yaml'),
];
const pump = text('examples/lift-pump/job.yaml');

const commands = ['check', 'locate', 'layout', 'stack', 'plate', 'table', 'prove'];
const sound = (went: Went, folder = 'out'): void => {
  expect(wrongWith(went, folder)).toEqual([]);
};
const held = (went: Went): boolean => !went.err.includes('nothing was worked out');

describe('whatever a job says, the answer is 0, 1 or 2, in words', () => {
  test('with slips in it, solved', async () => {
    let solved = 0;
    await fc.assert(
      fc.asyncProperty(slipped(jobs), fc.constantFrom(...commands), fc.boolean(), async (job, command, json) => {
        const went = await go([command, 'job.yaml', ...(json ? ['--json'] : [])], { 'job.yaml': job });
        if (held(went)) solved++;
        sound(went);
      }),
      { seed: 20_260_202, numRuns: 50 },
    );
    expect(solved).toBeGreaterThan(8);
  });

  test('with slips in it, taken to a packet', async () => {
    let packets = 0;
    await fc.assert(
      fc.asyncProperty(slipped(examples), async (job) => {
        const went = await go(['packet', 'job.yaml', '--out', 'out'], { 'job.yaml': job });
        if (went.code < 2) packets++;
        sound(went);
      }),
      { seed: 20_260_203, numRuns: 5 },
    );
    expect(packets).toBeGreaterThan(0);
  });

  test('with readings from a damaged list', async () => {
    const list =
      'kind,features,value,plus_minus,instrument,note\nbetween,P1 spigot,0.814,,caliper,\nover,P1 P3,4.121,± 0.002 ' +
      'in,,"a ""good"" one"\nangle,P1 spigot P3,60,,protractor,\nover,P4 ' +
      'P10,7.873,,caliper,across\nover,P1 P6,7 39/64,,rule,\n';
    const job = pump.replace(/( {4}readings:)\n(?: {6}- .*\n)+\n {2}motor:/, '$1 list.csv\n\n  motor:');
    expect(job).toContain('readings: list.csv');
    const whole = await go(['check', 'job.yaml'], { 'job.yaml': job, 'list.csv': list });
    expect([whole.code, whole.err]).toEqual([1, '']);
    await fc.assert(
      fc.asyncProperty(mutated([list]), async (csv) =>
        sound(await go(['locate', 'job.yaml'], { 'job.yaml': job, 'list.csv': csv })),
      ),
      { seed: 20_260_204, numRuns: 40 },
    );
  });

  test('a list outside the folder of the job is never read', async () => {
    const asked: string[] = [];
    for (const name of ['../list.csv', '/etc/passwd', 'a/../../list.csv', '..\\list.csv', 'C:\\list.csv']) {
      const job =
        `job: x\nunits: mm\nfaces:\n  pump:\n    features: { A: { kind: hole, diameter: 8 } }\n    readings: ` +
        `${JSON.stringify(name)}\n`;
      const went = await go(
        ['check', 'job.yaml'],
        {},
        { read: (path) => (path === 'job.yaml' ? job : (asked.push(path), 'kind,features\n')) },
      );
      expect(went.code).toBe(2);
      sound(went);
    }
    expect(asked).toEqual([]);
  });

  test('with a damaged printer’s profile', async () => {
    const profile = JSON.stringify(
      {
        fayplate: 1,
        profile: {
          name: 'shed',
          wide: 0.996,
          high: 0.9955,
          skew: 0.0012,
          plusMinus: { wide: 0.002, high: 0.0015, skew: null },
          date: '2026-01-31',
          paper: 'A4',
        },
      },
      null,
      2,
    );
    const whole = await go(['print', 'job.yaml', '--printer', 'shed', '--out', './x.pdf'], {
      'job.yaml': pump,
      'settings/printers/shed.json': profile,
    });
    expect(whole.code).toBe(0);
    let printed = 0;
    await fc.assert(
      fc.asyncProperty(slipped([profile]), async (damaged) => {
        const went = await go(['print', 'job.yaml', '--printer', 'shed', '--out', './x.pdf'], {
          'job.yaml': pump,
          'settings/printers/shed.json': damaged,
        });
        if (went.code === 0) printed++;
        sound(went, '.');
      }),
      { seed: 20_260_205, numRuns: 12 },
    );
    expect(printed).toBeGreaterThan(0);
  });
});

describe('every file of the corpus', () => {
  const corpus = join(root, 'packages/job/test/hostile');
  test.each(readdirSync(corpus).filter((n) => n.endsWith('.yaml')))('%s', async (name) => {
    const job = readFileSync(join(corpus, name), 'utf8');
    for (const command of ['locate', 'plate']) sound(await go([command, 'job.yaml'], { 'job.yaml': job }));
    sound(await go(['packet', 'job.yaml', '--out', 'out'], { 'job.yaml': job }));
  });
});

test('an answer that is wrong in itself is seen', () => {
  const fine: Went = { code: 0, out: '', err: '', files: new Map(), ms: 1 };
  expect(wrongWith(fine, 'out')).toEqual([]);
  expect(wrongWith({ ...fine, code: 3 }, 'out')).toHaveLength(1);
  expect(wrongWith({ ...fine, out: 'X NaN mm' }, 'out')).toHaveLength(1);
  expect(wrongWith({ ...fine, err: '\u001b[2J' }, 'out')).toHaveLength(1);
  expect(wrongWith({ ...fine, files: new Map([['out/../x.svg', '']]) }, 'out')).toHaveLength(1);
  expect(wrongWith({ ...fine, code: 2, err: 'no', files: new Map([['out/x.svg', '']]) }, 'out')).toHaveLength(1);
});
