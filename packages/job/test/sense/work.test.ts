import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/index.js';

const job = (work: string): string => `job: bench
units: mm
instruments: { gauge: ± 0.1 mm }
faces:
  pump:
    centre: S
    features:
      S: { kind: spigot, diameter: 60, stands: 3 }
      P1: { kind: stud, thread: M8, diameter: 8, stands: 24 }
      P2: { kind: stud, thread: M8, diameter: 8 }
      B: { kind: boss, diameter: 12, height: 9 }
      K: { kind: hole, thread: M10, diameter: 8.5, deep: 14 }
stack:
  links: { reach: 61.2 ± 0.2, plate: { find: 12 .. 30 } }
  limits: { gap: { sum: reach - plate, least: 25 } }
work:
${work}`;
const read = (work: string) => {
  const found = readJob(job(work));
  if (!found.ok) throw new Error(found.faults.map((f) => f.expected).join('\n'));
  return found.job;
};
const faults = (work: string): readonly string[] => {
  const found = readJob(job(work));
  return found.ok ? [] : found.faults.map((f) => f.expected);
};
const feature = (work: string, id: string) => read(work).faces[0]?.features.find((f) => f.id === id);

describe('work on a part', () => {
  test('the job has every length as it is after it, and keeps the faces that were measured', () => {
    const studs = '  back: { face: pump, shorten: P1, to: 18 }\n';
    expect(feature(studs, 'P1')?.stands).toBe(18);
    expect(read(studs).asMeasured?.[0]?.features.find((f) => f.id === 'P1')?.stands).toBe(24);
    expect(read(studs).work).toMatchObject([
      { name: 'back', face: 'pump', kind: 'shorten', features: ['P1'], to: { value: 18 }, done: false, why: null },
    ]);
    expect(feature('  a: { face: pump, fit: P1, to: 30 }', 'P1')?.stands).toBe(30);
    expect(feature('  a: { face: pump, relieve: B, to: 2 }', 'B')).toMatchObject({ height: 2, vacant: false });
    expect(feature('  a: { face: pump, relieve: B, to: flush }', 'B')).toMatchObject({ height: null, vacant: true });
    expect(feature('  a: { face: pump, open: [K], to: 11 }', 'K')?.diameter).toEqual({ value: 11, plusMinus: null });
    expect(feature('  a: { face: pump, deepen: K, to: 20 }', 'K')?.deep).toBe(20);
  });
  test('a shaft shortens its link of the stack', () => {
    const shaft = read('  a: { face: pump, shorten: shaft, to: 58.2 ± 0.1 mm, link: reach, done: yes }');
    expect(shaft.stack?.links[0]).toEqual({ name: 'reach', value: 58.2, plusMinus: 0.1 });
    expect(faults('  a: { face: pump, shorten: shaft, to: 58.2 }').join()).toContain('`link` as well');
  });
  test('done and measured again: the same length stands above, and nothing changes twice', () => {
    const again = job('  a: { face: pump, shorten: P1, to: 18, done: yes }').replace('stands: 24', 'stands: 17.9');
    const found = readJob(again);
    expect(found.ok && found.job.faces[0]?.features.find((f) => f.id === 'P1')?.stands).toBe(17.9);
  });
  test('without work a job is as it was', () => {
    const bare = readJob(job('').replace('work:\n', ''));
    expect(bare.ok && [bare.job.work, bare.job.asMeasured]).toEqual([undefined, undefined]);
  });
  test.each([
    ['  a: { face: pump, shorten: P1, to: 25 }', 'less than the 24 mm that P1 has now'],
    ['  a: { face: pump, open: K, to: 8 }', 'more than the 8.5 mm that K has now'],
    ['  a: { face: pump, shorten: P2, to: 20 }', '`stands` of P2 as well'],
    ['  a: { face: pump, shorten: P1, to: flush }', 'only what is relieved can be flush'],
    ['  a: { face: pump, to: 3 }', 'one of shorten, fit, open, deepen, relieve'],
    ['  a: { face: pump, shorten: P1, open: K, to: 10 }', 'one of shorten, fit, open, deepen, relieve'],
    ['  a: { face: pump, open: K, to: 10, link: reach }', 'no `link` but for a shaft'],
  ])('%s', (work, expected) => expect(faults(work).join('\n')).toContain(expected));
});
