import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/index.js';
import { faultsOf, refusal, refusals, told, shop } from '../support.js';

const words = (text: string): readonly string[] => faultsOf(readJob(text)).map((f) => f.expected);
const head = 'job: x\nunits: mm\n';

describe('what YAML offers and a job has no use for', () => {
  test.each([
    ['an anchor', `${head}print: «&p» { paper: A4 }\n`, /no anchor/],
    ['an alias', `${head}print: «*p»\n`, /aliases/],
    ['a merge key', `${head}print: { «<<»: { paper: A4 } }\n`, /no merge key/],
    ['a duplicate key', `${head}print: { paper: A4, «paper»: A3 }\n`, /"paper" once only/],
    ['a duplicate section', `${head}print: { paper: A4 }\n«print»: { paper: A3 }\n`, /"print" once only/],
    ['a tag', `${head}print: { paper: «!!str» A4 }\n`, /no tag/],
    ['a directive', `«%YAML 1.1»\n---\n${head}`, /no % directives/],
    ['a key that is a list', `${head}? «[a, b]»\n: 1\n`, /one plain name/],
    ['a second document', `${head}«---»\njob: y\n`, /one job in one file/],
  ])('%s', (_, marked, expected) => {
    expect(refusals(marked)).toContainEqual(told(expected));
  });
});

describe('syntax', () => {
  test('a tab for indentation', () =>
    expect(words('job: x\nunits: mm\nprint:\n\tpaper: A4\n').some((w) => /not a tab/.test(w))).toBe(true));
  test('a quote that is not closed', () =>
    expect(words('job: "x\nunits: mm\n').some((w) => /closing quote/.test(w))).toBe(true));
  test('a bracket that is not closed', () =>
    expect(words(`${head}plate: { between: [a, b\n`).length).toBeGreaterThan(0));
  test('what stands before a broken line is judged, what follows from it is not', () => {
    const faults = faultsOf(
      readJob('job: x\nunits: inch\nfaces:\n  f:\n    up: Q\n    features: { A: {kind: hole} } }\n    readings: []\n'),
    );
    expect(faults.map((f) => f.path)).toContain('units');
    expect(faults.map((f) => f.path)).not.toContain('faces.f.up');
  });
  test('echoes of one open bracket are cut short', () => {
    const faults = faultsOf(readJob(`${head}print: {\n${'a: b: c\n'.repeat(100)}`));
    expect(faults.length).toBeGreaterThan(5);
    expect(faults.length).toBeLessThan(25);
    expect(faults.at(-1)?.found).toMatch(/^\d+ more$/);
  });
  test.each(['', '   \n', '# only a comment\n', '- a list\n', 'just words', '42', 'null', '[]'])(
    '%j is not a job',
    (text) => expect(words(text)[0]).toMatch(/a job: sections/),
  );
});

describe('another encoding than UTF-8', () => {
  const sheet = `${head}instruments: { caliper: ± 0.05 mm }\n`;
  const decoded = (bytes: Buffer): string => new TextDecoder().decode(bytes);
  // ± is 0xB1 in ISO 8859-1 and its kin.
  test('a ± from an old code page', () =>
    expect(words(decoded(Buffer.from(sheet, 'latin1')))).toEqual([expect.stringMatching(/saved as UTF-8/)]));
  test('UTF-16', () =>
    expect(words(decoded(Buffer.from(`\ufeff${sheet}`, 'utf16le')))).toEqual([
      expect.stringMatching(/saved as UTF-8/),
    ]));
  test('UTF-8 itself', () => expect(words(decoded(Buffer.from(sheet, 'utf8')))).toEqual([]));
});

describe('limits', () => {
  const many = (n: number, line: (i: number) => string): string =>
    Array.from({ length: n }, (_, i) => line(i)).join('\n');
  const features = (n: number): string =>
    `${head}faces:\n  f:\n    features:\n${many(n, (i) => `      F${i}: { kind: hole }`)}\n`;

  test('1 MiB may be read, one byte more may not', () => {
    const padded = (n: number): string => {
      const line = `#${'x'.repeat(998)}\n`;
      const text = head + line.repeat(Math.floor((n - head.length) / line.length));
      return `${text}#${'x'.repeat(n - text.length - 1)}`;
    };
    expect(readJob(padded(1_048_576)).ok).toBe(true);
    expect(words(padded(1_048_577))).toEqual([expect.stringMatching(/at most 1 MiB/)]);
  });
  test('bytes are counted, not characters', () =>
    expect(words(`${head}${`#${'±'.repeat(700)}\n`.repeat(800)}`)).toEqual([expect.stringMatching(/at most 1 MiB/)]));
  test('1,000 features may be read, one more may not', () => {
    expect(words(features(1000))).toEqual([]);
    expect(words(features(1001))).toEqual(['at most 1,000 features in one job']);
  });
  test('4,000 readings may be read, one more may not', () => {
    expect(words(shop(Array.from({ length: 4000 }, () => 'dia A = 8 by rule')))).toEqual([]);
    expect(words(shop(Array.from({ length: 4001 }, () => 'dia A = 8 by rule')))).toEqual([
      'at most 4,000 readings in one job',
    ]);
  });
  test('features and readings are counted over all faces', () => {
    const face = (name: string): string =>
      `  ${name}:\n    features:\n${many(501, (i) => `      F${i}: { kind: hole }`)}\n`;
    expect(words(`${head}faces:\n${face('a')}${face('b')}`)).toEqual(['at most 1,000 features in one job']);
  });
  test('lists beside the job count too', () => {
    const csv = `kind,features,value,instrument\n${'dia,A,8,rule\n'.repeat(4001)}`;
    const read = readJob(shop([]).replace('readings:\n', 'readings: a.csv\n'), { csv: () => csv });
    expect(faultsOf(read).map((f) => f.expected)).toEqual(['at most 4,000 readings in one job']);
  });
  test.each([
    ['['.repeat(40), /32 deep/],
    ['{a: '.repeat(40), /32 deep/],
    ['- '.repeat(40), /32 deep/],
    ['? '.repeat(40), /32 deep/],
    [many(60, (i) => `${' '.repeat(i)}a:`), /32 deep/],
    ['['.repeat(500_000), /lines of at most 20,000/],
    ['- '.repeat(500_000), /lines of at most 20,000/],
    [`"${'a\n'.repeat(20_000)}"`, /values of at most 20,000/],
    ['- a\n'.repeat(100_001), /no more than 300,000/],
  ])('nesting and length: %#', (text, expected) => expect(words(text)).toEqual([expect.stringMatching(expected)]));
  test('control characters', () =>
    expect(refusal(`job: x«\u001b»[31m\nunits: mm\n`.replace('»', ''))).toEqual(
      told(/characters that can be printed/),
    ));
  test('at most 500 faults are told one by one', () => {
    const faults = faultsOf(readJob(shop(Array.from({ length: 700 }, (_, i) => `dia Q${i} = 8 by rule`))));
    expect(faults).toHaveLength(501);
    expect(faults.at(-1)?.found).toBe('200 more');
  });
});
