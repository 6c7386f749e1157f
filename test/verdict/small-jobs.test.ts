import { describe, expect, test } from 'vitest';
import { change, sound, verdictOf } from './job.js';

test('the sound job is Yes, with nothing open but notes', async () => {
  const said = await verdictOf(sound);
  expect(said.open).toEqual([]);
  expect([said.answer, said.exit]).toEqual(['yes', 0]);
  expect(said.first).not.toMatch(/checks hold/);
});

const withPort = (x: number, y: number): string =>
  change(
    ['P1: { kind', 'oil: { kind: bore, diameter: 6 }\n      P1: { kind'],
    ['      - at P1 =', `      - at oil = (${x}, ${y}) by readout\n      - at P1 =`],
  );
const withBoss = change(
  ['P1: { kind', 'B: { kind: boss, diameter: 10, height: 5 }\n      P1: { kind'],
  ['      - at P1 =', '      - at B = (38, 38) by readout\n      - at P1 ='],
);
const withDrain = change([
  '  drilling:',
  '  cuts: { drain: { hole: 6 mm, at: [47 mm, 28 mm], face: pump } }\n  drilling:',
]);
/** A job with a gasket on its pump that the stack knows. */
const gasketed = (gasket: string, job: string): string =>
  `${job.replace('    mouth:', '    pump gasket: 0.1 ± 0.1\n    mouth:')}gaskets: ` +
  `{ pump: { hole clearance: 1, ${gasket} } }\n`;

/** The sound job with its shafts apart, and cuts besides. */
const apart = (cuts: string): string =>
  change(
    ['  drilling:', `${cuts}  shafts: { apart: 180 mm ± 1 mm, toward: 0 deg }\n  drilling:`],
    ['outline: { shape: round, margin: 12 }', 'outline: { shape: follow, margin: 30 }'],
  );

