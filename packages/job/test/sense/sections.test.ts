import { describe, expect, test } from 'vitest';
import { jobOf, shop } from '../support.js';

const head = 'job: x\nunits: mm\n';
const faces = `faces:
  pump: { centre: S, features: { S: { kind: spigot, diameter: 60 }, A: { kind: stud, thread: M8 } } }
  motor: { centre: R, features: { R: { kind: bore, diameter: 50 }, D1: { kind: dowel, diameter: 6 }, D2: { kind: dowel, diameter: 6 } } }
`;
const plate = (lines: string) =>
  jobOf(`${head}${faces}plate:\n  between: [pump, motor]\n  thickness: 20\n${lines.replace(/^/gm, '  ')}\n`).plate;
const deg = Math.PI / 180;

describe('faces', () => {
  const face = (lines: string) => jobOf(shop([]).replace('    features:', `    ${lines}\n    features:`)).faces[0];
  test('looked at from outside, and laid out as measured, unless said', () =>
    expect(face('flange: 12')).toMatchObject({
      viewed: 'from outside',
      layout: { kind: 'measured' },
      flange: 12,
      centre: null,
      up: null,
      across: null,
      rim: [],
      standard: null,
      shaft: null,
    }));
  test('across, as words or a list', () => {
    expect(face('across: A C')?.across).toEqual(['A', 'C']);
    expect(face('across: [A, C]')?.across).toEqual(['A', 'C']);
  });
  test('a rim of places and features', () =>
    expect(face('rim: [ "(1, -2 in)", [3, 4], { feature: A, margin: 0 } ]')?.rim).toEqual([
      { at: { x: 1, y: -50.8 } },
      { at: { x: 3, y: 4 } },
      { feature: 'A', margin: 0 },
    ]));

  test.each([
    ['layout: intended', { kind: 'intended' }],
    [
      'layout: { circle: 7 1/2 in, divisions: 12 }',
      {
        kind: 'stated',
        circles: [{ diameter: 190.5, divisions: 12, about: null, phase: null, features: null }],
        grid: null,
      },
    ],
    [
      'layout: { divisions: 6, about: S, phase: 15 deg, features: [A, B] }',
      {
        kind: 'stated',
        circles: [
          { diameter: null, divisions: 6, about: 'S', phase: expect.closeTo(15 * deg, 12), features: ['A', 'B'] },
        ],
        grid: null,
      },
    ],
    [
      'layout: { divisions: 12, phase: "1:30" }',
      {
        kind: 'stated',
        circles: [{ diameter: null, divisions: 12, about: null, phase: expect.closeTo(45 * deg, 12), features: null }],
        grid: null,
      },
    ],
    [
      'layout: { circles: [ { circle: 80 }, { circle: 120, features: A B } ], grid: { step: 0.5, features: [C, D] } }',
      {
        kind: 'stated',
        circles: [
          { diameter: 80, divisions: null, about: null, phase: null, features: null },
          { diameter: 120, divisions: null, about: null, phase: null, features: ['A', 'B'] },
        ],
        grid: { step: 0.5, features: ['C', 'D'] },
      },
    ],
    ['layout: { grid: 1/32 in }', { kind: 'stated', circles: [], grid: { step: 0.79375, features: null } }],
  ])('%s', (line, layout) => expect(face(line)?.layout).toEqual(layout));
});

