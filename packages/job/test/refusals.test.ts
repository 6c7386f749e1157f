import { describe, expect, test } from 'vitest';
import { readJob } from '../src/index.js';
import { faultsOf, refusal, refusals, told } from './support.js';

const base = `job: bench
units: mm
instruments:
  rule: ± 0.5 mm
faces:
  pump:
    centre: S
    up: A
    features:
      S: { kind: spigot, diameter: 60 }
      A: { kind: stud, thread: M8, diameter: 8, clock: 12 }
      B: { kind: stud, thread: M8, diameter: 8, clock: 4 }
    readings:
      - over A B = 40 by rule
  motor:
    centre: R
    features:
      R: { kind: bore, diameter: 50 }
      M1: { kind: hole, thread: M10 }
      D1: { kind: dowel, diameter: 6 }
      D2: { kind: dowel, diameter: 6 }
stack:
  links:
    reach: 61.2 ± 0.2
    plate: { find: 12 .. 30 }
  limits:
    gap: { sum: reach - plate, least: 25 }
plate:
  between: [pump, motor]
  thickness: from stack
  bore: { diameter: 40, side: through }
  locate:
    pump: { register: 60.05, depth: 3 }
    motor: { dowels: [D1, D2], second: slot }
  fasten:
    pump: { as: clearance, fit: normal }
    motor: { as: tapped, thread: M10 }
  outline: { shape: follow, margin: 12 }
`;

/** One thing changed in a sound job; where it is refused, in which words, with which near name. */
type Change = [from: string, to: string, expected: RegExp, nearest?: string];

const changed = (from: string, to: string): string => {
  expect(base).toContain(from);
  return base.replace(from, () => to);
};

test('the job reads as it stands', () => expect(faultsOf(readJob(base))).toEqual([]));

describe('the top of the file', () => {
  test.each<Change>([
    ['units: mm', 'units: «inch»', /one of: in, mm/, 'in'],
    ['job: bench', 'job: «[a]»', /the name of the job/],
    ['job: bench', `job: «${'x'.repeat(201)}`, /at most 200 characters/],
  ])('%s → %s', (from, to, expected, nearest) => expect(refusal(changed(from, to))).toEqual(told(expected, nearest)));

  test.each(['job', 'units'])('%s must be there', (key) => {
    const [fault, ...more] = faultsOf(readJob(base.replace(new RegExp(`^${key}: .*\n`, 'm'), '')));
    expect(fault?.expected).toMatch(new RegExp(`^\`${key}\` as well: `));
    expect([fault?.line, fault?.column, more]).toEqual([1, 1, []]);
  });
  test('a section under another name, and nothing of what it would make unknown', () => {
    const faults = faultsOf(readJob(base.replace('instruments:', 'instrument:')));
    expect(faults.map((f) => [f.line, f.found, f.nearest])).toEqual([[3, 'instrument', 'instruments']]);
  });
});

describe('values', () => {
  test.each<Change>([
    ['± 0.5 mm', '«± 0»', /a ± above zero/],
    ['± 0.5 mm', '«± 0,5 mm»', /a decimal point, not a comma: 0.5/],
    ['± 0.5 mm', '{ each: 0.5 mm, zero: «± 1 deg» }', /a length, as `each` is one/],
    ['  rule: ± 0.5 mm', '  «rule»: { zero: 0.5 mm }', /`each` as well/],
    ['diameter: 60 }', 'diameter: «0» }', /a length above zero/],
    ['diameter: 60 }', 'diameter: «-60» }', /a length above zero/],
    ['diameter: 60 }', 'diameter: «.nan» }', /a number such as/],
    ['diameter: 60 }', 'diameter: «.inf» }', /a number such as/],
    ['diameter: 60 }', 'diameter: «-.inf» }', /a number such as/],
    ['diameter: 60 }', 'diameter: «NaN» }', /a number such as/],
    ['diameter: 60 }', 'diameter: «0x10» }', /a number such as/],
    ['diameter: 60 }', 'diameter: «1e3» }', /without an exponent/],
    ['diameter: 60 }', 'diameter: «100000.1» }', /no more than 100 m/],
    ['diameter: 60 }', 'diameter: «60 ± -1» }', /above zero/],
    ['diameter: 60 }', `diameter: «"${'9'.repeat(90)}"» }`.replace('»', ''), /at most 80 characters/],
    ['diameter: 60 }', 'diameter: 60, «5» }', /a decimal point, not a comma/],
    ['diameter: 60 }', 'diameter: «[60]» }', /a length such as/],
    ['diameter: 60 }', 'diameter: «true» }', /a number such as/],
    ['clock: 4', 'clock: «25»', /a clock position from 12 round to 11:59/],
    ['clock: 4', 'clock: «4:75»', /a clock position/],
    ['find: 12 .. 30', 'find: «30 .. 12»', /the lesser end of the range first/],
    ['find: 12 .. 30', 'find: «12 - 30»', /a range such as/],
    ['reach: 61.2 ± 0.2', 'reach: «61.2»', /its ± as well/],
    ['thickness: from stack', 'thickness: «from the stack»', /"from stack", "from old" or/],
    ['thickness: from stack', 'thickness: «0»', /"from stack", "from old" or a length above zero/],
  ])('%s → %s', (from, to, expected, nearest) => expect(refusal(changed(from, to))).toEqual(told(expected, nearest)));

  test('a name with nothing behind it', () =>
    expect(faultsOf(readJob(base.replace('rule: ± 0.5 mm', 'rule:')))[0]).toMatchObject({ line: 4, found: '' }));
});