/** The sound job with one fault: what is wrong, how the job is changed, the answer, and what must be said. */
const faults: readonly (readonly [what: string, job: string, answer: 'no' | 'not yet', says: RegExp])[] = [
  [
    'a plate thicker than the stack allows',
    change(['thickness: 20', 'thickness: 24.5']),
    'no',
    /engagement is 29\.30 mm.*0\.70 mm too little/,
  ],
  [
    'a plate thinner than the stack allows',
    change(['thickness: 20', 'thickness: 17'], ['stands: 19', 'stands: 16']),
    'no',
    /tip gap .*too little/,
  ],
  [
    'a link that tells another register depth',
    change(['    mouth:', '    motor register: 5.0 ± 0.1\n    mouth:']),
    'no',
    /counts motor register as 5\.00 mm, but .*is 4\.00 mm/,
  ],
  [
    'no bore for the shaft',
    change(['  bore: { diameter: 40 }\n', '']),
    'not yet',
    /no bore is given for the shaft to pass/,
  ],
  [
    'a bore smaller than the shaft',
    change(['bore: { diameter: 40 }', 'bore: { diameter: 22 }']),
    'no',
    /the shaft of motor does not pass C1/,
  ],
  [
    'a bore smaller than the key',
    change(['bore: { diameter: 40 }', 'bore: { diameter: 26 }']),
    'no',
    /the key of motor's shaft does not pass/,
  ],
  [
    'a bore smaller than the coupling',
    change(['over key: 27 }', 'over key: 27, coupling: 44 }']),
    'no',
    /the coupling of motor does not pass/,
  ],
  [
    'a bore as wide as the shaft and no wider',
    change(['over key: 27 }', 'coupling: 40 }']),
    'no',
    /the bore passes the shaft, C1 and the coupling of motor: 0\.0\d? mm where at least 0\.2\d? mm/,
  ],
  [
    'a bore that ends within the plate',
    change(['bore: { diameter: 40 }', 'bore: { diameter: 40, side: B, depth: 12 }']),
    'no',
    /the shaft of motor does not pass: C1 ends 8\.0 mm before it is through/,
  ],
  [
    'nothing to pass the plate, and a shaft',
    change(['bore: { diameter: 40 }', 'bore: none']),
    'no',
    /the shaft of motor does not pass: the plate has no opening for it/,
  ],
  [
    'a hole outside the outline',
    change(
      ['  drilling:', '  cuts: { drain: { hole: 6, at: [0, 115], face: pump } }\n  drilling:'],
      ['outline: { shape: round, margin: 12 }', 'outline: { shape: round, diameter: 220 }'],
    ),
    'no',
    /the centre of H9 lies 5\.0 mm outside the edge, where it has to lie \d\.\d mm inside/,
  ],
  [
    'a gasket as thick as the spigot stands out',
    gasketed('bore: 62', sound).replace('pump gasket: 0.1 ± 0.1', 'pump gasket: 2.5 ± 0.1'),
    'no',
    /pump\.spigot does not enter C2: the gasket is as thick as it stands out/,
  ],
  [
    'a blank thinner than the plate',
    `${sound}machine: { blank: { width: 250, height: 250, thickness: 18 } }\n`,
    'no',
    /the blank is 18\.00 mm thick, and the plate needs 20\.00 mm/,
  ],
  [
    'a blank too small for the plate',
    `${sound}machine: { blank: { width: 250, height: 150 } }\n`,
    'no',
    /the blank of 250\.00 mm × 150\.00 mm does not hold the plate/,
  ],
  [
    'a second shaft apart with no way through',
    apart(''),
    'no',
    /the shaft of motor does not pass: C3 ends 16\.0 mm before it is through/,
  ],
  [
    'a second shaft apart with a way that is too small',
    apart('  cuts: { way: { hole: 25, at: [0, 180] } }\n'),
    'no',
    /the key of motor's shaft does not pass H9/,
  ],
  [
    'a pocket that meets one from the other side',
    change([
      '  drilling:',
      '  cuts: { a: { pocket: 16, depth: 11, side: A, at: [38, 38], face: pump }, b: { pocket: 14, depth: 11, ' +
        'side: B, at: [38, 38], face: pump } }\n  drilling:',
    ]),
    'no',
    /C4 and C5 meet from both sides: together they are 2\.\d mm deeper than the plate is thick/,
  ],
  [
    'a spigot that hardly stands out',
    change(['diameter: 80.00 ± 0.01, stands: 3.5', 'diameter: 80.00 ± 0.01, stands: 0.3']),
    'no',
    /motor\.spigot and C3 enter each other by 0\.30 mm only, where 0\.50 mm is needed to hold/,
  ],
  [
    'a stud that leans as far as its hole lets it, the hole not in its place',
    change(['clock: 12, stands: 19 }', 'clock: 12, stands: 19, lean: ± 3 deg }']),
    'no',
    /the stud in H1 may lean 0\.\d+ mm more than its hole lets it/,
  ],
  [
    'a plate outside the range that its stack looks in',
    change(['plate: { find: 15 .. 30 }', 'plate: { find: 21 .. 30 }']),
    'no',
    /the plate is 20\.00 mm thick, and the stack looks for it between 21\.00 mm and 30\.00 mm/,
  ],
  [
    'a spigot that stands right through the plate',
    change(
      ['diameter: 80.00 ± 0.01, stands: 3.5', 'diameter: 80.00 ± 0.01, stands: 30'],
      ['register: 80.03, depth: 4', 'register: 80.03, depth: 31'],
    ),
    'no',
    /motor\.spigot stands 10\.0 mm into pump[^]*ledge left under the register, C2 and C3|ledge left under the register, C2 and C3[^]*motor\.spigot stands 10\.0 mm into pump/,
  ],
  [
    'two spigots that meet in a thin plate',
    change(
      ['diameter: 80.00 ± 0.01, stands: 3.5', 'diameter: 80.00 ± 0.01, stands: 12'],
      ['diameter: 60.00 ± 0.01, stands: 2.5', 'diameter: 60.00 ± 0.01, stands: 12'],
      ['register: 80.03, depth: 4', 'register: 80.03, depth: 12.5'],
      ['register: 60.03, depth: 3', 'register: 60.03, depth: 12.5'],
    ),
    'no',
    /pump\.spigot stands 4\.0 mm into motor\.spigot/,
  ],
  [
    'a shaft that is a feature of its own, wider than the bore',
    change(
      ['shaft: { diameter: 24, over key: 27 }', 'shaft: S'],
      ['M1: { kind', 'S: { kind: spigot, diameter: 42, stands: 62 }\n      M1: { kind'],
      ['      - at M1 =', '      - at S = (0, 0) by readout\n      - at M1 ='],
    ),
    'no',
    /the shaft of motor does not pass/,
  ],
  [
    'a shaft off its spigot, the centres laid over each other',
    change(
      ['shaft: { diameter: 24, over key: 27 }', 'shaft: { at: S, diameter: 24 }'],
      ['M1: { kind', 'S: { kind: boss, diameter: 24, height: 62 }\n      M1: { kind'],
      ['      - at M1 =', '      - at S = (0, -6) by readout\n      - at M1 ='],
      ['  clocking:', '  meet: centres\n  clocking:'],
    ),
    'no',
    /offset of the shafts/,
  ],
  [
    'a shaft whose place no reading fixes',
    change(
      ['shaft: { diameter: 24, over key: 27 }', 'shaft: S'],
      ['M1: { kind', 'S: { kind: boss, diameter: 24, height: 62, clock: 6 }\n      M1: { kind'],
    ),
    'not yet',
    /motor\.S lies is not known|shaft of motor runs is not known/,
  ],
  [
    'no centre and no shaft on one part',
    change(
      ['  motor:\n    centre: spigot\n', '  motor:\n'],
      ['    shaft: { diameter: 24, over key: 27 }\n', ''],
      ['    motor: { register: 80.03, depth: 4 }\n', ''],
    ),
    'not yet',
    /where the shaft of motor runs is not known/,
  ],
  [
    'a boss under the plate that reaches the other part',
    change(
      ['P1: { kind', 'B: { kind: boss, diameter: 10, height: 26 }\n      P1: { kind'],
      ['      - at P1 =', '      - at B = (35, 70) by readout\n      - at P1 ='],
    ),
    'no',
    /pump\.B stands 6\.0 mm into motor/,
  ],
  [
    'the same boss called a stud',
    change(
      ['P1: { kind', 'B: { kind: stud, diameter: 10, stands: 26 }\n      P1: { kind'],
      ['      - at P1 =', '      - at B = (35, 70) by readout\n      - at P1 ='],
    ),
    'no',
    /end of the stud in H\d stands 6\.0 mm into motor/,
  ],
  [
    'a boss of unknown height',
    change(
      ['P1: { kind', 'B: { kind: boss, diameter: 10 }\n      P1: { kind'],
      ['      - at P1 =', '      - at B = (35, 70) by readout\n      - at P1 ='],
    ),
    'not yet',
    /how far pump\.B stands out is not given/,
  ],
  [
    'studs into the other part',
    change([
      'P1: { kind: stud, thread: M8, diameter: 7.90 ± 0.04, clock: 12, stands: 19 }',
      'P1: { kind: stud, thread: M8, diameter: 7.90 ± 0.04, clock: 12, stands: 25 }',
    ]),
    'no',
    /end of the stud in H1 stands 5\.0 mm into motor/,
  ],
  [
    'studs of unknown length',
    change(['clock: 12, stands: 19 }', 'clock: 12 }']),
    'not yet',
    /how far the studs of pump stand out is not given \(P1\)/,
  ],
  [
    'a register whose ± is more than its clearance',
    change(['diameter: 80.00 ± 0.01', 'diameter: 80.00 ± 0.05']),
    'no',
    /known to ± 0\.05 mm only/,
  ],
  [
    'the same ± from readings of the diameter',
    change(
      ['spigot: { kind: spigot, diameter: 80.00 ± 0.01, stands: 3.5 }', 'spigot: { kind: spigot, stands: 3.5 }'],
      ['      - at M1 =', '      - dia spigot = 80.00 ± 0.06\n      - at M1 ='],
    ),
    'no',
    /known to ± 0\.06 mm only/,
  ],
  [
    'a register of unknown diameter',
    change(
      ['spigot: { kind: spigot, diameter: 80.00 ± 0.01, stands: 3.5 }', 'spigot: { kind: spigot, stands: 3.5 }'],
      [
        'rim: [{ feature: spigot, margin: 60 }]',
        'rim: [{ feature: M1, margin: 12 }, { feature: M2, margin: 12 }, { feature: M3, margin: 12 }, { feature: ' +
          'M4, margin: 12 }]',
      ],
    ),
    'not yet',
    /whether C3 goes on motor\.spigot is not known/,
  ],
  ['a register that bottoms', change(['stands: 3.5', 'stands: 4.5']), 'no', /faces meet before the register bottoms/],
  [
    'a spigot of unknown height',
    change([', stands: 3.5', '']),
    'not yet',
    /how far motor\.spigot stands out is not given/,
  ],
  [
    'a reading that does not agree',
    change(['over M1 M3 = 176.01', 'over M1 M3 = 179.01']),
    'not yet',
    /reading 6 of motor does not agree with the rest|readings? .*6.* of motor/,
  ],
  [
    'a feature that no reading reaches',
    change([
      'P1: { kind',
      'P5: { kind: stud, thread: M8, diameter: 7.9, clock: "1:30", stands: 19 }\n      P1: { kind',
    ]),
    'not yet',
    /pump\.P5 lies is not known/,
  ],
  [
    'a rim that only clock positions turn',
    change(
      ['    up: M1\n', ''],
      ['rim: [{ feature: spigot, margin: 60 }]', 'rim: ["(95, 95)", "(-95, 95)", "(-95, -95)", "(95, -95)"]'],
      [
        '      - at spigot = (0, 0) by readout\n      - at M1 = (0.00, 82.51) by readout\n      - at M2 = (82.50, ' +
          '0.01) by readout\n      - at M3 = (-0.01, -82.50) by readout\n      - at M4 = (-82.50, 0.00) by readout\n',
        '      - between M1 spigot = 37.00 by caliper\n      - between M2 spigot = 37.00 by caliper\n      - ' +
          'between M3 spigot = 37.00 by caliper\n      - between M4 spigot = 37.00 by caliper\n      - over M1 M2 = ' +
          '127.67 by caliper\n      - over M2 M3 = 127.67 by caliper\n      - over M3 M4 = 127.67 by caliper\n',
      ],
    ),
    'not yet',
    /how the rim of motor is turned to its holes is known from clock positions alone/,
  ],
  [
    'a gasket with no ease over its spigot',
    `${sound}gaskets: { pump: { hole clearance: 1, bore: 60.1, outline: plate } }\n`,
    'no',
    /the bore of the gasket of pump has only 0\.10 mm over pump\.spigot/,
  ],
  [
    'a gasket smaller than its spigot',
    `${sound}gaskets: { pump: { hole clearance: 1, bore: 55, outline: plate } }\n`,
    'no',
    /the gasket of pump covers pump\.spigot/,
  ],
  [
    'a gasket over a port',
    `${change(['P1: { kind', 'oil: { kind: bore, diameter: 6 }\n      P1: { kind'], ['      - at P1 =', '      - at oil = (40, 40) by readout\n      - at P1 ='])}gaskets: ` +
      `{ pump: { hole clearance: 1, bore: 61, outline: plate } }\n`,
    'no',
    /the gasket of pump covers pump\.oil/,
  ],
  [
    'a gasket round its holes alone, over a boss',
    gasketed('outline: follow, bore: 61', withBoss),
    'no',
    /the gasket of pump covers pump\.B, which stands through it/,
  ],
  [
    'a gasket that a hole breaks out of',
    gasketed('bore: 118', sound),
    'no',
    /the gasket of pump does not seal: its bore breaks into H1/,
  ],
  [
    'a gasket that is a thread wide between bore and hole',
    gasketed('bore: 114', sound),
    'no',
    /the gasket of pump is only 0\.\d+ mm wide between its bore and H\d/,
  ],
  [
    'a gasket that does not reach a port',
    gasketed('outline: follow, bore: 61', withPort(62, 40)),
    'no',
    /the gasket of pump misses pump\.oil, which lies outside it/,
  ],
  [
    'a gasket whose outline cuts a port',
    gasketed('outline: follow, bore: 61', withPort(40, 40)),
    'no',
    /the gasket of pump misses pump\.oil, which its outline .*cuts/,
  ],
  [
    'a gasket over a drain of the plate',
    gasketed('bore: 61', withDrain),
    'no',
    /the gasket of pump covers drain: it has no hole there; add drain to its `open`/,
  ],
  [
    'a stud that the plate has no hole for',
    change(['nut: counterbored }', 'nut: counterbored, except: { P1: none } }']),
    'not yet',
    /pump\.P1 gets no hole, and the stud stands in the way of the plate; write `vacant: true`/,
  ],
  [
    'a drain whose place only clock positions turn',
    withDrain.replace('    up: P1\n', ''),
    'not yet',
    /how the cut drain on pump is turned to its holes is known from clock positions alone/,
  ],
  [
    'shafts apart by an angle that only clock positions turn',
    change(['    up: P1\n', ''], ['  drilling:', '  shafts: { apart: 3 mm ± 1 mm, toward: 180 deg }\n  drilling:']),
    'not yet',
    /how the second shaft from pump is turned to its holes is known from clock positions alone/,
  ],
  [
    'a second setting that comes too far off',
    change(['  drilling:', '  second setting: ± 0.3\n  drilling:']),
    'no',
    /offset of the shafts/,
  ],
  [
    'shafts further out than the coupling bears',
    change(['  drilling:', '  alignment: { offset: 0.02 }\n  drilling:']),
    'no',
    /offset of the shafts/,
  ],
  [
    'studs of no known thread under the other part',
    sound.replaceAll('kind: stud, thread: M8, ', 'kind: stud, '),
    'not yet',
    /what nut or head sits in H1, H2, H3 and H4 is not known, and motor lies over them/,
  ],
  [
    'the same with nuts of the shop standing proud',
    sound
      .replaceAll('kind: stud, thread: M8, ', 'kind: stud, ')
      .replace('nut: counterbored', 'nut: { across flats: 13, height: 6.5 }'),
    'no',
    /the nut in H1 stands 6\.5 mm into motor/,
  ],
  [
    'a nut of the shop that is wider',
    change(['nut: counterbored', 'nut: { across flats: 40, height: 6.5, sunk: counterbored }']),
    'no',
    /H1 breaks into C3/,
  ],
  [
    'a nut of the shop that is taller',
    change(['nut: counterbored', 'nut: { across flats: 13, height: 17, sunk: counterbored }']),
    'no',
    /stud in H1|floor under the counterbore|comes through/,
  ],
];

