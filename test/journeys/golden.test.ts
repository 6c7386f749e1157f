import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fayplate, root } from '../support/cli.js';

/**
 * `UPDATE_GOLDEN=1 npx vitest run golden` in this folder writes the present words into golden/; read the difference
 * before it is kept.
 */
const refresh = process.env['UPDATE_GOLDEN'] === '1';
const commands = ['check', 'locate', 'layout', 'stack', 'plate', 'table', 'prove'] as const;
type Command = (typeof commands)[number];

const ask = async (command: Command, example: string) => {
  const line = `${command} examples/${example}/job.yaml`;
  const { code, out, err } = await fayplate(line.split(' '));
  return { line, code, out, words: out + err };
};

describe('every word of one example', () => {
  test.each(commands)('%s', async (command) => {
    const path = join(root, 'test/journeys/golden/lift-pump', `${command}.txt`);
    const { line, code, words } = await ask(command, 'lift-pump');
    // What a person sees: the command, what goes to the screen, and the exit status.
    const seen = `$ fayplate ${line}\n${words}[exit status ${code}]\n`;
    if (refresh) {
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, seen);
    }
    expect(existsSync(path), `${path}: run UPDATE_GOLDEN=1 npx vitest run golden`).toBe(true);
    expect(seen).toBe(readFileSync(path, 'utf8'));
  });

  test('and no golden file of anything else', () => {
    const files = readdirSync(join(root, 'test/journeys/golden'), { recursive: true, encoding: 'utf8' });
    const names = files.filter((f) => f.endsWith('.txt')).map((f) => f.replaceAll('\\', '/'));
    expect(names.sort()).toEqual(commands.map((c) => `lift-pump/${c}.txt`).sort());
  });
});

/**
 * What each other example is for (examples/README.md), as exit statuses and figures that must stand in the words: they
 * come from its truth.
 */
const others: Readonly<Record<string, Readonly<Record<Command, readonly [code: number, ...figures: RegExp[]]>>>> = {
  'three-to-four': {
    check: [0],
    locate: [0],
    layout: [0, /80 mm circle/, /4 holes equally divided about boss\s+\(sure/, /104\s+mm\s+is\s+likely/],
    stack: [2, /stack/],
    plate: [0, /\bH7\b/],
    table: [0, /\bH7\b/],
    prove: [0, /\bH7\b/],
  },
  'dowelled-press': {
    check: [0],
    locate: [0],
    layout: [0, /multiples of 1\/8 in/, /110 mm × 60 mm/],
    stack: [2, /stack/],
    plate: [0, /dowel/, /slot/],
    table: [0, /slot/],
    prove: [0],
  },
  'apple-mill': {
    check: [0],
    locate: [0],
    layout: [1, /110 mm circle/],
    stack: [2, /stack/],
    plate: [0],
    table: [0],
    prove: [0],
  },
  // 18.2 and 0.5 of shims, and 63.4 − 61.2 of reach; the motor is FF165 of IEC 60072-1.
  'weir-gate': {
    check: [0],
    locate: [0, /mirror image/, /IEC FF165/],
    layout: [0, /230 mm circle/],
    stack: [0, /20\.900 ± 0\.260 mm/, /cancels/],
    plate: [0, /20\.90 mm thick/],
    table: [0],
    prove: [0],
  },
  // The fourth hole lies 1.2 mm off: No as drawn, and the rest goes round what is drilled.
  'hay-hoist': {
    check: [0],
    locate: [0],
    layout: [0],
    stack: [2, /stack/],
    plate: [1, /H4 is 1\.\d\d mm out of its place/],
    table: [1],
    prove: [
      1,
      /Drill the other 9 round those that are/,
      /Bore H4 out to/,
      /Zero at H1; X runs along the line H1 to H3/,
    ],
  },
  // Its trial assembly is `trial`'s to tell; the plate itself is sound.
  'grain-auger': {
    check: [0],
    locate: [0],
    layout: [0],
    stack: [2, /stack/],
    plate: [0],
    table: [0],
    prove: [0],
  },
  // Known by a seller's figures alone: nothing is Yes or No but the readings themselves.
  'barn-saw': {
    check: [0],
    locate: [0],
    layout: [0],
    stack: [1, /tip gap and grip leave no room/],
    plate: [1, /Motor is not at hand/],
    table: [1],
    prove: [1],
  },
  // Counterbores of 24 on 150 mm and threads on 152: in one plate no angle keeps them apart, in two pieces nothing
  // meets.
  'chaff-cutter': {
    check: [0],
    locate: [0],
    layout: [0, /150 mm circle/, /152 mm circle/],
    stack: [2, /stack/],
    plate: [0, /Both pieces, ring and plate, go together/, /Piece: ring/, /reamed at assembly/],
    table: [0, /Piece: plate/],
    prove: [0],
  },
  // Studs of 24 cut back to 15.5, a lip taken down, holes of 9 opened to 11: by hand 24 − 15.5 and 11 − 9 are what is
  // worked.
  whetstone: {
    check: [0],
    locate: [0, /G1/],
    layout: [0, /170 mm circle/],
    stack: [2, /stack/],
    plate: [0, /24\.00 → 15\.50 mm/, /9\.00 → 11\.00 mm/, /9\.00 → flush/],
    table: [0, /Run a nut down first/],
    prove: [0],
  },
  // One reading was written down wrong, and nothing that rests on it says Yes.
  'potters-wheel': {
    check: [1, /eading 11/],
    locate: [1, /eading 11\b/, /0\.1 in/],
    layout: [1, /eading 11\b/, /80 mm circle/],
    stack: [2, /stack/],
    plate: [1, /wheel:11/],
    table: [1, /wheel:11/],
    prove: [1, /wheel:11/],
  },
};
/** What no person should ever read. */
const broken = /\b(?:NaN|undefined|Infinity|null)\b|\[object/;

test('every example is tried', () => {
  const examples = readdirSync(join(root, 'examples'), { withFileTypes: true }).filter((d) => d.isDirectory());
  expect(examples.map((d) => d.name).sort()).toEqual([...Object.keys(others), 'lift-pump'].sort());
});

describe.each(Object.entries(others))('what %s is for', (example, expected) => {
  test.each(commands)('%s', async (command) => {
    const [status, ...figures] = expected[command];
    const { code, out, words } = await ask(command, example);
    expect(code).toBe(status);
    for (const figure of figures) expect(words).toMatch(figure);
    expect(words).not.toMatch(broken);
    // A "No" or a "Not yet" stands in the words exactly where the exit status says so.
    // Of `check`, `locate` and `layout` it is their own question's: the whole job's answer stands below it.
    const [own = ''] = words.split('\nThe whole job\n');
    expect(/^(?:No|Not yet): /m.test(own)).toBe(status === 1);
    expect(out.split('\n').filter((l) => [...l].length > 100)).toEqual([]);
  });
});

test('broken words would be seen', () => {
  for (const words of ['NaN mm', 'centre undefined', '[object Object]', 'Infinity in']) expect(words).toMatch(broken);
});
