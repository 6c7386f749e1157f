import {
  type Path,
  type Point,
  apply,
  circlePath,
  distance,
  edgesOf,
  flatten,
  flipX,
  movePath,
  polygonPath,
  signedArea,
} from '@fayplate/core';
import { hullOfCircles } from '@fayplate/plate';
import type { Plate } from '@fayplate/plate';
import { ClipperOffset, EndType, JoinType } from 'clipper2-ts';
import { describe, expect, test } from 'vitest';
import { type TableOptions, iso6983, machinistTable } from '../../src/index.js';
import { hole, plate as made, simple, withMachine } from '../fixture.js';
import { type Milled, run } from '../program/interpreter.js';

const SAFE = 50;
const THICK = 20;

const shaped = (path: Path, more: Partial<Plate> = {}): Plate => ({
  ...simple([hole('H1', 0, 0)]),
  outline: {
    shape: 'like',
    path,
    area: signedArea(path),
    mass: null,
    blank: { width: 0, height: 0, thickness: THICK },
  },
  ...more,
});

/** A rectangle with round corners, counter-clockwise. */
const rounded = (w: number, h: number, r: number): Path =>
  hullOfCircles(
    [-1, 1].flatMap((sx) => [-1, 1].map((sy) => ({ centre: { x: sx * (w / 2 - r), y: sy * (h / 2 - r) }, radius: r }))),
  );

/** Two lobes of 25 about (±40, 0) with hollows of radius `hollow` that touch both. */
const waisted = (hollow: number): Path => {
  const y = Math.sqrt((25 + hollow) ** 2 - 40 ** 2);
  const touch = (sx: number, sy: number): Point => {
    const k = 25 / (25 + hollow);
    return { x: sx * (40 - 40 * k), y: sy * y * k };
  };
  return {
    start: touch(1, -1),
    closed: true,
    edges: [
      { kind: 'arc', to: touch(1, 1), centre: { x: 40, y: 0 }, ccw: true },
      { kind: 'arc', to: touch(-1, 1), centre: { x: 0, y }, ccw: false },
      { kind: 'arc', to: touch(-1, -1), centre: { x: -40, y: 0 }, ccw: true },
      { kind: 'arc', to: touch(1, -1), centre: { x: 0, y: -y }, ccw: false },
    ],
  };
};

const shapes: readonly (readonly [string, Path])[] = [
  ['round', circlePath({ x: 3, y: -4 }, 60)],
  [
    'follow',
    hullOfCircles([
      { centre: { x: -50, y: 0 }, radius: 14 },
      { centre: { x: 40, y: 30 }, radius: 22 },
      { centre: { x: 30, y: -35 }, radius: 9 },
    ]),
  ],
  ['rectangle', rounded(140, 90, 8)],
  [
    'square corners',
    polygonPath([
      { x: -60, y: -40 },
      { x: 55, y: -45 },
      { x: 60, y: 42 },
      { x: -58, y: 40 },
    ]),
  ],
  ['like, with hollows', waisted(30)],
];

const cutter = (diameter: number, more: { tabs?: number; leave?: number } = {}) =>
  withMachine({ outline: { cutter: diameter, ...more } });

const tableOf = (p: Plate, job: ReturnType<typeof withMachine>, options: TableOptions = {}) => {
  const t = machinistTable(p, job, options);
  if (!t.ok) throw new Error(t.faults.join());
  return t.table;
};

/** The outline's program run on the machine of the tests, with the finished outline as it lies there. */
const cutOf = (p: Plate, job: ReturnType<typeof withMachine>, options: TableOptions = {}) => {
  const table = tableOf(p, job, options);
  const programs = iso6983(p, table, {});
  if (!programs.ok) throw new Error(programs.faults.join());
  const own = programs.programs.find((q) => q.name.endsWith('-outline'));
  if (own === undefined) throw new Error(programs.without.join() || 'no program');
  const seen = movePath(table.motion, p.outline.path);
  const finished = own.side === 'A' ? movePath(flipX, seen) : seen;
  const { left, width, bottom, height } = table.blank;
  const blank =
    own.side === 'A'
      ? { left: -left - width, right: -left, bottom, top: bottom + height }
      : { left, right: left + width, bottom, top: bottom + height };
  return { text: own.text, side: own.side, finished, blank, ran: run(own.text, { plane: SAFE }), table };
};