describe('faces', () => {
  test.each<Change>([
    ['centre: S', 'centre: «T»', /a feature of this face: S, A, B/],
    ['up: A', 'up: «AA»', /a feature of this face/, 'A'],
    ['up: A', 'up: «S»', /another feature than `centre`/],
    ['up: A', 'up: A\n    across: «A B»', /`up` or `across`, not both/],
    ['up: A', 'across: «A»', /two features/],
    ['up: A', 'across: «A A»', /two different features/],
    ['up: A', 'across: A «Q7»', /a feature of this face/],
    ['up: A', 'up: A\n    viewed: «from front»', /one of: from outside, from behind/],
    ['up: A', 'up: A\n    shaft: «C»', /a feature of this face/],
    ['up: A', 'up: A\n    rim: [«hello»]', /a place such as|a place in brackets/],
    ['up: A', 'up: A\n    rim: [{ feature: «C», margin: 3 }]', /a feature of this face/],
    ['up: A', 'up: A\n    layout: «round»', /one of: measured, intended/],
    ['up: A', 'up: A\n    layout: «{ }»', /a circle, circles or a grid/],
    ['up: A', 'up: A\n    layout: { circle: 80, divisions: «0» }', /a whole number from 1 to 360/],
    ['up: A', 'up: A\n    layout: { circle: 80, about: «C» }', /a feature of this face/],
    ['up: A', 'up: A\n    layout: { circle: 80, phase: «10 deg» }', /`divisions` as well/],
    ['up: A', 'up: A\n    layout: { circle: 80, features: [A, B, «C»] }', /a feature of this face/],
    ['up: A', 'up: A\n    layout: { circle: 80, «divsions»: 3 }', /one of the keys circle, divisions/, 'divisions'],
    ['kind: spigot', 'kind: «spiggot»', /one of: hole, stud/, 'spigot'],
    [
      '{ kind: stud, thread: M8, diameter: 8, clock: 12 }',
      '{ «knd»: stud, kind: stud, diameter: 8 }',
      /one of the keys kind/,
      'kind',
    ],
    ['thread: M10 }', 'thread: «M99» }', /a thread of the tables/, 'M9'],
    ['kind: dowel, diameter: 6 }', 'kind: dowel, diameter: 6, thread: «M6» }', /a thread on a stud or a hole only/],
    ['kind: dowel, diameter: 6 }', 'kind: dowel, diameter: 6, deep: «6» }', /"deep" on a hole or a bore only/],
    ['      B:', '      E: { kind: edge, diameter: «6» }\n      B:', /an edge is straight/],
    ['      B: { kind: stud, thread: M8,', '      «B»: { thread: M8,', /`kind` as well: one of: hole/],
    ['clock: 4 }', 'clock: 4, vacant: «maybe» }', /true or false/],
  ])('%s → %s', (from, to, expected, nearest) => expect(refusal(changed(from, to))).toEqual(told(expected, nearest)));
});

