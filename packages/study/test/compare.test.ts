import { describe, expect, test } from 'vitest';
import { answer } from '../src/index.js';
import { bareWorld, example } from './support.js';

const text = example('three-to-four');

interface Compared {
  readonly same: boolean;
  readonly changed: readonly string[];
  readonly plate: {
    readonly moved: readonly {
      readonly id: string;
      readonly feature: string;
      readonly dx: number;
      readonly dy: number;
      readonly by: number;
      readonly diameter: readonly [number, number];
    }[];
    readonly come: readonly string[];
    readonly gone: readonly string[];
    readonly thickness: readonly [number, number] | null;
  };
  readonly sheets: readonly { readonly what: string; readonly stale: string | null }[];
  readonly drilled: { readonly good: boolean; readonly by: string; readonly fails: readonly string[] };
}
const compare = async (now: string, before = text) => {
  const a = await answer(now, 'compare', { trials: 100, earlier: before }, bareWorld);
  if (a.error !== null || a.faults.length > 0) throw new Error(JSON.stringify([a.error, a.faults, a.thrown]));
  return { exit: a.exit, words: JSON.stringify(a.report), ...(a.json as Compared) };
};
const changed = (from: string, to: string): string => {
  const now = text.replace(from, to);
  if (now === text) throw new Error(`nothing changed: ${from}`);
  return now;
};
const stale = (c: Compared): readonly string[] => c.sheets.filter((s) => s.stale !== null).map((s) => s.what);

