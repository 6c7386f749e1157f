import { describe, expect, test } from 'vitest';
import { bench, fasten, plateOf, ring, soundBench } from '../support/plate.js';

const tapped = fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } });
const register = (diameter: number) => ({
  as: 'register' as const,
  diameter: { value: diameter, plusMinus: null },
  depth: 3,
  fit: null,
});

describe('what the job does not give is asked for by its own word', () => {
  const asked = (b: Parameters<typeof plateOf>[0]): string => plateOf(b).unknowns.join('\n');

  test('how far a spigot stands out, how deep a bore goes', () => {
    const b = (kind: 'spigot' | 'bore', more: object) =>
      bench(
        { spots: { C: { kind, d: 60, at: { x: 0, y: 0 }, ...more } }, face: { centre: 'C' } },
        { spots: ring(3, 80, 0, { kind: 'hole', d: 11 }) },
        {
          locate: new Map([['pump', register(kind === 'spigot' ? 60.05 : 59.95)]]),
          fasten: new Map([['motor', tapped]]),
        },
      );
    expect(asked(b('spigot', {}))).toContain('How far pump.C stands out is not given: write `stands`');
    expect(asked(b('spigot', { stands: 2.5 }))).not.toContain('stands');
    const two = soundBench();
    const bare = {
      ...two,
      job: {
        ...two.job,
        faces: two.job.faces.map((f) => ({
          ...f,
          features: f.features.map((x) => (x.kind === 'spigot' ? { ...x, stands: null } : x)),
        })),
      },
    };
    expect(asked(bare)).toBe(
      'How far pump.spigot and motor.spigot stand out is not given: write `stands`, so that C2 and C3 are known to ' +
        'be deep enough for the faces to meet.',
    );
    expect(asked(b('bore', {}))).toContain('How deep pump.C goes in is not given: write `deep`');
    expect(asked(b('bore', { deep: 9 }))).not.toContain('deep');
  });

  // Common practice: a cone centres its screw, so a countersunk head has no play to give.
  test('countersunk heads seat only where their holes are true', () => {
    const b = (head: 'countersunk screw' | 'cap screw') =>
      bench(
        { spots: ring(3, 50, 0, { kind: 'hole', thread: 'M8', d: 6.8, deep: 20 }) },
        { spots: {} },
        { fasten: new Map([['pump', fasten({ head, sunk: head === 'cap screw' ? 'counterbored' : 'countersunk' })]]) },
      );
    expect(asked(b('countersunk screw'))).toContain(
      'The countersunk heads in H1, H2, H3 seat only where their holes are true',
    );
    expect(asked(b('cap screw'))).not.toContain('seat only');
  });

  test('how thick a flange is, how deep threads go', () => {
    const flange = (mm: number | null) =>
      bench(
        { spots: {} },
        { spots: ring(3, 80, 0, { kind: 'hole', d: 11 }), face: { flange: mm } },
        { fasten: new Map([['motor', tapped]]) },
      );
    expect(asked(flange(null))).toContain('How thick motor is where bolts pass is not given: write `flange`');
    expect(asked(flange(12))).not.toContain('flange');
    const deep = (mm: number | null) =>
      bench(
        { spots: ring(3, 50, 0, { kind: 'hole', thread: 'M8', d: 6.8, deep: mm }) },
        { spots: {} },
        { fasten: new Map([['pump', fasten({ head: 'cap screw' })]]) },
      );
    expect(asked(deep(null))).toContain('How deep the threads of pump go is not given (P1, P2, P3): write `deep`');
    expect(asked(deep(12))).not.toContain('deep');
  });

  test('a gasket takes from what its fasteners reach', () => {
    const b = soundBench();
    const gasket = { face: 'pump', holeClearance: 1, bore: null, outline: 'plate' } as const;
    expect(asked({ ...b, job: { ...b.job, gaskets: [gasket] } })).toContain(
      'The stack does not say how thick the gasket of pump is',
    );
    expect(asked(b)).toBe('');
  });

  test('which points lie over each other where a face names no centre', () => {
    const parts = (face: object) =>
      bench(
        {
          spots: { A: { kind: 'hole', d: 9, at: { x: 0, y: 0 } }, B: { kind: 'hole', d: 9, at: { x: 50, y: 0 } } },
          face,
        },
        {
          spots: { C: { kind: 'bore', d: 60, at: { x: 0, y: 0 } }, ...ring(3, 80, 0, { kind: 'hole', d: 11 }) },
          face: { centre: 'C' },
        },
      );
    expect(asked(parts({ across: ['A', 'B'] }))).toContain(
      'Where the shaft of pump runs is not known, and A of pump was laid over C of motor',
    );
    expect(asked(parts({}))).toContain('the middle of the features of pump was laid over C of motor');
    expect(asked(parts({ centre: 'A' }))).not.toContain('laid over');
  });
});
