import { describe, expect, test } from 'vitest';
import { type Options, answer } from '../src/index.js';
import { bareWorld } from './support.js';

/**
 * A part with four studs of 8 mm at (±40, ±30), no two sides alike in the hole pattern of the other part: three holes
 * on a circle of 140 mm. Holes for M8 are 9 mm (ISO 273, normal fit): 0.5 mm of room all round. Every place is read
 * without error, so what is expected is worked out by hand.
 */
const job = (drilled: string, more = ''): string => `
job: Midway
units: mm
instruments: { dro: ± 0.01 }
faces:
  low:
    centre: ring
    up: N
    features:
      ring: { kind: spigot, diameter: 20, stands: 2 }
      N: { kind: hole, diameter: 3, vacant: true }
      A1: { kind: stud, thread: M8, diameter: 8, stands: 15 }
      A2: { kind: stud, thread: M8, diameter: 8, stands: 15 }
      A3: { kind: stud, thread: M8, diameter: 8, stands: 15 }
      A4: { kind: stud, thread: M8, diameter: 8, stands: 15 }
    readings:
      - at ring = (0, 0) by dro
      - at N = (0, 20) by dro
      - at A1 = (40, 30) by dro
      - at A2 = (-40, 30) by dro
      - at A3 = (-40, -30) by dro
      - at A4 = (40, -30) by dro
  high:
    centre: hub
    up: B1
    features:
      hub: { kind: spigot, diameter: 30, stands: 2 }
      B1: { kind: hole, diameter: 9 }
      B2: { kind: hole, diameter: 9 }
      B3: { kind: hole, diameter: 9 }
    readings:
      - at hub = (0, 0) by dro
      - at B1 = (0, 70) by dro
      - at B2 = (70, 0) by dro
      - at B3 = (-60.6218, -35) by dro
plate:
  between: [low, high]
  material: mild steel
  thickness: 16
  bore: none
  locate: { low: { register: 20.1, depth: 3 }, high: { register: 30.1, depth: 3 } }
  fasten: { low: { as: clearance, fit: normal, nut: counterbored }, high: { as: tapped, thread: M8 } }
  outline: { shape: round, margin: 15 }
  drilling: ± 0.02
${more}drilled:
${drilled}`;

interface Told {
  readonly midway?: {
    readonly drilled: readonly string[];
    readonly left: readonly string[];
    readonly wrong: readonly {
      readonly hole: string;
      readonly dx: number;
      readonly dy: number;
      readonly why: string;
    }[];
    readonly ways: readonly {
      readonly kind: string;
      readonly holds: boolean;
      readonly fails: readonly string[];
      readonly works: readonly {
        readonly hole: string;
        readonly what: string;
        readonly by: number;
        readonly diameter: number;
      }[];
      readonly serves: Readonly<Record<string, string>>;
      readonly turn: number;
      readonly turns: string | null;
      readonly moved: number;
      readonly goes_on: Readonly<Record<string, { readonly probability: number; readonly slack: number }>>;
      readonly holes: readonly {
        readonly id: string;
        readonly x: number;
        readonly y: number;
        readonly done: boolean;
      }[];
    }[];
  };
  readonly verdict: { readonly answer: string; readonly because: string };
}

const options: Options = { trials: 200 };
const ask = (text: string, more: Options = {}) => answer(text, 'prove', { ...options, ...more }, bareWorld);
const told = async (drilled: string): Promise<Told> => {
  const a = await ask(job(drilled));
  if (a.error !== null || a.faults.length > 0) throw new Error(JSON.stringify([a.error, a.faults, a.thrown]));
  return a.json as Told;
};
const at = (places: Readonly<Record<string, readonly [number, number]>>): string =>
  `  so far: [${Object.keys(places).join(', ')}]\n  readings:\n${Object.entries(places)
    .map(([id, [x, y]]) => `    - at ${id} = (${x + 100}, ${y + 80}) by dro\n`)
    .join('')}`;
const right = { H1: [40, 30], H2: [-40, 30], H3: [-40, -30], H4: [40, -30] } as const;
const kinds = (t: Told, holds: boolean) => t.midway?.ways.filter((w) => w.holds === holds).map((w) => w.kind);
const wayOf = (t: Told, kind: string) => t.midway?.ways.find((w) => w.kind === kind);