describe('two states of a job', () => {
  test('that mean the same: nothing moved, nothing stale, the plate good', async () => {
    const c = await compare(text.replace(/#.*$/gm, ''));
    expect([c.exit, c.same, c.changed, c.plate.moved, stale(c), c.drilled.good]).toEqual([0, true, [], [], [], true]);
  });

  test('turned by one degree: each hole of the post moves along its circle, by 2 · 52 · sin 0.5°', async () => {
    const c = await compare(changed('clocking: 45 deg', 'clocking: 46 deg'));
    expect(c.plate.moved.map((m) => m.feature)).toEqual(
      expect.arrayContaining(['post.B1', 'post.B2', 'post.B3', 'post.B4']),
    );
    // 104 mm across, as measured to a few hundredths.
    for (const m of c.plate.moved) expect(m.by).toBeCloseTo(2 * 52 * Math.sin(Math.PI / 360), 2);
    expect(c.plate.moved).toHaveLength(4);
    expect(c.changed).toEqual(['plate: clocking is another']);
    expect(stale(c)).toEqual([
      'drilling template',
      'table, programs and solid',
      'drawing for another shop',
      'exploded view',
      'test piece',
    ]);
    // The part turns with its holes: what is drilled goes on as well as before, only turned. As drawn it does not lie
    // at the new clocking's places.
    expect(c.exit).toBe(1);
  });

  test('thicker: the table is stale and the template holds', async () => {
    const c = await compare(changed('thickness: 10', 'thickness: 12'));
    expect(c.plate.thickness).toEqual([10, 12]);
    expect(c.plate.moved.filter((m) => m.by > 0.005)).toEqual([]);
    expect(stale(c)).not.toContain('drilling template');
    // The test piece is thin at any thickness.
    expect(stale(c)).toEqual(expect.arrayContaining(['table, programs and solid', 'drawing for another shop']));
    expect(stale(c)).not.toContain('test piece');
    expect([c.drilled.good, c.drilled.fails.join(' ')]).toEqual([false, expect.stringContaining('10.00 mm thick')]);
  });

  test('a reading bettered by a hair leaves a drilled plate good; one that moves a hole by a millimetre does not', async () => {
    const hair = await compare(changed('over F1 F2 = 75.91', 'over F1 F2 = 75.90'));
    expect(hair.changed).toEqual(['fan: over F1 F2 was 75.910 mm and is 75.900 mm']);
    expect(hair.drilled.good).toBe(true);
    // All four webs and chords of B2 read 1.5 mm longer from the boss: it moves outward by that.
    const far = await compare(
      text
        .replace('between B2 boss = 22.78', 'between B2 boss = 24.28')
        .replace('over B1 B2 = 81.96', 'over B1 B2 = 83.03')
        .replace('over B2 B3 = 81.94', 'over B2 B3 = 83.01'),
    );
    const [first] = far.plate.moved;
    expect(first?.feature).toBe('post.B2');
    expect(first?.by).toBeCloseTo(1.5, 1);
    expect(far.drilled.good).toBe(false);
    expect(far.words).toContain('is not good any more');
  });

  test('a hole left out is gone, and what is drilled has one too many at most', async () => {
    const c = await compare(
      changed(
        'post: { as: tapped, thread: M8, engagement: 1 d }',
        'post: { as: tapped, thread: M8, engagement: 1 d, except: { B4: none } }',
      ),
    );
    expect(c.plate.gone).toEqual(['H7 (post.B4)']);
    expect(stale(c)).toContain('drilling template');
    const back = await compare(
      text,
      changed(
        'post: { as: tapped, thread: M8, engagement: 1 d }',
        'post: { as: tapped, thread: M8, engagement: 1 d, except: { B4: none } }',
      ),
    );
    expect(back.plate.come).toEqual(['H7 (post.B4)']);
    expect(back.drilled.fails.join(' ')).toContain('it has no H7');
  });
});

describe('sheets that rest on more than the cuts', () => {
  test('another revision: the drawing alone; another material: the drawing too', async () => {
    const revised = await compare(changed('plate:\n', 'drawing: { number: BF-1, revision: B }\nplate:\n'));
    expect(stale(revised)).toEqual(['drawing for another shop']);
    expect(stale(await compare(changed('mild steel', 'aluminium')))).toContain('drawing for another shop');
  });

  test('a reading bettered moves no centre by a hundredth: the part’s template holds; by a millimetre it does not', async () => {
    expect(stale(await compare(changed('over F1 F2 = 75.91', 'over F1 F2 = 75.912')))).not.toContain('part templates');
    expect(stale(await compare(changed('over F1 F2 = 75.91', 'over F1 F2 = 76.51')))).toContain('part templates');
  });

  test('what was asked of a seller is done with once the part is at hand', async () => {
    const sold = changed('  post:\n', '  post:\n    seller: ± 1 mm\n');
    const asked = (c: Compared) => c.sheets.find((s) => s.what === 'questions to the seller')?.stale;
    expect(asked(await compare(text, sold))).toBe('the part is at hand');
    expect(asked(await compare(sold, sold))).toBe(null);
    expect(asked(await compare(text, text))).toBe(undefined);
  });
});

describe('bad input', () => {
  test('no earlier state, and one that cannot be read', async () => {
    const none = await answer(text, 'compare', {}, bareWorld);
    expect([none.exit, none.error]).toEqual([2, expect.stringContaining('--with')]);
    const bad = await answer(text, 'compare', { earlier: 'job: a\nunits: furlong\n' }, bareWorld);
    expect([bad.exit, bad.error]).toEqual([2, expect.stringMatching(/earlier state cannot be read: line 2, column 8/)]);
  });
});

test('a plate drilled by sheets of another state is said so, and the answer is the readings’', async () => {
  const drilled = (from: string) =>
    `${text}drilled:\n  from: ${from}\n  so far: [H1, H2]\n  readings: [over H1 H2 = 74.28 by caliper]\n`;
  const other = await answer(drilled('7K2Q-F9M3'), 'prove', { trials: 100 }, bareWorld);
  expect(JSON.stringify(other.report)).toContain('drilled by sheets of 7K2Q-F9M3');
  const own = (other.json as { readonly fingerprint: string }).fingerprint;
  const same = await answer(drilled(own), 'prove', { trials: 100 }, bareWorld);
  expect(JSON.stringify(same.report)).not.toContain('drilled by sheets');
});