describe('radii', () => {
  const withHole = (readings: readonly string[], thread = ''): string =>
    base
      .replace('      - over A B = 40 by rule\n', readings.map((r) => `      - ${r}\n`).join(''))
      .replace('      B:', `      H: { kind: hole${thread} }\n      B:`);

  test('needed where a reading reaches the rim', () =>
    expect(refusal(withHole(['over A «H» = 40 by rule', 'over B H = 40 by rule']))).toEqual(
      told(/the diameter of H as well: "over" reaches its rim/),
    ));
  test.each([
    [['centres A H = 40 by rule', 'offset H A-B = 3 by rule', 'at H = (1, 2) by rule']],
    [['over A H = 40 by rule', 'dia H = 9 by rule']],
    [['over A H = 40 by rule', 'touch H = (1, 2) by rule', 'touch H = (1, 3) by rule', 'touch H = (2, 2) by rule']],
    [['aside over A H = 40 by rule']],
  ])('not needed: %j', (readings) => expect(faultsOf(readJob(withHole(readings)))).toEqual([]));
  test('a reading of the diameter that is set aside does not count', () =>
    expect(refusal(withHole(['over A «H» = 40 by rule', 'aside dia H = 9 by rule']))).toEqual(
      told(/the diameter of H/),
    ));
  test('two touches do not make a circle', () =>
    expect(refusal(withHole(['touch «H» = (1, 2) by rule', 'touch H = (1, 3) by rule']))).toEqual(
      told(/three `touch` readings/),
    ));
  test('not asked for where the line that gives it cannot be read', () =>
    expect(refusal(withHole(['over A H = 40 by rule', 'dia H = 9 by «rul»']))).toEqual(told(/an instrument/, 'rule')));
  test('a thread gives one', () =>
    expect(faultsOf(readJob(withHole(['over A H = 40 by rule'], ', thread: M8')))).toEqual([]));
  test('nothing is read off an edge', () =>
    expect(
      refusal(base.replace('      B:', '      E: { kind: edge }\n      B:').replace('over A B', 'wall A «E»')),
    ).toEqual(told(/a round feature/)));
});

test('a slip in `between` is one fault, and its names below it are none', () => {
  const read = readJob(
    [
      'job: Fan',
      'units: mm',
      'faces:',
      '  fan: { features: { A: { kind: bore, diameter: 40 } } }',
      '  post: { centre: B, features: { B: { kind: bore, diameter: 40 } } }',
      'plate: { between: [fan, pots], thickness: 10, locate: { post: { register: 40, depth: 3 } } }',
    ].join('\n'),
  );
  expect(read.ok ? [] : read.faults.map((f) => [f.path, f.nearest])).toEqual([['plate.between.1', 'post']]);
});

describe('the plate', () => {
  test.each<Change>([
    ['between: [pump, motor]', 'between: [pump, «moter»]', /a face of the job: pump, motor/, 'motor'],
    ['between: [pump, motor]', 'between: [pump, «pump»]', /another face than the first/],
    ['between: [pump, motor]', 'between: «[pump]»', /two faces/],
    ['between: [pump, motor]', 'between: «pump»', /two faces in brackets/],
    ['side: through', 'side: «C»', /one of: A, B, through/],
    ['side: through', 'side: «A»', /`depth` as well/],
    ['side: through', 'side: through, depth: «3»', /no depth: the bore goes through/],
    ['    motor: { dowels', '    «moter»: { dowels', /one of the two faces of `between`/, 'motor'],
    ['dowels: [D1, D2]', 'dowels: [D1, «D3»]', /a dowel of motor/, 'D1'],
    ['dowels: [D1, D2]', 'dowels: [D1, «R»]', /a dowel or a hole for one: R is a bore/],
    ['dowels: [D1, D2]', 'dowels: [D1, «D1»]', /each dowel once only/],
    ['dowels: [D1, D2], second: slot', 'dowels: «2»', /`diameter` of the new dowels as well/],
    ['dowels: [D1, D2]', 'register: 50, dowels: «[D1, D2]»', /one dowel beside a register/],
    [
      '    motor: { dowels: [D1, D2], second: slot }',
      '    «motor»: { second: slot }',
      /`register: DIAMETER`, or `dowels:`/,
    ],
    ['depth: 3 }', 'depth: 3, fit: «snug» }', /a tolerance class such as H7/],
    ['depth: 3 }', 'depth: 3, second: «slot» }', /no such key beside `register`/],
    ['    motor: { as', '    «fan»: { as', /one of the two faces of `between`/],
    ['as: tapped', 'as: «taped»', /one of: clearance, tapped, set stud/, 'tapped'],
    ['fit: normal', 'fit: «tight»', /one of: close, normal, loose/],
    ['fit: normal', 'fit: normal, blind: «true»', /a clearance hole goes through/],
    ['fit: normal', 'fit: normal, engagement: «1 d»', /a clearance hole has no thread/],
    ['fit: normal', 'fit: normal, nut: plain, cap screw: «plain»', /one kind of nut or head only/],
    ['fit: normal', 'fit: normal, except: { «C»: none }', /a feature of pump/],
    ['fit: normal', 'fit: normal, except: { B: «skip» }', /one of: none, clearance/],
    ['thread: M10 }\n  outline', 'thread: «M10x9» }\n  outline', /a thread of the tables/, 'M10x1'],
    ['shape: follow', 'shape: «star»', /one of: follow, round, rectangle, like/],
    ['shape: follow', 'shape: follow, diameter: «300»', /a follow outline takes a margin/],
    ['shape: follow, margin: 12', 'like: «fan», margin: 3', /a face of the job/],
    ['shape: follow, margin: 12', 'shape: round, diameter: 300, margin: «12»', /a diameter or a margin, not both/],
    ['  outline:', '  limits: { edge: «1.5 x» }\n  outline:', /a number of diameters/],
    ['  outline:', '  clocking: { search: «15 .. -15 deg» }\n  outline:', /the lesser end/],
    ['  outline:', '  drilling: «± 0»\n  outline:', /a ± above zero/],
    ['  outline:', '  «tickness»: 3\n  outline:', /one of the keys between/, 'thickness'],
    [
      '  outline:',
      '  jacking: { thread: «M8.5», circle: 100, clock: [2, 8] }\n  outline:',
      /a thread of the tables/,
      'M2.5',
    ],
  ])('%s → %s', (from, to, expected, nearest) => {
    expect(refusals(changed(from, to))).toContainEqual(told(expected, nearest));
  });

  test('a register needs a centre', () => {
    const fault = faultsOf(
      readJob(base.replace('    centre: R\n', '').replace('dowels: [D1, D2], second: slot', 'register: 50')),
    )[0];
    expect(fault?.expected).toMatch(/`centre` of motor as well/);
  });
  test('a tapped hole needs a thread from somewhere', () => {
    const bare = base.replace('M1: { kind: hole, thread: M10 }', 'M1: { kind: hole }');
    expect(faultsOf(readJob(bare))).toEqual([]);
    expect(faultsOf(readJob(bare.replace('as: tapped, thread: M10', 'as: tapped')))[0]?.expected).toMatch(
      /`thread` as well: M1 of motor names none/,
    );
  });
});

