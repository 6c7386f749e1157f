import { describe, expect, test } from 'vitest';
import { fingerprintOf, readJob } from '../src/index.js';

const read = (drilled: string) =>
  readJob(
    `job: a\nunits: mm\ninstruments: { caliper: ± 0.05 mm }\nfaces: { pump: { features: { P1: { kind: stud, ` +
      `diameter: 8 } } } }\ndrilled:\n${drilled}`,
  );

describe('the drilled plate', () => {
  test('holes and bores are its features, with clocks as seen from the side named', () => {
    const job = read(
      '  viewed: from side A\n  clocks: { H2: 3 }\n  readings:\n    - over H2 H10 = 80 by caliper\n    - wall H10 ' +
        'C1 = 5 by caliper\n',
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

describe('a drilled plate of two pieces', () => {
  const plate = `plate:
  between: [pump, motor]
  thickness: 30 mm
  pieces:
    first: 14 mm
    names: [ring, carrier]
    screws: { thread: M6, circle: 90 mm, clock: [1, 5, 9] }
    dowels: { diameter: 6 mm, circle: 90 mm, clock: [3, 8] }
  fasten: { pump: { as: clearance }, motor: { as: tapped, thread: M6 } }
`;
  const two = (drilled: string, spec = plate) =>
    readJob(
      `job: a\nunits: mm\ninstruments: { caliper: ± 0.05 mm }\nfaces:\n  pump: { features: { P1: { kind: stud, ` +
        `diameter: 8 } } }\n  motor: { features: { M1: { kind: hole, diameter: 8 } } }\n${spec}${drilled}`,
    );
  const faults = (drilled: string, spec = plate): readonly (readonly [number, string, string])[] => {
    const read = two(drilled, spec);
    return read.ok ? [] : read.faults.map((f) => [f.line, f.found, f.expected]);
  };

  test('each piece has readings of its own; one that is not drilled yet is left out', () => {
    const read = two(
      'drilled:\n  pieces:\n    ring:\n      thickness: 14.02\n      so far: [H1, S2]\n      from: 7K2Q-F9M3\n     ' +
        ' readings:\n        - over H1 S2 = 80 by caliper\n',
    );
    const pieces = read.ok ? read.job.drilledPieces : undefined;
    expect([...(pieces?.keys() ?? [])]).toEqual(['ring']);
    expect(pieces?.get('ring')).toMatchObject({
      drilled: { features: [{ id: 'H1' }, { id: 'S2' }], readings: [{ value: 80 }] },
      drilledSizes: { thickness: 14.02 },
      drilledFrom: '7K2Q-F9M3',
      soFar: ['H1', 'S2'],
    });
    expect(read.ok && read.job.drilled).toBe(null);
  });

  test('what was measured of the pieces leaves the fingerprint as it is', () => {
    const [without, withIt] = [
      two(''),
      two('drilled:\n  pieces:\n    ring:\n      readings:\n        - over H1 S2 = 80 by caliper\n'),
    ];
    expect(withIt.ok && fingerprintOf(withIt.job)).toBe(without.ok && fingerprintOf(without.job));
  });

  test('readings beside `pieces` say under which name they go', () => {
    const [fault] = faults('drilled:\n  readings:\n    - over H1 H2 = 80 by caliper\n');
    expect(fault?.[0]).toBe(17);
    expect(fault?.[2]).toContain('drilled: { pieces: { ring: { readings: … } } }');
  });

  test('a piece that there is not, a screw that there is not, and pieces of a plate of one', () => {
    const one = '  pieces:\n    ringg:\n      readings:\n        - over H1 H2 = 80 by caliper\n';
    expect(faults(`drilled:\n${one}`)[0]?.[2]).toContain('ring, carrier');
    const screw = '  pieces:\n    ring:\n      readings:\n        - over H1 S4 = 80 by caliper\n';
    expect(faults(`drilled:\n${screw}`)[0]?.[1]).toBe('S4');
    const plain = 'plate: { between: [pump, motor], thickness: 30 mm }\n';
    expect(faults(`drilled:\n${one}`, plain)[0]?.[2]).toContain('this plate is of one piece');
  });
});