describe('the plate', () => {
  test('what is not said', () =>
    expect(plate('')).toMatchObject({
      clocking: { at: 0 },
      thickness: 20,
      bore: null,
      material: null,
      outline: { shape: 'follow', margin: 12, corner: null },
      limits: { web: null, edge: null },
      drilling: null,
      alignment: null,
      extras: [],
      parallel: null,
    }));

  test.each([
    ['clocking: 22.5', { clocking: { at: expect.closeTo(22.5 * deg, 12) } }],
    [
      'clocking: { search: -15 .. 15 deg }',
      { clocking: { search: [expect.closeTo(-15 * deg, 12), expect.closeTo(15 * deg, 12)] } },
    ],
    [
      'bore: { diameter: 4.250 in, side: B, depth: 3 }',
      { bore: { diameter: expect.closeTo(107.95, 9), side: 'B', depth: 3 } },
    ],
    ['bore: { diameter: 40, side: side A, depth: 3 }', { bore: { diameter: 40, side: 'A', depth: 3 } }],
    ['outline: round', { outline: { shape: 'round', margin: 12, diameter: null } }],
    ['outline: { shape: round, diameter: 300 }', { outline: { shape: 'round', margin: null, diameter: 300 } }],
    [
      'outline: { shape: rectangle, margin: 10, corner: 6 }',
      { outline: { shape: 'rectangle', margin: 10, corner: 6 } },
    ],
    ['outline: { like: pump }', { outline: { shape: 'like', face: 'pump', margin: 0 } }],
    ['limits: { web: 3 mm, edge: 1.5 d }', { limits: { web: 3, edge: { times: 1.5 } } }],
    ['limits: { edge: 1.5 }', { limits: { web: null, edge: { times: 1.5 } } }],
    ['limits: { edge: 12 mm }', { limits: { web: null, edge: { length: 12 } } }],
    ['drilling: ± 0.05 mm', { drilling: 0.05 }],
    ['parallel: ± 0.02', { parallel: 0.02 }],
    [
      'alignment: { offset: 0.1 mm, tilt: 0.1 deg }',
      { alignment: { offset: 0.1, tilt: expect.closeTo(0.1 * deg, 12) } },
    ],
    [
      'jacking: { thread: M8, circle: 150, clock: [3, 9] }',
      { extras: [{ what: 'jacking', thread: 'M8', circle: 150, clocks: [0, expect.closeTo(Math.PI, 12)] }] },
    ],
    [
      'lifting: { thread: M8, circle: 150, clock: 3 }',
      { extras: [{ what: 'lifting', thread: 'M8', circle: 150, clocks: [0] }] },
    ],
  ])('%s', (lines, part) => expect(plate(lines)).toMatchObject(part));

  test.each([
    [
      'pump: { register: 60.05 ± 0.01, depth: 3, fit: H7 }',
      'pump',
      { as: 'register', diameter: { value: 60.05, plusMinus: 0.01 }, depth: 3, fit: 'H7' },
    ],
    [
      'motor: { dowels: [D1, D2], second: slot }',
      'motor',
      { as: 'own dowels', features: ['D1', 'D2'], second: 'slot' },
    ],
    ['motor: { dowels: [D1, D2] }', 'motor', { as: 'own dowels', features: ['D1', 'D2'], second: 'round' }],
    ['motor: { dowels: 2, diameter: 8 mm }', 'motor', { as: 'new dowels', count: 2, diameter: 8 }],
  ])('locate %s', (line, face, spec) => expect(plate(`locate: { ${line} }`)?.locate.get(face)).toEqual(spec));

  const plain = {
    as: 'clearance',
    fit: 'normal',
    head: null,
    sunk: 'none',
    thread: null,
    engagement: null,
    blind: false,
    washer: null,
    own: null,
    except: new Map(),
  };
  test.each([
    ['{ as: clearance }', plain],
    [
      '{ as: clearance, fit: loose, nut: counterbored, washer: true }',
      { ...plain, fit: 'loose', head: 'nut', sunk: 'counterbored', washer: true },
    ],
    ['{ as: clearance, cap screw: spotfaced }', { ...plain, head: 'cap screw', sunk: 'spotfaced' }],
    ['{ as: clearance, countersunk screw: countersunk }', { ...plain, head: 'countersunk screw', sunk: 'countersunk' }],
    ['{ as: clearance, nut: plain }', { ...plain, head: 'nut' }],
    [
      '{ as: tapped, thread: M10, engagement: 1.5 d, blind: true }',
      { ...plain, as: 'tapped', thread: 'M10', engagement: { times: 1.5 }, blind: true },
    ],
    [
      '{ as: tapped, thread: M10, engagement: 1.5 }',
      { ...plain, as: 'tapped', thread: 'M10', engagement: { times: 1.5 } },
    ],
    ['{ as: set stud, engagement: 12 mm }', { ...plain, as: 'set stud', engagement: { length: 12 } }],
    ['{ as: clearance, except: { A: none } }', { ...plain, except: new Map([['A', 'none']]) }],
    ['{ as: clearance, except: { A: tapped } }', { ...plain, except: new Map([['A', 'tapped']]) }],
  ])('fasten %s', (written, spec) => expect(plate(`fasten: { pump: ${written} }`)?.fasten.get('pump')).toEqual(spec));
});

describe('the stack', () => {
  const stack = (links: string, rest = '') =>
    jobOf(`${head}stack:\n  links:\n${links.replace(/^/gm, '    ')}\n${rest}`).stack;
  test('links, the one looked for, shims and limits', () =>
    expect(
      stack(
        'reach: 61.2 ± 0.2\ncap washer: 1/16 in ± 0.004 in\nplate: { find: 12 .. 30, made: ± 0.05 mm }\nshims: { ' +
          'from: [0.1, 0.25 mm], at most: 4 }',
        '  limits:\n    tip gap: { sum: 2 reach - plate + 2 * cap washer ' +
          '- reach, least: -1, most: 3 }\n  on hand: [20, 1 in]\n',
      ),
    ).toMatchObject({
      links: [
        { name: 'reach', value: 61.2, plusMinus: 0.2 },
        { name: 'cap washer', value: 1.5875, plusMinus: expect.closeTo(0.1016, 12) },
      ],
      unknown: { name: 'plate', from: 12, to: 30, made: 0.05 },
      shims: { from: [0.1, 0.25], atMost: 4 },
      onHand: [20, 25.4],
      limits: [
        {
          name: 'tip gap',
          sum: new Map([
            ['reach', 1],
            ['plate', -1],
            ['cap washer', 2],
          ]),
          least: -1,
          most: 3,
        },
      ],
    }));
  test.each(['plate: { find: 1 .. 2, on hand: [5] }', 'plate: { find: 1 .. 2 }\non hand: [5]'])(
    'thicknesses on hand may stand with the link or beside the links: %j',
    (links) => expect(stack(links)?.onHand).toEqual([5]),
  );
  test('any link may be the one looked for', () =>
    expect(stack('shim ring: { find: 1 .. 2 }')?.unknown.name).toBe('shim ring'));
});