// Written apart from the maker's own geometry: distance to a line or an arc from its formula.
const toEdge = (p: Point, from: Point, e: Path['edges'][number]): number => {
  if (e.kind === 'line') {
    const [dx, dy] = [e.to.x - from.x, e.to.y - from.y];
    const t = Math.min(
      1,
      Math.max(0, ((p.x - from.x) * dx + (p.y - from.y) * dy) / Math.max(dx * dx + dy * dy, 1e-18)),
    );
    return Math.hypot(p.x - from.x - t * dx, p.y - from.y - t * dy);
  }
  const r = distance(from, e.centre);
  const angle = (q: Point): number => Math.atan2(q.y - e.centre.y, q.x - e.centre.x);
  const around = (a: number): number => ((a % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  const sweep = around(e.ccw ? angle(e.to) - angle(from) : angle(from) - angle(e.to)) || 2 * Math.PI;
  const at = around(e.ccw ? angle(p) - angle(from) : angle(from) - angle(p));
  return at <= sweep ? Math.abs(distance(p, e.centre) - r) : Math.min(distance(p, from), distance(p, e.to));
};
const off = (p: Point, path: Path): number => Math.min(...edgesOf(path).map(([from, e]) => toEdge(p, from, e)));
const isIn = (p: Point, path: Path): boolean => {
  const ring = flatten(path, 0.001);
  let odd = false;
  for (const [i, a] of ring.entries()) {
    const b = ring[(i + 1) % ring.length]!;
    if (a.y > p.y !== b.y > p.y && p.x < ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y) + a.x) odd = !odd;
  }
  return odd;
};
const along = (m: Milled, t: number): Point & { z: number } => {
  const z = m.from.z + t * (m.to.z - m.from.z);
  if (m.centre === null) return { x: m.from.x + t * (m.to.x - m.from.x), y: m.from.y + t * (m.to.y - m.from.y), z };
  const c = m.centre;
  const a = Math.atan2(m.from.y - c.y, m.from.x - c.x);
  const b = Math.atan2(m.to.y - c.y, m.to.x - c.x);
  const turn = (((m.ccw ? b - a : a - b) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI) || 2 * Math.PI;
  const r = distance(m.from, c);
  return {
    x: c.x + r * Math.cos(a + (m.ccw ? 1 : -1) * turn * t),
    y: c.y + r * Math.sin(a + (m.ccw ? 1 : -1) * turn * t),
    z,
  };
};
const samples = (milled: readonly Milled[], n = 60): readonly (Point & { z: number })[] =>
  milled.flatMap((m) => Array.from({ length: n + 1 }, (_, i) => along(m, i / n)));
const asPath = (m: Milled): Path => ({
  start: m.from,
  closed: false,
  edges: [m.centre === null ? { kind: 'line', to: m.to } : { kind: 'arc', to: m.to, centre: m.centre, ccw: m.ccw }],
});
/** Places round the finished outline with the outward direction there. */
const roundOf = (path: Path): readonly { at: Point; out: Point }[] =>
  edgesOf(path).flatMap(([from, e]) =>
    Array.from({ length: 40 }, (_, i) => {
      const t = (i + 0.5) / 40;
      const at = along(
        {
          from: { ...from, z: 0 },
          to: { ...e.to, z: 0 },
          centre: e.kind === 'arc' ? e.centre : null,
          ccw: e.kind === 'arc' && e.ccw,
          feed: 0,
        },
        t,
      );
      const ahead = along(
        {
          from: { ...from, z: 0 },
          to: { ...e.to, z: 0 },
          centre: e.kind === 'arc' ? e.centre : null,
          ccw: e.kind === 'arc' && e.ccw,
          feed: 0,
        },
        t + 1e-6,
      );
      const long = distance(at, ahead);
      const s = signedArea(path) > 0 ? 1 : -1;
      return { at, out: { x: (s * (ahead.y - at.y)) / long, y: (-s * (ahead.x - at.x)) / long } };
    }),
  );

describe.each(shapes)('the outline by an end mill of 10: %s', (_, path) => {
  const { ran, finished, blank, text, side } = cutOf(shaped(path), cutter(10));
  const R = 5;
  const last = text.slice(text.indexOf('(LAST PASS)'));
  const count = (last.match(/G0[123] /g) ?? []).length;
  const lastMoves = ran.milled.slice(-count);

  test('the cutter is never inside the finished outline by more than 0.001 mm', () => {
    const below = samples(ran.milled).filter((p) => p.z < 0);
    expect(below.length).toBeGreaterThan(500);
    for (const p of below) {
      expect(isIn(p, finished)).toBe(false);
      expect(off(p, finished)).toBeGreaterThan(R - 0.001);
    }
  });

  test('the last pass touches the whole outline to 0.0001 mm, and the tabs alone are left under it', () => {
    const through = lastMoves.filter((m) => m.from.z < -THICK && m.to.z < -THICK).map(asPath);
    const all = lastMoves.map(asPath);
    let left = 0;
    for (const { at, out } of roundOf(finished)) {
      const centre = { x: at.x + R * out.x, y: at.y + R * out.y };
      const nearest = (paths: readonly Path[]): number => Math.min(...paths.map((q) => off(centre, q)));
      expect(nearest(all)).toBeLessThan(1e-4);
      if (nearest(through) > 1e-3) left++;
    }
    expect(left).toBeGreaterThan(0);
    expect(left).toBeLessThan(roundOf(finished).length / 2);
  });

  test('four tabs of 6 wide and 2 high, each left by a lift of the cutter, in both kinds of pass', () => {
    const lifts = lastMoves.filter(
      (m) =>
        m.to.z > m.from.z &&
        m.from.z < -THICK &&
        Math.abs(m.to.z + THICK - 2) < 1e-9 &&
        m.to.x === m.from.x &&
        m.to.y === m.from.y,
    );
    expect(lifts).toHaveLength(4);
    // From where it rises to where it goes down again: 6 mm at the narrowest besides the cutter itself.
    let begun = -1;
    const spans: number[] = [];
    for (const [i, m] of lastMoves.entries()) {
      if (lifts.includes(m)) begun = i;
      else if (begun >= 0 && m.to.z < m.from.z - 1e-9) {
        spans.push(
          lastMoves
            .slice(begun + 1, i)
            .reduce(
              (sum, q) => sum + samples([q], 200).reduce((s, p, k, a) => s + (k === 0 ? 0 : distance(a[k - 1]!, p)), 0),
              0,
            ),
        );
        begun = -1;
      }
    }
    expect(spans).toHaveLength(4);
    for (const s of spans) expect(Math.abs(s - 16)).toBeLessThan(2e-3);
    // Nothing of a roughing pass goes below a tab where the last pass is raised.
    const raised = lastMoves.filter(
      (m) => Math.abs(m.from.z + THICK - 2) < 1e-9 && Math.abs(m.to.z + THICK - 2) < 1e-9,
    );
    const middle = along(raised[0]!, 0.5);
    const deep = samples(ran.milled.filter((m) => Math.max(m.from.z, m.to.z) < -(THICK - 2) - 1e-6));
    expect(Math.min(...deep.map((p) => distance(p, middle)))).toBeGreaterThan(5);
  });

  test(
    'it comes in and goes out off the metal, goes no deeper at ' +
      'once than half its diameter, and ends past the lower face',
    () => {
      const clear = (p: Point): boolean =>
        p.x < blank.left - R || p.x > blank.right + R || p.y < blank.bottom - R || p.y > blank.top + R;
      const downs = ran.milled.filter((m) => m.to.z < m.from.z - 1e-9);
      for (const m of downs) expect(clear(m.from) || Math.abs(m.from.z + THICK - 2) < 1e-9).toBe(true);
      expect(clear(ran.milled[0]!.from)).toBe(true);
      expect(clear(ran.milled.at(-1)!.to)).toBe(true);
      const depths = [...new Set(ran.milled.slice(0, -count).map((m) => -m.to.z))]
        .filter((z) => z > 0)
        .sort((a, b) => a - b);
      for (const [i, z] of depths.entries()) expect(z - (depths[i - 1] ?? 0)).toBeLessThanOrEqual(5 + 1e-9);
      expect(ran.lowest).toBeCloseTo(-(THICK + 1), 9);
      expect(ran.lowestTraverse).toBeGreaterThanOrEqual(SAFE - 1e-9);
      expect(ran.ended).toBe(true);
    },
  );

  test('roughing leaves 0.3 and climbs: clockwise about the plate', () => {
    const rough = ran.milled.slice(0, -count).filter((m) => m.from.z < 0 && m.to.z < 0);
    const nearest = Math.min(...samples(rough).map((p) => off(p, finished)));
    expect(nearest).toBeCloseTo(R + 0.3, 3);
    const ring = samples(lastMoves.filter((m) => m.from.z < 0)).map(({ x, y }) => ({ x, y }));
    expect(signedArea(polygonPath(ring))).toBeLessThan(0);
  });

  test('the path is that of a general polygon library’s offset (clipper2-ts)', () => {
    const scale = 1e5;
    const ring = flatten(finished, 1e-4).map((p) => ({ x: Math.round(p.x * scale), y: Math.round(p.y * scale) }));
    const offset = new ClipperOffset(2, 1e-4 * scale);
    offset.addPath(ring, JoinType.Round, EndType.Polygon);
    const out: { x: number; y: number }[][] = [];
    offset.execute((signedArea(finished) > 0 ? R : -R) * scale, out as never);
    const area =
      Math.abs(
        out[0]!.reduce((s, a, i) => {
          const b = out[0]![(i + 1) % out[0]!.length]!;
          return s + (a.x * b.y - a.y * b.x) / 2;
        }, 0),
      ) /
      scale ** 2;
    const { table } = cutOf(shaped(path), cutter(10));
    const own = table.contour?.ok === true ? Math.abs(signedArea(table.contour.contour.last)) : 0;
    expect(Math.abs(own - area) / area).toBeLessThan(2e-5);
    expect(side === 'A' || side === 'B').toBe(true);
  });
});

describe('options', () => {
  test('in inches the same path, to the same 0.001 mm', () => {
    const { ran, finished } = cutOf(shaped(waisted(30)), cutter(9.525), { unit: 'in' });
    expect(ran.unit).toBe('in');
    for (const p of samples(ran.milled).filter((q) => q.z < 0))
      expect(off(p, finished)).toBeGreaterThan(9.525 / 2 - 0.001);
  });

  test('turned on the table, the same cut', () => {
    const p = { ...shaped(waisted(30)), holes: [hole('H1', -20, -3), hole('H2', 20, 9)] };
    const [plain, turned] = [cutOf(p, cutter(10)), cutOf(p, cutter(10), { horizontal: ['H1', 'H2'] })];
    for (const q of samples(turned.ran.milled).filter((s) => s.z < 0))
      expect(off(q, turned.finished)).toBeGreaterThan(5 - 0.001);
    const round = (t: typeof plain): number =>
      samples(t.ran.milled.filter((m) => m.from.z < -20 && m.to.z < -20)).length;
    expect(round(turned)).toBeGreaterThan(0);
    expect(round(plain)).toBeGreaterThan(0);
  });

  test('with side A uppermost it is the mirror image', () => {
    const p = { ...shaped(waisted(30)), holes: [hole('H1', 5, 3, { from: 'A', depth: 10 })] };
    const { side, ran, finished } = cutOf(p, cutter(10));
    expect(side).toBe('A');
    for (const q of samples(ran.milled).filter((s) => s.z < 0)) expect(off(q, finished)).toBeGreaterThan(5 - 0.001);
  });

  test('without tabs nothing is raised, and the program says how the plate is held', () => {
    const { ran, text } = cutOf(shaped(rounded(140, 90, 8)), cutter(10, { tabs: 0 }));
    expect(ran.milled.filter((m) => m.to.z > m.from.z + 1e-9 && m.from.z < 0 && m.to.x > -75)).toEqual([]);
    expect(text).toContain('NO TABS - HOLD THE PLATE BY ITS HOLES');
  });

  test('a dry run stays above the work, spindle stopped', () => {
    const p = shaped(rounded(140, 90, 8));
    const made = iso6983(p, tableOf(p, cutter(10)), { dryRun: true });
    const own = made.ok ? made.programs.find((q) => q.name.endsWith('outline')) : undefined;
    expect(run(own!.text, { dry: true }).lowest).toBeGreaterThanOrEqual(5 - 1e-9);
    expect(own!.text).not.toContain('M03');
  });

  test('both dialects run; no cutter, no program', () => {
    const p = shaped(rounded(140, 90, 8));
    for (const dialect of ['usual', 'standard'] as const) {
      const made = iso6983(p, tableOf(p, cutter(10)), { dialect });
      for (const q of made.ok ? made.programs : []) expect(run(q.text, { plane: SAFE }).ended).toBe(true);
    }
    const bare = iso6983(p, tableOf(p, withMachine({})));
    expect(bare.ok && bare.programs.some((q) => q.name.includes('outline'))).toBe(false);
  });
});

describe('what a cutter cannot cut is refused by name, and the holes still have their programs', () => {
  const refusal = (p: Plate, job: ReturnType<typeof withMachine>): string => {
    const made = iso6983(p, tableOf(p, job));
    if (!made.ok) throw new Error(made.faults.join());
    expect(made.programs.map((q) => q.name)).toEqual(['side-b']);
    return made.without.join();
  };

  test('a hollow tighter than the cutter: which, and what would go in', () => {
    // Its hollows have a radius of 20; 40.5 is too large and 20 mm the largest that is sold below.
    const p = { ...shaped(waisted(20)), holes: [hole('H1', -40, 0), hole('H2', 0, 8)] };
    expect(refusal(p, cutter(40.5))).toMatch(
      /hollow of radius 20\.000 mm .*nearest to H2 is too tight for a cutter of 40\.500 mm: the largest end mill that goes in is 20\.000 mm/,
    );
    expect(cutOf(p, cutter(39.5)).ran.ended).toBe(true);
  });

  test('a sharp inner corner', () => {
    const p = shaped(
      polygonPath([
        { x: -60, y: -40 },
        { x: 60, y: -40 },
        { x: 60, y: 40 },
        { x: 0, y: 0 },
        { x: -60, y: 40 },
      ]),
    );
    expect(refusal(p, cutter(10))).toMatch(/sharp inner corner at X .*give it a fillet of 5\.000 mm or more/);
  });

  test('a gap between two edges that is narrower than the cutter', () => {
    // A slit of 8 between two fingers, round at its foot: an arc of 4 alone would say it, so the foot is a wide one.
    const p = shaped({
      start: { x: -60, y: -40 },
      closed: true,
      edges: [
        { kind: 'line', to: { x: 60, y: -40 } },
        { kind: 'line', to: { x: 60, y: 40 } },
        { kind: 'line', to: { x: 4, y: 40 } },
        { kind: 'arc', to: { x: 8, y: 12 }, centre: { x: -94, y: 11.714285714285714 }, ccw: false },
        { kind: 'arc', to: { x: -8, y: 12 }, centre: { x: 0, y: 6 }, ccw: false },
        { kind: 'arc', to: { x: -4, y: 40 }, centre: { x: 94, y: 11.714285714285714 }, ccw: false },
        { kind: 'line', to: { x: -60, y: 40 } },
        { kind: 'line', to: { x: -60, y: -40 } },
      ],
    });
    expect(refusal(p, cutter(12))).toMatch(/too narrow for a cutter of 12\.000 mm|inner corner|too tight/);
  });

  test('a clamp in its way, tabs that do not fit', () => {
    const p = shaped(rounded(140, 90, 8));
    const clamped = withMachine({
      outline: { cutter: 10 },
      clamps: [{ from: { x: -10, y: 40 }, to: { x: 4, y: 60 } }],
    });
    expect(refusal(p, clamped)).toMatch(/clamp 1 stands in the way/);
    expect(refusal(p, cutter(10, { tabs: 24 }))).toMatch(/24 tabs do not fit/);
  });

  test('without a material there is no speed, and the advice says so', () => {
    const p = { ...shaped(rounded(140, 90, 8)), holes: [], material: null };
    const made = iso6983(p, tableOf(p, cutter(10)));
    expect(made.ok ? '' : made.faults.join()).toMatch(/material/);
  });
});

test('the fixture’s round plate has its outline last, and the table says so', () => {
  const table = tableOf(made, cutter(10));
  expect(table.notes.join(' ')).toMatch(
    /Cut the outline last, by its own program, with an end mill of 10\.000 mm\. 4 tabs hold the plate/,
  );
  expect(apply(table.motion, { x: 0, y: 0 })).toBeDefined();
});
