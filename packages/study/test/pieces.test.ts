import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type JobCommand, type Options, answer } from '../src/index.js';
import { bareWorld } from './support.js';

/** The example of a ring and a plate, before anything is drilled. */
const [undrilled = ''] = readFileSync(
  join(import.meta.dirname, '../../../examples/chaff-cutter/job.yaml'),
  'utf8',
).split('\ndrilled:');

const ask = async <T>(text: string, command: JobCommand, options: Options = {}): Promise<T & { exit: number }> => {
  const a = await answer(text, command, { trials: 200, ...options }, bareWorld);
  if (a.error !== null || a.faults.length > 0) throw new Error(JSON.stringify([a.error, a.faults, a.thrown]));
  return { exit: a.exit, ...(a.json as T) };
};

interface Plates {
  readonly pieces: Readonly<
    Record<
      string,
      {
        readonly thickness: number;
        readonly holes: readonly {
          readonly id: string;
          readonly feature: string | null;
          readonly as: string;
          readonly x: number;
          readonly y: number;
          readonly depth: number | null;
          readonly from: string;
          readonly cut?: { readonly name: string };
        }[];
        readonly bores: readonly { readonly id: string; readonly x: number; readonly y: number }[];
      }
    >
  >;
}
interface Proved {
  readonly pieces: Readonly<
    Record<
      string,
      {
        readonly state: string;
        readonly ok: boolean | null;
        readonly goes_on: Readonly<Record<string, { readonly slack: number }>>;
      }
    >
  >;
  readonly verdict: { readonly answer: string; readonly because: string };
}

const drawn = await ask<Plates>(undrilled, 'plate');

/** A piece as a read-out gives it, each screw of the joint out of its place by so much outward from the axis, mm. */
const readOf = (piece: string, outward: Readonly<Record<string, number>> = {}): string => {
  const { holes = [], bores = [] } = drawn.pieces[piece] ?? {};
  const off = (feature: string | null): number => outward[feature?.split('.').at(-1) ?? ''] ?? 0;
  const at = (id: string, x: number, y: number): string =>
    `        - at ${id} = (${x.toFixed(4)}, ${y.toFixed(4)}) ± 0.02`;
  return [
    `    ${piece}:`,
    '      readings:',
    ...holes
      .filter((h) => h.as !== 'dowel')
      .map((h) => {
        const longer = 1 + off(h.feature) / Math.hypot(h.x, h.y);
        return at(h.id, h.x * longer, h.y * longer);
      }),
    ...bores.map((b) => at(b.id, b.x, b.y)),
  ].join('\n');
};
const drilled = (...pieces: readonly string[]): string => `${undrilled}\ndrilled:\n  pieces:\n${pieces.join('\n')}\n`;
const joints = (p: Proved): readonly (number | undefined)[] => [
  p.pieces['ring']?.goes_on['the plate']?.slack,
  p.pieces['plate']?.goes_on['the ring']?.slack,
];

describe('two pieces as drilled', () => {
  // An M8 screw is 7.972 at most (ISO 965-2, 6g, from memory), and its hole 9 at least (ISO 273): 0.514 mm all round.
  const room = (9 - 7.972) / 2;

  test('as drawn: each goes on its part and on the other, and the screws have what their holes leave', async () => {
    const p = await ask<Proved>(drilled(readOf('ring'), readOf('plate')), 'prove');
    expect([p.exit, p.verdict.answer, p.pieces['ring']?.ok, p.pieces['plate']?.ok]).toEqual([0, 'yes', true, true]);
    for (const slack of joints(p)) expect(slack).toBeCloseTo(room, 2);
  });

  test('two screws across from each other 0.3 mm too far out take 0.3 mm of it, whichever piece has them', async () => {
    const wide = { S1: 0.3, S3: 0.3 };
    for (const pieces of [
      [readOf('ring', wide), readOf('plate')],
      [readOf('ring'), readOf('plate', wide)],
    ])
      for (const slack of joints(await ask<Proved>(drilled(...pieces), 'prove')))
        expect(slack).toBeCloseTo(room - 0.3, 2);
  });

  test('both out alike go together as if neither were; out the other way they do not', async () => {
    const alike = await ask<Proved>(
      drilled(readOf('ring', { S1: 0.6, S3: 0.6 }), readOf('plate', { S1: 0.6, S3: 0.6 })),
      'prove',
    );
    for (const slack of joints(alike)) expect(slack).toBeCloseTo(room, 2);
    expect(alike.verdict.answer).toBe('yes');
    const apart = await ask<Proved>(
      drilled(readOf('ring', { S1: 0.6, S3: 0.6 }), readOf('plate', { S1: -0.6, S3: -0.6 })),
      'prove',
    );
    for (const slack of joints(apart)) expect(slack).toBeCloseTo(room - 1.2, 2);
    expect([apart.exit, apart.verdict.answer]).toEqual([1, 'no']);
  });

  test('one piece drilled: the other is still to be drilled, and says what to read', async () => {
    const p = await ask<Proved>(drilled(readOf('ring')), 'prove');
    expect([p.exit, p.pieces['ring']?.ok, p.pieces['plate']?.state]).toEqual([0, true, 'not drilled']);
    expect(p.verdict.because).toContain('the plate is still to be drilled');
  });

  test('one piece alone knows the other as it was drilled', async () => {
    const text = drilled(readOf('ring', { S1: 0.6, S3: 0.6 }), readOf('plate', { S1: 0.6, S3: 0.6 }));
    const p = await ask<Proved['pieces'][string]>(text, 'prove', { piece: 'plate' });
    expect(p.goes_on['the ring']?.slack).toBeCloseTo(room, 2);
  });
});