describe('one fault', () => {
  test.each(faults)('%s', async (_what, job, wanted, says) => {
    const said = await verdictOf(job);
    expect(`${said.answer}: ${said.open.join('\n')}`).toMatch(new RegExp(`^${wanted}: `));
    expect(said.open.join('\n')).toMatch(says);
    expect(said.exit).toBe(1);
  });
});

test('a shaft off its spigot is laid over the other, and the register follows', async () => {
  const job = change(
    ['shaft: { diameter: 24, over key: 27 }', 'shaft: { at: S, diameter: 24 }'],
    ['M1: { kind', 'S: { kind: boss, diameter: 24, height: 62 }\n      M1: { kind'],
    ['      - at M1 =', '      - at S = (0, -6) by readout\n      - at M1 ='],
    ['depth: 4 }', 'depth: 4 }'],
  );
  const said = await verdictOf(job);
  expect(said.open).toEqual([]);
  expect(said.answer).toBe('yes');
});

test('nuts of the shop on studs of no known thread, let in, are Yes', async () => {
  const said = await verdictOf(
    sound
      .replaceAll('kind: stud, thread: M8, ', 'kind: stud, ')
      .replace('nut: counterbored', 'nut: { across flats: 13, height: 6.5, sunk: counterbored }'),
  );
  expect([said.answer, ...said.open]).toEqual(['yes']);
});