describe('the stack', () => {
  test.each<Change>([
    ['sum: reach - plate', 'sum: reach - «plat»', /a link of the stack: reach, plate/, 'plate'],
    ['sum: reach - plate', 'sum: reach - plate - «shims»', /shims lie with the plate/],
    ['sum: reach - plate', 'sum: reach - plate -«»', /a link after/],
    ['sum: reach - plate', 'sum: «reach - reach»', /links that do not cancel/],
    ['    gap: { sum: reach - plate, least: 25 }', '    «gap»: { sum: reach - plate }', /`least` or `most`, or both/],
    ['least: 25', 'least: 25, most: «3»', /`most` not below `least`/],
    ['least: 25', '«lest»: 25', /one of the keys sum, least, most/, 'least'],
    ['    plate: {', '    other: { find: 1 .. 2 }\n    «plate»: {', /one link only with `find`/],
    ['reach: 61.2 ± 0.2', '«a-b»: 1 ± 0.1\n    reach: 61.2 ± 0.2', /words may be separated by one space$/],
    ['  limits:\n    gap', '  on hand: [«0»]\n  limits:\n    gap', /a length above zero/],
  ])('%s → %s', (from, to, expected, nearest) => {
    expect(refusals(changed(from, to))).toContainEqual(told(expected, nearest));
  });

  test('nothing looked for', () =>
    expect(faultsOf(readJob(base.replace('{ find: 12 .. 30 }', '20 ± 0.1')))[0]?.expected).toMatch(
      /one link that is looked for/,
    ));
});