describe('cuts of a plate of two pieces', () => {
  const withCut = (cut: string): string => undrilled.replace('  outline:', `  cuts:\n    drain: ${cut}\n  outline:`);
  const cutsOf = async (cut: string) => {
    const { pieces } = await ask<Plates>(withCut(cut), 'plate');
    return Object.fromEntries(
      Object.entries(pieces).map(([name, p]) => [
        name,
        p.holes
          .filter((h) => h.cut?.name === 'drain')
          .map((h) => [h.x, h.y, h.depth, h.from].map((v) => (typeof v === 'number' ? Number(v.toFixed(3)) : v))),
      ]),
    );
  };

  test('one that goes through goes through both, at the same place', async () => {
    expect(await cutsOf('{ hole: 6, at: [50, 12] }')).toEqual({
      ring: [[50, 12, null, 'A']],
      plate: [[50, 12, null, 'A']],
    });
  });
  test('one placed in the motor’s frame goes through both, as far from the axis as it is there', async () => {
    const both = await cutsOf('{ hole: 6, at: [50, 12], face: motor }');
    const [ring, plate] = [both['ring']?.[0], both['plate']?.[0]];
    expect(ring).toEqual(plate);
    expect(Math.hypot(Number(plate?.[0]), Number(plate?.[1]))).toBeCloseTo(Math.hypot(50, 12), 2);
  });
  test('a blind one 26 deep from side A goes through the ring of 20, and 6 into the plate from its side A', async () => {
    expect(await cutsOf('{ hole: 6, at: [50, 12], depth: 26 }')).toEqual({
      ring: [[50, 12, null, 'A']],
      plate: [[50, 12, 6, 'A']],
    });
  });
  test('one 6 deep from side B is the plate’s alone', async () => {
    expect(await cutsOf('{ hole: 6, at: [50, 12], depth: 6, side: B }')).toEqual({
      ring: [],
      plate: [[50, 12, 6, 'B']],
    });
  });
});

describe('two states of a plate of two pieces', () => {
  interface Compared {
    readonly plate: unknown;
    readonly pieces: Readonly<
      Record<
        string,
        {
          readonly plate: {
            readonly moved: readonly { readonly feature: string }[];
            readonly thickness: readonly number[] | null;
          };
          readonly sheets: readonly { readonly what: string; readonly stale: string | null }[];
          readonly drilled: { readonly good: boolean; readonly by: string };
        }
      >
    >;
  }
  const compare = (now: string, earlier: string) => ask<Compared>(now, 'compare', { earlier });

  test('the same: nothing moved in either', async () => {
    const c = await compare(undrilled, undrilled);
    expect([c.exit, Object.values(c.pieces).map((p) => [p.plate.moved, p.drilled.good])]).toEqual([
      0,
      [
        [[], true],
        [[], true],
      ],
    ]);
  });

  test('the motor turned: the plate’s four holes for it move, and no sheet of the ring is stale', async () => {
    const c = await compare(undrilled.replace('clocking: 15 deg', 'clocking: 14 deg'), undrilled);
    expect(c.exit).toBe(1);
    expect(c.pieces['ring']?.plate.moved).toEqual([]);
    expect(c.pieces['ring']?.sheets.filter((s) => s.stale !== null)).toEqual([]);
    expect(c.pieces['plate']?.plate.moved.map((m) => m.feature).toSorted()).toEqual([
      'motor.M1',
      'motor.M2',
      'motor.M3',
      'motor.M4',
    ]);
    expect(c.pieces['plate']?.sheets.find((s) => s.what === 'drawing for another shop')?.stale).toContain('moved');
  });

  test('a ring that is drilled is judged as it was measured', async () => {
    const c = await compare(drilled(readOf('ring')), undrilled);
    expect([c.pieces['ring']?.drilled.by, c.pieces['plate']?.drilled.by]).toEqual(['as measured', 'as drawn']);
  });

  test('a plate of one piece before is not set beside two', async () => {
    const one = undrilled.replace(/ {2}pieces:[\s\S]*?(?= {2}bore:)/, '');
    const c = await compare(undrilled, one);
    expect([c.exit, c.plate, c.pieces]).toEqual([1, null, undefined]);
  });
});
