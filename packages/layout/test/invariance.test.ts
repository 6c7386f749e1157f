import { type Point, randomFrom } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { type FaceLayout, layoutFace, wholeDrawings } from '../src/index.js';
import { type Shop, faceOf, locatedOf, measure, measureWith, settleFrame, shop } from './support/network.js';
import { INCH, clockwise, everyDistance, kindsOf, named, onDivisions, ringReadings, shopOf } from './support/scenes.js';

/**
 * A layout whatever the names, the frame and the order: its odds and the arrangement of its circles, counted from the
 * least gap.
 */
const gist = (l: FaceLayout) => ({
  chosen: l.chosen,
  asMeasured: l.asMeasured,
  // Which of four corners alike has moved by nothing is a tie, and far below what counts.
  candidates: l.candidates
    .filter((c) => c.odds > 0.005)
    .slice(0, 4)
    .map((c) => ({
      odds: c.odds,
      chi2: c.chi2,
      dof: c.dof,
      circles: c.circles.map((k) => ({
        size: k.size,
        divisions: k.divisions,
        gaps: gapsOf(k.occupied, k.divisions ?? 1),
        count: k.features.length,
      })),
      arrays: c.arrays.map((a) => ({
        columns: Math.min(a.columns, a.rows),
        rows: Math.max(a.columns, a.rows),
        size: a.size.map(String).sort((x, y) => x.localeCompare(y)),
      })),
      grid: c.grid?.says,
    })),
});

/** Gaps between occupied divisions in order, begun where their list is least, either way round. */
const gapsOf = (occupied: readonly number[], n: number): string => {
  const sorted = [...occupied].sort((a, b) => a - b);
  const gaps = sorted.map((o, i) => ((((sorted[(i + 1) % sorted.length] ?? 0) - o) % n) + n) % n || n);
  const turns = (g: readonly number[]): readonly string[] =>
    g.map((_, i) => [...g.slice(i), ...g.slice(0, i)].map((x) => String(x).padStart(3, '0')).join(' '));
  return [...turns(gaps), ...turns([...gaps].reverse())].sort((a, b) => a.localeCompare(b))[0] ?? '';
};

const close = (a: FaceLayout, b: FaceLayout, digits = 4): void => {
  const [x, y] = [gist(a), gist(b)];
  const plain = (g: typeof x) => ({
    ...g,
    asMeasured: 0,
    candidates: g.candidates.map((c) => ({ ...c, odds: 0, chi2: 0 })),
  });
  expect(plain(x)).toEqual(plain(y));
  for (const [i, c] of x.candidates.entries()) {
    expect(c.odds).toBeCloseTo(y.candidates[i]?.odds ?? Number.NaN, digits);
    expect(c.chi2).toBeCloseTo(y.candidates[i]?.chi2 ?? Number.NaN, digits - 2);
  }
};

const scenes: readonly (readonly [string, ReadonlyMap<string, Point>])[] = [
  ['seven of twelve', named(onDivisions(7.5 * INCH, 12, [0, 1, 3, 4, 6, 8, 9]))],
  [
    'six, and two dowels midway',
    named([...onDivisions(160, 6, [0, 1, 2, 3, 4, 5]), clockwise(40, 30), clockwise(40, 210)]),
  ],
  [
    'a rectangle',
    named(
      [
        [40, 30],
        [-40, 30],
        [-40, -30],
        [40, -30],
      ].map(([x = 0, y = 0]) => ({ x, y })),
    ),
  ],
  [
    'a grid',
    named(
      [
        [17, 44],
        [-31, 20],
        [25, -30],
        [-40, -13],
        [3, -47],
        [52, 9],
      ].map(([x = 0, y = 0]) => ({ x: (x * INCH) / 16, y: (y * INCH) / 16 })),
    ),
  ],
  [
    'nothing simple',
    named(
      [
        [41, 33.3],
        [-47.2, 31.3],
        [60.2, -24.2],
        [-61.7, -27.7],
        [3, -72.7],
        [23.4, -55.1],
      ].map(([x = 0, y = 0]) => ({ x, y })),
    ),
  ],
];

/** The same measured face in another frame: every centre and the joint covariance carried along exactly. */
const reframed = (
  made: Shop,
  points: readonly Point[],
  up: string,
  mirrored: boolean,
): { readonly made: Shop; readonly points: readonly Point[] } => {
  const flip = (p: Point): Point => (mirrored ? { x: -p.x, y: p.y } : p);
  const truth = new Map(made.ids.map((id, i) => [id, flip(made.points[i] ?? { x: 0, y: 0 })]));
  const other = shop(truth, everyDistance(made.ids, 0.04), made.origin, up, made.kinds);
  return { made: other, points: settleFrame(made.ids, points.map(flip), made.origin, up) };
};

