import { describe, expect, test } from 'vitest';
import { faceName, featureName, linkName, readJob } from '../src/index.js';
import { faultsOf, jobOf, refusal, told, shop } from './support.js';

describe('names of features and readings: one word of letters, digits and _', () => {
  test.each([
    'P1',
    '1',
    '12',
    'spigot',
    'Bohrung_3',
    'Zapfen',
    'вал',
    'ö',
    '孔1',
    'חור',
    'constructor',
    'toString',
    'hasOwnProperty',
  ])('%s may be used', (name) => {
    expect(featureName.test(name)).toBe(true);
    const { faces } = jobOf(
      shop([`over ${name} A = 40 by rule`]).replace('      A:', `      ${name}: { kind: hole, diameter: 8 }\n      A:`),
    );
    expect(faces[0]?.features.map((f) => f.id)).toContain(name);
    expect(faces[0]?.readings[0]?.features).toEqual([name, 'A']);
  });

  test.each([
    'P-1',
    'P 1',
    'P.1',
    'P/1',
    '../x',
    '_x',
    '__proto__',
    '=SUM(A1)',
    '+1',
    '@x',
    '<b>',
    'a&b',
    '😀',
    'a\u202eb',
    '\u3164',
    'a\u3164b',
    'a\u034fb',
    'a\u0000',
    "O'Ring",
    'a:b',
    'by',
    'Aside',
    '',
    'x'.repeat(41),
  ])('%j may not', (name) => expect(featureName.test(name)).toBe(false));

  test('the fault says the rule', () =>
    expect(refusal(shop([]).replace('      A:', '      «"=1+1"»: { kind: hole }\n      A:').replace('»', ''))).toEqual(
      told(/letters, digits and _, starting with a letter or digit, at most 40/),
    ));
});

describe('names of faces, instruments and links: several words', () => {
  test.each(['pump', 'left pump', 'pump-2', 'side 3'])('%s may name a face', (name) => {
    expect(jobOf(`job: x\nunits: mm\nfaces: { ${name}: { } }\n`).faces[0]?.name).toBe(name);
  });
  test.each(['a  b', ' a', 'a.b', 'a/b', '..', 'pump ', '-a', 'a-', '<script>', '=1', 'x'.repeat(41)])(
    '%j may not',
    (name) => expect(faceName.test(name)).toBe(false),
  );
  test('an instrument of several words', () =>
    expect(
      jobOf(
        'job: x\nunits: mm\ninstruments: { depth gauge: 0.1 }\nfaces: { f: { features: { A: { kind: hole } }, ' +
          'readings: [dia A = 8 by depth gauge] } }',
      ).faces[0]?.readings[0],
    ).toMatchObject({
      instrument: 'depth gauge',
      plusMinus: 0.1,
    }));
  test.each(['a-b', 'shims', 'on hand'])('%s may not name a link', (name) => expect(linkName.test(name)).toBe(false));
  test('the fault says the rule', () =>
    expect(refusal('job: x\nunits: mm\nfaces:\n  «../etc»: { }\n')).toEqual(
      told(/words may be separated by one space or hyphen/),
    ));
});

/** A job is named for people: any text. */
test.each([
  '../../etc/passwd',
  '=HYPERLINK("x")',
  '<img src=x onerror=alert(1)>',
  '😀 pump',
  'a\u202egnp',
  'a\u0007b',
  '%s%n',
  "'; --",
])('a job may be named %j', (name) => {
  expect(jobOf(`job: ${JSON.stringify(name)}\nunits: mm\n`).name).toBe(name);
});

test('names that are numbers keep the order of the file', () => {
  const { faces } = jobOf(
    'job: x\nunits: mm\nfaces: { f: { features: { 10: { kind: hole }, 2: { kind: hole }, b: { kind: hole }, 1: { ' +
      'kind: hole } } } }\n',
  );
  expect(faces[0]?.features.map((f) => f.id)).toEqual(['10', '2', 'b', '1']);
});

test('no name reaches what JavaScript keeps for itself', () => {
  const faults = faultsOf(
    readJob('job: x\nunits: mm\nfaces: { f: { features: { __proto__: { kind: hole } }, up: constructor } }\n'),
  );
  expect(faults.map((f) => f.path)).toEqual(['faces.f.features.__proto__', 'faces.f.up']);
  expect(({} as { kind?: string }).kind).toBeUndefined();
});