test('a dowel that locates nothing and ends within the plate is Yes', async () => {
  const said = await verdictOf(
    change(
      ['P1: { kind', 'D: { kind: dowel, diameter: 6, stands: 8 }\n      P1: { kind'],
      ['      - at P1 =', '      - at D = (40, 40) by readout\n      - at P1 ='],
    ),
  );
  expect([said.answer, ...said.open]).toEqual(['yes']);
});

test('a gasket that clears, leaves open and goes round all that it should is Yes', async () => {
  for (const job of [
    gasketed('bore: 61', sound),
    gasketed('outline: follow, bore: 61', sound),
    gasketed('bore: 61, open: [B]', withBoss),
    gasketed('bore: 61, open: [oil]', withPort(40, 40)),
    gasketed('bore: 61, open: [drain]', withDrain),
  ]) {
    const said = await verdictOf(job);
    expect([said.answer, ...said.open]).toEqual(['yes']);
  }
});

test('a note alone is no reason against Yes', async () => {
  const said = await verdictOf(change(['    shaft: { diameter: 24, over key: 27 }\n', ''], ['    flange: 10\n', '']));
  expect(said.answer).toBe('yes');
  expect(said.open.join('\n')).toMatch(/not known flange[^]*not known shaft-size/);
});

test('a rim of touched points is said to be straight between them, and by how much it may be off', async () => {
  const points = Array.from({ length: 12 }, (_, i) => {
    const turn = (2 * Math.PI * i) / 12;
    return `"(${(100 * Math.sin(turn)).toFixed(2)}, ${(100 * Math.cos(turn)).toFixed(2)})"`;
  });
  const said = await verdictOf(change(['rim: [{ feature: spigot, margin: 60 }]', `rim: [${points.join(', ')}]`]));
  expect(said.answer).toBe('yes');
  // 100 (1 − cos 15°): the rise of a twelfth of a circle over its chord.
  expect(said.open.join('\n')).toMatch(/rim-chords: the rim of motor .* up to 3\.4 mm off/);
});

