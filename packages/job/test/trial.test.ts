import { describe, expect, test } from 'vitest';
import { readJob } from '../src/index.js';

const read = (trial: string) =>
  readJob(
    `job: a\nunits: mm\ninstruments: { feeler: { each: ± 0.03, zero: ± 0.01 }, square: ± 0.2 deg }\nfaces:\n  ` +
      `motor: { features: { M1: { kind: hole }, M2: { kind: hole }, M3: { kind: hole } } }\ntrial: ${trial}\n`,
  );
const told = (trial: string): readonly string[] => {
  const job = read(trial);
  return job.ok ? [] : job.faults.map((f) => f.expected);
};

describe('a trial assembly', () => {
  test('gaps at features or at places, each with its ± or the instrument’s', () => {
    const job = read(
      '{ on: motor, by: feeler, gaps: { M1: 0.42, M2: 0.40 ± 0.05, rim: { gap: 0.6, at: [0, 85] } }, gasket: 0.3 ± ' +
        '0.02, shims: { from: [0.05] } }',
    );
    expect(job.ok ? job.job.trial : job.faults).toEqual({
      face: 'motor',
      gaps: [
        { name: 'M1', at: null, value: 0.42, plusMinus: 0.03 },
        { name: 'M2', at: null, value: 0.4, plusMinus: 0.05 },
        { name: 'rim', at: { x: 0, y: 85 }, value: 0.6, plusMinus: 0.03 },
      ],
      instrument: 'feeler',
      zero: 0.01,
      inside: false,
      leave: 0,
      gasket: { value: 0.3, plusMinus: 0.02 },
      shims: { from: [0.05], atMost: 3 },
    });
  });

  test.each([
    ['{ on: pump, by: feeler, gaps: { M1: 0.4, M2: 0.4, M3: 0.4 } }', /a face of the job: motor/],
    ['{ on: motor, by: feeler, gaps: { M1: 0.4, M2: 0.4, M9: 0.4 } }', /a feature of motor, or a place/],
    ['{ on: motor, by: feeler, gaps: { M1: 0.4, M2: 0.4 } }', /at three places or more/],
    ['{ on: motor, gaps: { M1: 0.4, M2: 0.4, M3: 0.4 } }', /a ± of the gap, or `by:`/],
    ['{ on: motor, by: square, gaps: { M1: 0.4, M2: 0.4, M3: 0.4 } }', /measures a length/],
    ['{ on: motor, by: feeler, where: inside, gaps: { M1: 0.4, M2: 0.4, M3: 0.4 } }', /`leave` as well/],
    ['{ on: motor, by: feeler, gaps: { M1: -0.4, M2: 0.4, M3: 0.4 } }', /a gap not below zero/],
  ])('%s', (text, expected) => expect(told(text)).toContainEqual(expect.stringMatching(expected)));
});