describe('the rest', () => {
  test('machine', () =>
    expect(
      jobOf(
        `${head}machine: { step: 0.01, top speed: 2500, screw pitch: 5, backlash: approach from -x +y, drills: ` +
          '["#7", F, 13/32, 8.5, 8.5 mm, no 7], punches: [3/8], reamers: [8], dividing head: { ratio: 40, circles: ' +
          '[15, 18] }, tip: 6, blank: { width: 200, height: 150 }, allowance: 4, safe plane: 60, outline: { cutter: ' +
          `10, tabs: 3, leave: 0.2 }, room: 400, clamps: [ { from: [0, 0], to: [10, 20] } ] }\n`,
      ).machine,
    ).toEqual({
      step: 0.01,
      topSpeed: 2500,
      screwPitch: 5,
      backlash: { x: -1, y: 1 },
      // 0.2010 and 0.2570 in: ASME B94.11M number and letter drills.
      drills: [
        { name: '#7', diameter: expect.closeTo(0.201 * 25.4, 9) },
        { name: 'F', diameter: expect.closeTo(0.257 * 25.4, 9) },
        { name: '13/32', diameter: expect.closeTo(13 / 32, 9) },
        { name: '8.5 mm', diameter: 8.5 },
        { name: '8.5 mm', diameter: 8.5 },
        { name: '#7', diameter: expect.closeTo(0.201 * 25.4, 9) },
      ],
      punches: [{ name: '3/8', diameter: 0.375 }],
      reamers: [{ name: '8 mm', diameter: 8 }],
      dividingHead: { ratio: 40, circles: [15, 18] },
      tip: 6,
      blank: { width: 200, height: 150, thickness: null },
      allowance: 4,
      safePlane: 60,
      outline: { cutter: 10, tabs: 3, leave: 0.2 },
      room: 400,
      clamps: [{ from: { x: 0, y: 0 }, to: { x: 10, y: 20 } }],
    }));
  test('in a job in inches a whole number is a number drill, and a fraction is inches', () =>
    expect(jobOf('job: x\nunits: in\nmachine: { drills: [7, 13/32] }\n').machine?.drills).toEqual([
      { name: '#7', diameter: expect.closeTo(0.201 * 25.4, 9) },
      { name: '13/32', diameter: expect.closeTo((13 / 32) * 25.4, 9) },
    ]));
  test('gaskets', () => {
    const job = jobOf(
      `${head}${faces}gaskets:\n  pump: { hole clearance: 1/32 in, ` +
        `bore: 6 1/8 in, outline: { like: motor } }\n  motor: {}\n`,
    );
    expect(job.gaskets).toEqual([
      { face: 'pump', holeClearance: 0.79375, bore: expect.closeTo(155.575, 9), outline: { like: 'motor' } },
      { face: 'motor', holeClearance: 0.79375, bore: null, outline: 'follow' },
    ]);
  });
  test('the drilled plate: its holes are those that its readings name', () => {
    const { drilled } = jobOf(
      `${head}instruments: { c: ± 0.05 }\ndrilled:\n  viewed: from side A\n  up: H2\n  readings:\n    - over H1 ` +
        `H10 = 200 by c\n    - dia H2 = 9 by c\n`,
    );
    expect(drilled?.viewed).toBe('from side A');
    expect(drilled?.features.map((f) => [f.id, f.kind, f.diameter])).toEqual([
      ['H1', 'hole', null],
      ['H2', 'hole', null],
      ['H10', 'hole', null],
    ]);
  });
  test('print', () =>
    expect(jobOf(`${head}print: { paper: A4, margin: 8 mm, overlap: 10, printer: workshop-laser }\n`).print).toEqual({
      paper: 'A4',
      margin: 8,
      overlap: 10,
      printer: 'workshop-laser',
    }));
  test('sections may stand empty', () => {
    const job = jobOf(`${head}instruments:\nfaces:\nprint:\ngaskets:\ndrilled:\nmachine:\nstack:\nplate:\n`);
    expect([job.plate, job.stack, job.machine, job.drilled, job.print, job.faces.length]).toEqual([
      null,
      null,
      null,
      null,
      null,
      0,
    ]);
  });
});