test('a rim that runs inside the part’s own holes is measured again before anything is cut', async () => {
  const said = await verdictOf(
    change(['rim: [{ feature: spigot, margin: 60 }]', 'rim: [{ feature: spigot, margin: 30 }]']),
  );
  expect(said.answer).toBe('not yet');
  // The rim is 40 + 30 about the spigot; the holes lie on 82.5.
  expect(said.open.join('\n')).toMatch(
    /rim-inside: .* motor\.M1, motor\.M2, motor\.M3 and motor\.M4 lie up to 12\.5 mm outside/,
  );
});

test('a face read on a table needs no feature up: it lies as it was read, and is told the same', async () => {
  const bareFaces: readonly (readonly [string, string])[] = [
    ['    up: P1\n', ''],
    ['    up: M1\n', ''],
    ...[1, 2, 3, 4].flatMap((i): readonly (readonly [string, string])[] => {
      const clock = `, clock: ${3 * (i - 1) || 12}`;
      return [
        [`diameter: 7.90 ± 0.04${clock}`, 'diameter: 7.90 ± 0.04'],
        [`diameter: 11.00 ± 0.04${clock}`, 'diameter: 11.00 ± 0.04'],
      ];
    }),
  ];
  const [told, asRead] = await Promise.all([verdictOf(sound), verdictOf(change(...bareFaces))]);
  expect(asRead.answer).toBe('yes');
  expect(asRead.open.filter((o) => o.includes('turn'))).toStrictEqual([]);
  expect(asRead.open.length).toBeLessThanOrEqual(told.open.length);
});