describe.each(scenes)('%s', (_name, truth) => {
  const ids = [...truth.keys()];
  const made = shopOf(truth, everyDistance(ids, 0.04));
  const points = measure(made, randomFrom(12));
  const { face, located } = faceOf(made, points);
  const layout = layoutFace(face, located);

  test('the odds add up to 1', () => {
    expect(layout.candidates.reduce((s, c) => s + c.odds, layout.asMeasured)).toBeCloseTo(1, 10);
    expect(layout.units.in + layout.units.mm + layout.units.mixed + layout.units.none).toBeCloseTo(1, 6);
  });

  test.each(['P2', 'P4'])('another feature up (%s) turns the frame and nothing else', (up) => {
    const other = reframed(made, points, up, false);
    const seen = faceOf(other.made, other.points);
    close(layoutFace(seen.face, seen.located), layout, 3);
  });

  test('the mirror image', () => {
    const other = reframed(made, points, 'P1', true);
    const seen = faceOf(other.made, other.points);
    close(layoutFace(seen.face, seen.located), layout, 3);
  });

  test('other names in another order', () => {
    const order = ids.map((_, i) => (i + 2) % ids.length).reverse();
    const to = new Map(order.map((k, i) => [ids[k] ?? '', `${String.fromCharCode(65 + ((i * 7) % 26))}${i}`]));
    const rows = order.flatMap((k) => [2 * k, 2 * k + 1]);
    const names = order.map((k) => to.get(ids[k] ?? '') ?? '');
    const shuffled = locatedOf(
      'face',
      { origin: to.get('spigot') ?? '', up: to.get('P1') ?? '' },
      names,
      order.map((k) => points[k] ?? { x: 0, y: 0 }),
      made.covariance.selection(rows, rows),
    );
    const renamed = {
      ...face,
      centre: to.get('spigot') ?? null,
      up: to.get('P1') ?? null,
      features: order.flatMap((k) => {
        const f = face.features[k];
        return f === undefined ? [] : [{ ...f, id: to.get(f.id) ?? '' }];
      }),
    };
    close(layoutFace(renamed, shuffled), layout, 5);
  });
});

describe('units of the file', () => {
  const job = (units: 'in' | 'mm', say: (mm: number) => string): string =>
    [
      'job: units',
      `units: ${units}`,
      `instruments: { caliper: ± ${say(0.05)} }`,
      'faces:',
      '  a:',
      '    centre: s',
      '    up: P1',
      '    features:',
      `      s: { kind: spigot, diameter: ${say(100)} }`,
      ...[0, 1, 3, 4, 6, 8, 9].map(
        (k, i) => `      P${i + 1}: { kind: stud, diameter: ${say(8)}, clock: ${k === 0 ? 12 : k} }`,
      ),
      '    readings:',
      ...readings.map(([a, b, mm]) => `      - centres ${a} ${b} = ${say(mm)} by caliper`),
    ].join('\n');
  const random = randomFrom(8);
  const places = [
    ['s', { x: 0, y: 0 }] as const,
    ...onDivisions(190.5, 12, [0, 1, 3, 4, 6, 8, 9]).map((p, i) => [`P${i + 1}`, p] as const),
  ];
  const readings = places.flatMap(([a, p], i) =>
    places.slice(i + 1).map(([b, q]) => [a, b, Math.hypot(p.x - q.x, p.y - q.y) + 0.025 * random.normal()] as const),
  );
  const layoutIn = (text: string): FaceLayout => {
    const read = readJob(text);
    if (!read.ok) throw new Error(JSON.stringify(read));
    const [face] = read.job.faces;
    if (face === undefined) throw new Error('no face');
    return layoutFace(face, locateFace({ face, instruments: read.job.instruments }, { next: false }));
  };

  test('the same readings written in inches give the same layout', () => {
    const inches = layoutIn(job('in', (mm) => (mm / INCH).toFixed(9)));
    close(inches, layoutIn(job('mm', (mm) => mm.toFixed(8))), 6);
    expect(inches.candidates[inches.chosen ?? -1]?.circles[0]?.size).toBe('7 1/2 in');
  });
});

describe('more readings', () => {
  test('another consistent reading does not lower the odds of the truth, on average', () => {
    const random = randomFrom(31);
    const truth = named(onDivisions(7.28125 * INCH, 8, [0, 1, 2, 4, 5, 7]));
    const ids = [...truth.keys()];
    const few = ringReadings(6, 0.2, 2);
    const [before, after] = [few, [...few, ...everyDistance(ids, 0.2).slice(0, 8)]].map((readings) =>
      shop(truth, readings, 'spigot', 'P1', kindsOf(ids)),
    );
    if (before === undefined || after === undefined) throw new Error('no shops');
    const oddsOf = (l: FaceLayout): number =>
      wholeDrawings(l).reduce(
        (s, c) =>
          s +
          (c.circles[0]?.size === '7 9/32 in' && c.circles[0].divisions === 8 && c.asMeasured.length === 0
            ? c.odds
            : 0),
        0,
      );
    const judged = (made: Shop, errors: readonly number[]): number => {
      const { face, located } = faceOf(made, measureWith(made, errors));
      return oddsOf(layoutFace(face, located, { telling: false }));
    };
    let gained = 0;
    const runs = 70;
    for (let k = 0; k < runs; k++) {
      const errors = Array.from({ length: few.length + 8 }, () => 0.2 * random.normal());
      gained += (judged(after, errors) - judged(before, errors.slice(0, few.length))) / runs;
    }
    expect(gained).toBeGreaterThan(0);
  });
});
