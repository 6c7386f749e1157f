import { type Report, distance, randomFrom, speechFor } from '@fayplate/core';
import type { LayoutSpec } from '@fayplate/job';
import { Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { layoutFace, layoutJson, layoutReport, wholeDrawings } from '../../src/index.js';
import { sayApart } from '../../src/words/candidate.js';
import { sayOdds } from '@fayplate/core';
import { faceOf, locatedOf, measure } from '../support/network.js';
import { INCH, clockwise, everyDistance, named, onDivisions, ringReadings, shopOf } from '../support/scenes.js';

const wordsOf = (report: Report): string =>
  report
    .map((b) =>
      b.kind === 'table'
        ? [b.caption ?? '', ...b.columns.map((c) => c.title), ...b.rows.flat()].join(' | ')
        : b.kind === 'list'
          ? b.items.join('\n')
          : b.text,
    )
    .join('\n');

const seen = (
  truth: ReturnType<typeof named>,
  sigma: number,
  seed: number,
  readings = everyDistance([...truth.keys()], sigma),
) => {
  const made = shopOf(truth, readings, (id) => (id.startsWith('D') ? 'dowel' : 'stud'));
  const { face, located } = faceOf(made, measure(made, randomFrom(seed)));
  const layout = layoutFace(face, located);
  return {
    layout,
    face,
    located,
    words: wordsOf(layoutReport(face, located, layout, speechFor('mm'))),
    inches: wordsOf(layoutReport(face, located, layout, speechFor('in'))),
  };
};

describe('a layout that is chosen', () => {
  const { words, inches, layout } = seen(named(onDivisions(7.5 * INCH, 12, [0, 2, 3, 5, 7, 9, 10])), 0.02, 1);

  test('says it first, with its odds', () => {
    expect(layout.chosen).toBe(0);
    expect(words.split('\n')[1]).toMatch(
      /^7 studs of 12 equal divisions on a 7 1\/2 in circle about spigot\. Odds: (?:more than )?\d+ in 1000\.$/,
    );
  });

  test('names what is vacant by the clock, and where it starts', () => {
    expect(words).toContain("P1 is at 12 o'clock. Vacant places of the circle: 1, 4, 6, 8 and 11 o'clock.");
  });

  test('says what would move, against its own ±, in the unit asked for', () => {
    expect(words).toMatch(/P\d would move 0\.\d{3} mm, (?:within|beyond) its ± 0\.\d{3} mm/);
    expect(inches).toMatch(/P\d would move 0\.\d{4} in, (?:within|beyond) its ± 0\.\d{4} in/);
  });

  test('says the unit, and what speaks against the second best', () => {
    expect(words).toMatch(/round sizes are in inches: odds/);
    expect(words).toMatch(/Second best: .*; odds .* Against it: /);
  });

  test('has no word of the statistician', () =>
    expect(words).not.toMatch(/posterior|likelihood|bayes|evidence|prior\b|covarian/i));
});

describe('patterns beside the spigot', () => {
  const corners = [
    [-38.1, 28.575],
    [60.325, 28.575],
    [60.325, -22.225],
    [-38.1, -22.225],
  ].map(([x = 0, y = 0]) => ({ x, y }));

  test('a rectangle: how far its middle is off, and that it is symmetrical about that and not about the spigot', () => {
    const { words } = seen(named(corners), 0.01, 6);
    expect(words.split('\n')[1]).toMatch(
      /^4 studs at the corners of a rectangle 3 7\/8 in × 2 in, its middle 7\/16 in along and 1\/8 in across its rows from spigot\./,
    );
    expect(words).toContain(' through its own middle.');
  });

  test('a row straight above it', () => {
    const { words } = seen(named([-1.5, -0.5, 0.5, 1.5].map((i) => ({ x: 26.9875 * i, y: 41.275 }))), 0.006, 6);
    expect(words.split('\n')[1]).toMatch(
      /^(?:Not sure enough to be taken: )?4 studs in a row, 1 1\/16 in apart, its middle 1 5\/8 in from spigot, square to the row\./,
    );
  });

  test('a circle: where its own centre is', () => {
    const { layout, words } = seen(
      named(onDivisions(7.5 * INCH, 8, [0, 1, 2, 3, 4, 5, 6, 7], { x: 3.7, y: -3.8 })),
      0.01,
      4,
    );
    const { x = 0, y = 0 } = layout.candidates[0]?.circles[0]?.centre ?? {};
    expect(words).toContain(
      `The circle has its own centre ${Math.hypot(x, y).toFixed(3)} mm from spigot, at X ${x.toFixed(3)}, Y ` +
        `${y.toFixed(3)}.`,
    );
  });

  test('coordinates alone say a unit', () => {
    const { layout } = seen(
      named(
        [
          [17, 44],
          [-31, 20],
          [25, -30],
          [-40, -13],
          [3, -47],
        ].map(([x = 0, y = 0]) => ({ x: (x * INCH) / 16, y: (y * INCH) / 16 })),
      ),
      0.02,
      4,
    );
    expect(layout.candidates[0]?.grid?.says).toBe('1/16 in');
    expect(layout.units.in).toBeGreaterThan(0.9);
  });

  test('two candidates that would read alike are told apart by a place', () => {
    const { layout } = seen(named(corners), 0.01, 6);
    const [c] = layout.candidates;
    if (c === undefined) throw new Error('no candidate');
    const moved = {
      ...c,
      features: new Map([...c.features].map(([id, f]) => [id, id === 'P3' ? { ...f, x: f.x + 1 } : f] as const)),
    };
    const [one = '', other = ''] = sayApart([c, moved], () => 'stud', { unit: 'mm', fraction: null });
    expect(one).toMatch(/ \(P3 at -?[\d.]+, -?[\d.]+\)$/);
    expect(one).not.toBe(other);
    expect(sayApart([c], () => 'stud', { unit: 'mm', fraction: null })[0]).not.toContain(' (');
  });
});

describe('a layout that is not sure', () => {
  const truth = named(onDivisions(186.928125, 8, [0, 1, 2, 4, 5, 7]));
  const { words, layout, ...face1 } = seen(truth, 0.1, 2, ringReadings(6, 0.1));

  test('says so, and which reading would settle it', () => {
    expect(layout.chosen).toBe(0);
    expect(layout.candidates[0]?.level).toBe('symmetry');
    expect(words.split('\n')[1]).toMatch(
      /^6 studs of 8 equal divisions about spigot \(sure: .*\)\. The circle measures \d+\.\d\d mm; .* is likely \(.*\)\.$/,
    );
    expect(layout.telling).not.toBeNull();
    expect(layout.telling?.expected).toBeGreaterThan(layout.telling?.now ?? 1);
    expect(words).toMatch(
      /Best next reading: (?:centres|over|between) P\d (?:P\d|spigot), .*Expected odds of the best layout after it: /,
    );
  });

  test('says how sure each level is, and takes the positions as far down as it is', () => {
    expect(layout.levels.map((l) => l.level)).toEqual(['divisions', 'centre', 'symmetry', 'size', 'system']);
    for (const [k, l] of layout.levels.entries()) {
      expect(l.taken).toBe(k < 3);
      expect(l.odds >= 0.95).toBe(k < 3);
      expect(l.odds).toBeLessThanOrEqual((layout.levels[k - 1]?.odds ?? 1) + 1e-9);
    }
    const [taken] = layout.candidates;
    // The size is free, so its places are uncertain outward, all together.
    expect(taken?.circles[0]?.size).toBeNull();
    expect(Math.max(...(taken?.pattern.covariance.flat() ?? []))).toBeGreaterThan(1e-4);
    expect((taken?.finer ?? []).reduce((s, c) => s + c.odds, 0)).toBeLessThanOrEqual((taken?.odds ?? 0) + 1e-9);
    expect(words).toContain('Size');
  });

  test('that reading, once taken, settles as much as was promised', () => {
    const t = layout.telling;
    if (t === null) throw new Error('no reading');
    const [, from = '', to = ''] = t.reading.split(' ');
    const { face, located } = face1;
    const ids = [...located.features.keys()];
    const points = ids.map((id) => located.features.get(id) ?? { x: 0, y: 0 });
    const covariance = new Matrix(located.covarianceOf(ids));
    const [i, j] = [ids.indexOf(from), ids.indexOf(to)];
    const [p, q] = [points[i] ?? { x: 0, y: 0 }, points[j] ?? { x: 0, y: 0 }];
    const apart = distance(p, q);
    const slopes = Matrix.zeros(1, 2 * ids.length);
    for (const [k, d] of [(p.x - q.x) / apart, (p.y - q.y) / apart].entries()) {
      slopes.set(0, 2 * i + k, d);
      slopes.set(0, 2 * j + k, -d);
    }
    const sigma = t.plusMinus / 2;
    const together = covariance.mmul(slopes.transpose());
    const gain = together.clone().mul(1 / (slopes.mmul(together).get(0, 0) + sigma ** 2));
    const after = covariance.clone().sub(gain.mmul(together.transpose()));
    const random = randomFrom(77);
    const likely = wholeDrawings(layout).filter((c) => c.odds > 0.005);
    const whole = likely.reduce((s, c) => s + c.odds, 0);
    let lead = 0;
    const runs = 150;
    for (let k = 0; k < runs; k++) {
      // A drawing by its odds, and what the reading would say of it; sizes that it leaves free are as they were
      // measured, give or take.
      let left = random.uniform() * whole;
      const meant = likely.find((c) => (left -= c.odds) < 0) ?? likely[0];
      if (meant === undefined) throw new Error('no candidate');
      const place = (id: string) => meant.pattern.points[meant.pattern.ids.indexOf(id)] ?? { x: 0, y: 0 };
      const size =
        meant.circles[0]?.size === null
          ? Math.sqrt(4 * (meant.pattern.covariance[3]?.[3] ?? 0)) *
            random.normal() *
            (distance(place(from), place(to)) / (meant.circles[0]?.diameter ?? 1))
          : 0;
      const says = distance(place(from), place(to)) + size + sigma * random.normal();
      const moved = points.map((at, n) => ({
        x: at.x + gain.get(2 * n, 0) * (says - apart),
        y: at.y + gain.get(2 * n + 1, 0) * (says - apart),
      }));
      const seenAfter = locatedOf(face.name, located.frame, ids, moved, after);
      lead += Math.max(...wholeDrawings(layoutFace(face, seenAfter, { telling: false })).map((c) => c.odds)) / runs;
    }
    expect(Math.abs(lead - t.expected)).toBeLessThan(0.05);
    expect(lead).toBeGreaterThan(t.now + 0.02);
  });
});

describe('what is sure of sizes that no reading tells apart', () => {
  test('100 mm and 3 15/16 in are no No: the circle is taken as measured', () => {
    const { words, layout } = seen(named(onDivisions(100, 6, [0, 1, 2, 3, 4, 5])), 0.03, 3);
    expect(
      wholeDrawings(layout)
        .slice(0, 2)
        .map((c) => c.circles[0]?.size),
    ).toEqual(['100 mm', '3 15/16 in']);
    expect(layout.telling).toBeNull();
    expect(layout.chosen).toBe(0);
    const [taken] = layout.candidates;
    expect(taken?.circles[0]?.diameter).toBeCloseTo(100, 1);
    expect(words).toContain('No single distance between two features would settle it, however well you read it.');
  });

  test('four holes that may be on a round circle or at the corners of a round square: four divisions either way', () => {
    const truth = named(
      [
        [28.575, 28.575],
        [-28.575, 28.575],
        [-28.575, -28.575],
        [28.575, -28.575],
      ].map(([x = 0, y = 0]) => ({ x, y })),
    );
    const { layout, words } = seen(truth, 0.05, 3);
    const whole = wholeDrawings(layout);
    expect(whole.some((c) => c.circles.length === 1) && whole.some((c) => c.arrays.length === 1)).toBe(true);
    expect(layout.chosen).toBe(0);
    expect(words).toMatch(/^4 studs .* about spigot \(sure: /m);
  });

  test('several circles, each as measured', () => {
    const truth = named([
      ...onDivisions(200, 6, [0, 1, 2, 3, 4, 5]),
      ...onDivisions(100, 5, [0, 1, 2, 3, 4], undefined, 13),
    ]);
    expect(seen(truth, 0.08, 3).words).toMatch(
      /^6 studs equally divided about spigot; 5 studs equally divided about spigot \(sure: .*\)\. .*It measures /m,
    );
  });
});

describe('a layout that the job asks for', () => {
  const { face, located } = seen(named(onDivisions(190.5, 6, [0, 1, 2, 3, 4, 5])), 0.03, 3);
  const layout = layoutFace(face, located);
  const wordsFor = (spec: LayoutSpec): string =>
    wordsOf(layoutReport({ ...face, layout: spec }, located, layout, speechFor('mm')));
  const stated = (diameter: number): LayoutSpec => ({
    kind: 'stated',
    circles: [{ diameter, divisions: 6, phase: null, about: null, features: null }],
    grid: null,
  });

  test('stated, and it fits: what the plate uses, and how well it fits', () => {
    expect(wordsFor(stated(190.5))).toMatch(
      /The plate uses the layout that the job states, 6 studs equally divided on a 7 1\/2 in circle about spigot: random error alone would be this bad \d+ in 1000? times\./,
    );
  });

  test('stated, and it does not fit: what disagrees', () => {
    expect(wordsFor(stated(191.5))).toMatch(
      /The job states a layout, but no plate can be made from it: .* does not fit the readings: P\d would move 0\.\d\d mm against its ± /,
    );
  });

  test('intended, where one is taken and where none is', () => {
    expect(wordsFor({ kind: 'intended' })).toContain(
      'The plate uses these positions: the job says `layout: intended`.',
    );
    const none = wordsOf(
      layoutReport({ ...face, layout: { kind: 'intended' } }, located, { ...layout, chosen: null }, speechFor('mm')),
    );
    expect(none).toContain(
      'The job says `layout: intended`, but no plate can be made from it: no layout is sure enough',
    );
  });

  test('measured: not a word', () => expect(wordsFor({ kind: 'measured' })).not.toMatch(/The plate uses|The job s/));
});

describe('other verdicts', () => {
  test('nothing simple', () => {
    const { words, face, located, layout } = seen(
      named(
        [
          [41, 33.3],
          [-47.2, 31.3],
          [60.2, -24.2],
          [-61.7, -27.7],
          [3, -72.7],
        ].map(([x = 0, y = 0]) => ({ x, y })),
      ),
      0.05,
      3,
    );
    expect(words.split('\n')[1]).toMatch(/^No simple layout fits: the centres are used as measured\. Odds: /);
    // The question of `layout` is answered by no; on paper a plate by the measured centres asked for none.
    const plain = { ...face, layout: { kind: 'measured' } } as const;
    const [asked, onPaper] = [{}, { atBench: true }].map((reader) =>
      layoutReport(plain, located, layout, { ...speechFor('mm'), ...reader }).find((b) => b.kind === 'verdict'),
    );
    expect(asked).toMatchObject({ kind: 'verdict', ok: false });
    expect(asked).not.toHaveProperty('needed');
    expect(onPaper).toMatchObject({ kind: 'verdict', needed: false });
  });

  test('rough work', () => {
    const random = randomFrom(4);
    const { words } = seen(
      named(
        onDivisions(190.5, 8, [0, 1, 2, 3, 4, 5, 6, 7]).map((p) => ({
          x: p.x + 0.4 * random.normal(),
          y: p.y + 0.4 * random.normal(),
        })),
      ),
      0.02,
      4,
    );
    expect(words.split('\n')[1]).toMatch(
      /^No layout is used: it is close to 8 studs equally divided .* miss their places by about 0\.\d+ mm, more than the readings allow\.$/,
    );
  });

  test('readings that may be wrong, and features that are loose, are named first to be settled', () => {
    const made = shopOf(named(onDivisions(160, 6, [0, 1, 2, 3, 4, 5])), ringReadings(6, 0.01, 2));
    const { face, located } = faceOf(made, measure(made, randomFrom(9)));
    const [spare] = face.features.slice(-1);
    if (spare === undefined) throw new Error('no feature');
    const suspect = {
      reading: '7',
      measures: 'length',
      standardized: 8,
      error: 2.54,
      detectable: 0.1,
      guess: null,
      moves: new Map(),
      tiedWith: [],
      slips: [],
    } as const;
    const doubtful = { ...located, suspects: [suspect], undetermined: ['P9'] };
    const wide = { ...face, features: [...face.features, { ...spare, id: 'P9' }] };
    const words = wordsOf(layoutReport(wide, doubtful, layoutFace(wide, doubtful), speechFor('mm')));
    expect(words).toContain('Reading 7 may be wrong: settle that first');
    expect(words).toContain('P9 is not fixed by the readings, and not used.');
  });

  test('more on a circle than divisions are looked for: nothing is said of how they are divided', () => {
    const truth = named(
      onDivisions(
        508,
        40,
        Array.from({ length: 40 }, (_, i) => i),
      ),
    );
    expect(seen(truth, 0.02, 5, ringReadings(40, 0.02, 2)).words.split('\n')[1]).toMatch(
      /40 studs on a 20 in circle about spigot, divided as measured/,
    );
  });

  test('more fasteners than anyone divides by hand', () => {
    const truth = named(
      onDivisions(
        600,
        97,
        Array.from({ length: 97 }, (_, i) => i),
      ),
    );
    const ring = ringReadings(97, 0.05, 2);
    expect(seen(truth, 0.05, 5, ring).words).toMatch(/^More than 96 holes and studs: no layout is searched for/m);
  });
});

describe('the document', () => {
  const truth = new Map([
    ...named(onDivisions(160, 6, [0, 1, 2, 3, 4, 5])),
    ['D1', clockwise(60, 30)] as const,
    ['D2', clockwise(60, 210)] as const,
  ]);
  const { layout } = seen(truth, 0.01, 6);
  const json = JSON.parse(JSON.stringify(layoutJson([layout]))) as {
    faces: Record<
      string,
      {
        candidates: {
          says: string;
          odds: number;
          circles: { phase: number; divisions: number; occupied: number[]; features: string[]; centre: number[] }[];
          mirror: { axis: number } | null;
          features: Record<string, { x: number; y: number; shift: number }>;
        }[];
        as_measured: number;
        chosen: number | null;
      }
    >;
  };
  const { face } = json.faces;

  test('has the fields that programs read, degrees and mm', () => {
    const [first] = face?.candidates ?? [];
    expect(first?.circles.map((c) => [c.divisions, c.features.length, c.occupied.length])).toEqual([
      [6, 6, 6],
      [2, 2, 2],
    ]);
    expect(first?.circles[0]?.phase).toBeCloseTo(0, 9);
    // The dowels stand 30° clockwise of 12 o'clock, within the half turn that two divisions allow.
    expect(first?.circles[1]?.phase).toBeCloseTo(30, 6);
    for (const c of first?.circles ?? []) expect(Math.abs(c.phase)).toBeLessThanOrEqual(180 / c.divisions);
    expect(first?.mirror?.axis).toBeCloseTo(60, 6);
    expect(first?.features['P2']?.x).toBeCloseTo(80 * Math.sin(Math.PI / 3), 6);
  });

  test('odds of all candidates and of as measured add up to 1', () => {
    expect((face?.candidates ?? []).reduce((s, c) => s + c.odds, face?.as_measured ?? 0)).toBeCloseTo(1, 9);
  });
});

describe('odds as a person says them', () => {
  test.each([
    [0.9999, 'more than 999 in 1000'],
    [0.9969, '996 in 1000'],
    [0.97, '97 in 100'],
    [0.5, '50 in 100'],
    [0.006, '6 in 1000'],
    [0.0001, 'less than 1 in 1000'],
  ])('%d', (odds, says) => expect(sayOdds(odds)).toBe(says));
});