test('cures are steps of a plan: a thickness with its shims', async () => {
  const thick = await verdictOf(
    change(
      ['thickness: 20', 'thickness: 25'],
      [
        '    plate: { find: 15 .. 30 }',
        '    plate: { find: 15 .. 30, on hand: [16, 25] }\n    shims: { from: [0.5, 1], at most: 3 }',
      ],
    ),
  );
  expect(thick.answer).toBe('no');
  expect(thick.open.join('\n')).toMatch(/make the plate 16\.00 mm and shim 2\.00 mm/);
});

test('a blank that does not hold the plate is the same No where no table can be made', async () => {
  const said = await verdictOf(`${sound}machine: { blank: { width: 250, height: 150 } }\n`, {}, 'table');
  expect([said.answer, said.exit]).toEqual(['no', 1]);
  expect(said.first).toMatch(/^The blank of 250\.00 mm × 150\.00 mm does not hold the plate/);
});

test('a second shaft apart passes a hole that is cut for it, and a blank that holds the plate is Yes', async () => {
  const said = await verdictOf(
    `${apart('  cuts: { way: { hole: 40, at: [0, 180] } }\n')}machine: { blank: { width: 600, height: 600, ` +
      `thickness: 20 } }\n`,
  );
  expect([said.answer, ...said.open]).toEqual(['yes']);
});

test('nothing passes where the job says so', async () => {
  const said = await verdictOf(
    change(['  bore: { diameter: 40 }', '  bore: none'], ['    shaft: { diameter: 24, over key: 27 }\n', '']),
  );
  expect(said.open).toEqual([]);
});

test('Whitworth nuts warn of older ones, until the job gives its own', async () => {
  const whitworth = change(
    ...(['P1', 'P2', 'P3', 'P4'] as const).map(
      (id) =>
        [
          `${id}: { kind: stud, thread: M8, diameter: 7.90 ± 0.04`,
          `${id}: { kind: stud, thread: 5/16 BSW, diameter: 7.85 ± 0.04`,
        ] as const,
    ),
  );
  const warned = await verdictOf(whitworth);
  expect(warned.answer).toBe('yes');
  expect(warned.open.join('\n')).toMatch(/old-hardware: Whitworth and BSF nuts made before BS 1083/);
  const own = await verdictOf(
    whitworth.replace('nut: counterbored', 'nut: { across flats: 15.2, height: 8, sunk: counterbored }'),
  );
  expect(own.open.join('\n')).not.toMatch(/old-hardware/);
});