describe('a plate drilled in part', () => {
  test('that is right so far: go on, Yes, and what is left', async () => {
    const t = await told(at({ H1: right.H1, H2: right.H2, H3: right.H3 }));
    expect(t.midway?.left).toEqual(['H4', 'H5', 'H6', 'H7', 'C1', 'C2']);
    expect(t.midway?.wrong).toEqual([]);
    expect(kinds(t, true)).toEqual(['go on']);
    expect(t.verdict.answer).toBe('yes');
  });

  test('one hole out 1.2 mm along x: which, how far, and No with the cure', async () => {
    const t = await told(at({ ...right, H4: [41.2, -30] }));
    expect(t.midway?.wrong.map((w) => [w.hole, w.why])).toEqual([['H4', 'place']]);
    expect(t.midway?.wrong[0]?.dx).toBeCloseTo(1.2, 6);
    expect(t.midway?.wrong[0]?.dy).toBeCloseTo(0, 6);
    expect(t.verdict.answer).toBe('no');
    expect(t.verdict.because).toContain('H4 is 1.20 mm out of its place');
    // The register locates, with 0.05 mm of room: as drawn the plate turns so that the tangential part of 1.2 · 30/50
    // is shared.
    expect(wayOf(t, 'go on')?.holds).toBe(false);
  });

  test('two holes 0.6 mm too far apart: the rest lies between them, and each keeps 0.5 − 0.3 mm', async () => {
    const t = await told(at({ H1: [40.6, 30], H2: right.H2 }));
    const plan = wayOf(t, 're-plan');
    expect(plan?.holds).toBe(true);
    expect(plan?.goes_on['low']?.slack).toBeCloseTo(0.2, 3);
    expect(wayOf(t, 'go on')?.fails[0]).toContain('cannot be told');
    // Drilled where they are, 80.6 mm apart, with the drawing in the middle between them.
    const [one, two] = ['H1', 'H2'].map((id) => plan?.holes.find((h) => h.id === id));
    expect([one?.x, two?.x, one?.done]).toEqual([expect.closeTo(40.3, 4), expect.closeTo(-40.3, 4), true]);
  });

  test('a bush cleans up the hole: 2 · 1.5 + 9 + 1 is 13 mm, about the right place', async () => {
    const t = await told(at({ ...right, H4: [41.5, -30] }));
    const [work] = wayOf(t, 'bush')?.works ?? [];
    expect(work).toMatchObject({ hole: 'H4', what: 'bush', diameter: 13 });
    expect(work?.by).toBeCloseTo(1.5, 6);
    expect(wayOf(t, 'bush')?.holds).toBe(true);
    const again = wayOf(t, 'bush')?.holes.find((h) => h.id === 'H4');
    expect([again?.x, again?.y, again?.done]).toEqual([expect.closeTo(40, 6), expect.closeTo(-30, 6), false]);
  });

  test(
    'of two that are out only the worse is bushed where the other then enters: 0.52 mm off with 0.5 of room, 0.05 of ' +
      'which the register gives',
    async () => {
      // The other part's three, drilled right, tell which two are out.
      const others = { H5: [0, 70], H6: [-70, 0], H7: [60.6218, -35] } as const;
      const t = await told(at({ ...right, H1: [40.52, 30], H4: [41.5, -30], ...others }));
      expect(t.midway?.wrong.map((w) => w.hole)).toEqual(['H1', 'H4']);
      expect(wayOf(t, 'bush')?.holds).toBe(true);
      expect(wayOf(t, 'bush')?.works.map((w) => w.hole)).toEqual(['H4']);
      // 0.9 mm off it does not: both are bushed.
      const both = await told(at({ ...right, H1: [40.9, 30], H4: [41.5, -30], ...others }));
      expect(wayOf(both, 'bush')?.works.map((w) => w.hole)).toEqual(['H4', 'H1']);
    },
  );

  test('a plug must leave metal beside the new hole: at 1.5 mm off it is cut into, at 25 mm it stands clear', async () => {
    const near = await told(at({ ...right, H4: [41.5, -30] }));
    expect(wayOf(near, 'plug')?.holds).toBe(false);
    const far = await told(at({ ...right, H4: [15, -30] }));
    expect(wayOf(far, 'plug')?.holds).toBe(true);
    expect(wayOf(far, 'bush')?.works[0]?.diameter).toBe(60);
  });

  // Seen from side B the part that lies on it is mirrored: drawn are (0, 70), (−70, 0) and (60.6, −35).
  test('drilled as in a mirror: turn it over, and each hole serves for its image', async () => {
    const t = await told(at({ H5: [0, 70], H6: [70, 0], H7: [-60.6218, -35] }));
    const over = wayOf(t, 'turn over');
    expect(over?.holds).toBe(true);
    expect(kinds(t, true)?.[0]).toBe('turn over');
  });

  test("the second part's holes drilled 20° round: turn that part, and all else is as drawn", async () => {
    const turned = (deg: number, r: number): readonly [number, number] => [
      Number((r * Math.cos((deg * Math.PI) / 180)).toFixed(4)),
      Number((r * Math.sin((deg * Math.PI) / 180)).toFixed(4)),
    ];
    const a = await told(at({ ...right, H5: [0, 70] }));
    const drawn = a.midway?.ways[0]?.holes ?? [];
    const angle = (id: string): number => {
      const h = drawn.find((x) => x.id === id);
      return (Math.atan2(h?.y ?? 0, h?.x ?? 0) * 180) / Math.PI;
    };
    const t = await told(at({ ...right, H5: turned(angle('H5') - 20, 70), H6: turned(angle('H6') - 20, 70) }));
    const turn = t.midway?.ways.find((w) => w.turns === 'high');
    expect(turn?.holds).toBe(true);
    expect(turn?.turn).toBeCloseTo(20, 2);
  });
});

