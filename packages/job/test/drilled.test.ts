import { describe, expect, test } from 'vitest';
import { readJob } from '../src/index.js';

const read = (drilled: string) =>
  readJob(
    `job: a\nunits: mm\ninstruments: { caliper: ± 0.05 mm }\nfaces: { pump: { features: { P1: { kind: stud, diameter: 8 } } } }\ndrilled:\n${drilled}`,
  );

describe('the drilled plate', () => {
  test('holes and bores are its features, with clocks as seen from the side named', () => {
    const job = read(
      '  viewed: from side A\n  clocks: { H2: 3 }\n  readings:\n    - over H2 H10 = 80 by caliper\n    - wall H10 C1 = 5 by caliper\n',
    );
    const face = job.ok ? job.job.drilled : null;
    expect(face?.viewed).toBe('from side A');
    expect(face?.features.map((f) => [f.id, f.kind, f.clock])).toEqual([
      ['H2', 'hole', 0],
      ['H10', 'hole', null],
      ['C1', 'bore', null],
    ]);
  });

  test('holes drilled up to now, as a list or in one text; all of them where nothing is said', () => {
    const soFar = (text: string) => {
      const job = read(`${text}  readings:\n    - over H1 H2 = 80 by caliper\n`);
      return job.ok ? (job.job.soFar ?? null) : job.faults;
    };
    expect(soFar('  so far: [H1, H2, C1]\n')).toEqual(['H1', 'H2', 'C1']);
    expect(soFar('  so far: H1 H2\n')).toEqual(['H1', 'H2']);
    expect(soFar('  so far: [P1, H1, H2]\n')).toEqual(['P1', 'H1', 'H2']);
    expect(soFar('')).toBeNull();
  });

  test.each(['  clocks: { P2: 12 }\n', '  readings:\n    - over H1 P2 = 80 by caliper\n'])(
    'what is neither a hole of the plate nor a feature of a part is refused: %j',
    (text) => {
      const job = read(text);
      expect(job.ok ? [] : job.faults.map((f) => f.found)).toContain('P2');
    },
  );
});