describe('gaskets, machine and print', () => {
  test.each([
    ['gaskets: { «pmp»: { bore: 3 } }', /a face of the job/, 'pump'],
    ['gaskets: { pump: { outline: «square» } }', /one of: plate, follow/, null],
    ['gaskets: { pump: { outline: { like: «fan» } } }', /a face of the job/, null],
    ['gaskets: { pump: { hole clearance: «-1» } }', /not below zero/, null],
    ['machine: { «stp»: 1 }', /one of the keys step/, 'step'],
    ['machine: { top speed: «fast» }', /a whole number/, null],
    ['machine: { backlash: «left» }', /approach from -x -y/, null],
    ['machine: { drills: [«zz»] }', /a size such as/, null],
    ['machine: { dividing head: { ratio: 40, circles: [«0»] } }', /a whole number from 1/, null],
    ['machine: { outline: { cutter: «0» } }', /above zero/, null],
    ['machine: { «outline»: { tabs: 4 } }', /cutter/, null],
    ['machine: { outline: { cutter: 10, tabs: «many» } }', /a whole number/, null],
    ['machine: { outline: { cutter: 10, «taps»: 4 } }', /one of the keys cutter/, 'tabs'],
    ['print: { «papr»: A4 }', /one of the keys paper/, 'paper'],
    ['print: { paper: «A44» }', /a paper size such as/, 'A4'],
    ['print: { margin: «wide» }', /a number such as/, null],
    ['work: { a: { face: «pmp», shorten: A, to: 3 } }', /a face of the job/, 'pump'],
    ['work: { a: { face: pump, open: «Z9», to: 3 } }', /a feature of pump/, null],
    ['work: { a: { face: pump, relieve: «A», to: flush } }', /a boss or spigot; A is a stud/, null],
    ['work: { a: { face: motor, open: M1, to: «flash» } }', /flush|a number such as/, null],
    ['work: { a: { face: motor, open: M1, to: 12, done: «maybe» } }', /yes or no/, null],
    ['work: { a: { face: pump, shorten: shaft, to: 3, link: «rech» } }', /a link of the stack/, 'reach'],
    ['drawing: { «revsion»: B }', /one of the keys number/, 'revision'],
    ['drawing: { standard: «DIN» }', /one of: ISO, ASME/, null],
    ['drawing: { edges: «sharp» }', /a number such as/, null],
    ['drilled: { viewed: «from outside» }', /one of: from side A, from side B/, null],
    ['drilled: { readings: [over H1 «P4» = 3 by rule] }', /a hole of the plate, H1, H2/, null],
    ['drilled: { from: «7K2Q F9M3» }', /a fingerprint such as 7K2Q-F9M3/, null],
    ['drilled: { so far: [H1, «P4»] }', /a hole of the plate, H1, H2/, null],
    ['drilled: { so far: [H1, H2, «H1»] }', /each hole once only/, null],
    ['drilled: { so far: «[]» }', /the holes that are drilled/, null],
    ['drilled: { so far: [H1, H2], readings: [over H1 «H5» = 30 by rule] }', /H5 is not among those of `so far`/, null],
  ] as const)('%s', (line, expected, nearest) => {
    expect(refusal(`${base}${line}\n`)).toEqual(told(expected, nearest));
  });
});

test('all faults of a file are told together, in its order', () => {
  const broken = base
    .replace('kind: spigot', 'kind: spiggot')
    .replace('diameter: 8, clock: 4', 'diameter: 8 furlong')
    .replace('by rule', 'by rul')
    .replace('plate, least', 'plat, least')
    .replace('as: tapped', 'as: taped');
  const faults = faultsOf(readJob(broken));
  expect(faults.map((f) => f.nearest)).toEqual(['spigot', null, 'rule', 'plate', 'tapped']);
  expect(faults.map((f) => f.line)).toEqual(faults.map((f) => f.line).sort((a, b) => a - b));
  expect(faults.map((f) => f.path)).toEqual([
    'faces.pump.features.S.kind',
    'faces.pump.features.B.diameter',
    'faces.pump.readings.0',
    'stack.limits.gap.sum',
    'plate.fasten.motor.as',
  ]);
});

describe('two pieces', () => {
  const two =
    'outline: { shape: follow, margin: 12 }\n  pieces: { first: 12, screws: { thread: M8, circle: 190, clock: [1, ' +
    '7] }, dowels: { diameter: 8, circle: 190, clock: [2, 8] } }';
  const with2 = (from: string, to: string): string =>
    base
      .replace('thickness: from stack', 'thickness: 30')
      .replace('outline: { shape: follow, margin: 12 }', two)
      .replace(from, to);
  test('as it stands', () => expect(readJob(with2('', '')).ok).toBe(true));
  test.each([
    ['first: 12', 'first: 30', /less than the thickness of the whole plate/],
    ['clock: [1, 7]', 'clock: [1]', /two screws or more/],
    ['clock: [2, 8]', 'clock: [2]', /two dowels or more/],
    ['first: 12', 'first: 12, names: [a, a]', /two different names/],
    ['first: 12', 'first: 12, names: [pump, b]', /another name than the part's/],
    ['thread: M8', 'thread: M8q', /thread/],
  ])('%s → %s', (from, to, expected) =>
    expect(
      faultsOf(readJob(with2(from, to)))
        .map((f) => f.expected)
        .join('; '),
    ).toMatch(expected),
  );
});