test('a tapped hole out of place: the screw stands there, so the part’s own hole is filed towards it', async () => {
  // All are drilled; H5, tapped for B1, is 0.9 mm too high. B1 is 9 mm wide, and an M8 screw 8 at most: 0.5 mm of room,
  // 0.05 more by the register.
  const all = { ...right, H5: [0, 70.9], H6: [-70, 0], H7: [60.6218, -35], C1: [0, 0], C2: [0, 0] } as const;
  // Without `so far`: nothing is left to drill.
  const a = await ask(job(at(all).split('\n').slice(1).join('\n')));
  const { goes_on } = a.json as {
    readonly goes_on: Readonly<
      Record<
        string,
        {
          readonly ease: readonly {
            readonly holes: readonly {
              readonly hole: string;
              readonly feature: string;
              readonly towards: number;
              readonly in_part: boolean;
            }[];
          }[];
        }
      >
    >;
  };
  const [filed] = goes_on['high']?.ease[0]?.holes ?? [];
  expect(filed).toMatchObject({ hole: 'H5', feature: 'B1', in_part: true });
  expect(filed?.towards).toBeCloseTo(90, 0);
  expect(JSON.stringify(a.report)).toContain('ease B1 of high by');
});

describe('bad input', () => {
  test('a reading of a hole that is not drilled yet is a fault at its line', async () => {
    const a = await ask(job('  so far: [H1, H2]\n  readings:\n    - over H1 H5 = 30 by dro\n'));
    expect(a.exit).toBe(2);
    expect(a.faults[0]?.expected).toContain('H5 is not among those of `so far`');
  });
  test('the same under the names of the parts', async () => {
    const a = await ask(job('  so far: [A1, A2]\n  readings:\n    - over A1 B1 = 30 by dro\n'));
    expect(a.exit).toBe(2);
    expect(a.error).toContain('not among the holes drilled');
  });
  test('a hole that the plate does not have, and a way that there is not', async () => {
    const a = await ask(job('  so far: [H1, H77]\n  readings:\n    - at H1 = (0, 0) by dro\n'));
    expect([a.exit, a.error]).toEqual([2, expect.stringContaining('the plate has no H77')]);
    const b = await ask(job(at({ H1: right.H1, H2: right.H2, H3: right.H3 })), { way: 9, out: 'rest' });
    expect([b.exit, b.error]).toEqual([2, expect.stringContaining('there is 1 way')]);
  });
});
