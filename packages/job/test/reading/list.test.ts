import { describe, expect, test } from 'vitest';
import { faultLines, readJob } from '../../src/index.js';
import { faultsOf, jobOf, shop } from '../support.js';

const head = 'kind,features,value,plus_minus,instrument,note\n';
const job = (name = 'pump.csv'): string => shop([]).replace('    readings:\n', `    readings: ${name}\n`);
const from = (csv: string) => ({ csv: (name: string) => (name === 'pump.csv' ? csv : null) });

describe('readings in a list beside the job', () => {
  const csv =
    `${head}over,A B,4 1/8 in,,rule,"by lamplight, late"\ntouch,S,"(1.5, -2 in)",± 0.1,,\nsquare,A-B C-D,,0.3 ` +
    `deg,,"said ""square"""\naside dia,A,8.1,,caliper,\n`;
  const readings = jobOf(job(), from(csv)).faces[0]?.readings ?? [];

  test('the columns make the same readings as lines would', () => {
    const inFile =
      jobOf(
        shop([
          'over A B = 4 1/8 in by rule',
          'touch S = (1.5, -2 in) ± 0.1',
          'square A-B C-D ± 0.3 deg',
          'aside dia A = 8.1 by caliper',
        ]),
      ).faces[0]?.readings ?? [];
    const bare = (r: (typeof readings)[number]) => ({ ...r, note: null, place: null });
    expect(readings.map(bare)).toEqual(inFile.map(bare));
  });
  test('notes may hold commas and quotes', () =>
    expect(readings.map((r) => r.note)).toEqual(['by lamplight, late', null, 'said "square"', null]));
  test('each knows its place in the list', () => expect(readings.map((r) => r.place.line)).toEqual([2, 3, 4, 5]));
  test('columns in another order, a byte order mark, semicolons, CRLF', () => {
    const other = '\ufeffinstrument;features;kind;value\r\nrule;A B;over;41\r\n';
    expect(jobOf(job(), from(other)).faces[0]?.readings[0]).toMatchObject({
      kind: 'over',
      value: 41,
      instrument: 'rule',
    });
  });
});

describe('faults in a list', () => {
  test.each([
    [`${head}over,A B,41,,«rul»,\n`, /an instrument of the job/, 'rule'],
    [`${head}over,A «Q7»,41,,rule,\n`, /a feature of this face/, null],
    ['«kinds»,features,value\nover,A B,41\n', /one of the columns kind, features/, 'kind'],
  ] as const)('%s', (marked, expected, nearest) => {
    const before = marked.slice(0, marked.indexOf('«')).split('\n');
    const faults = faultsOf(readJob(job(), from(marked.replace(/[«»]/g, ''))));
    const fault = faults.find((f) => expected.test(f.expected) && f.file === 'pump.csv');
    expect(fault?.line).toBe(before.length);
    expect(fault?.nearest).toBe(nearest);
    expect(fault?.column).toBe((before.at(-1)?.length ?? 0) + 1);
  });

  test('are shown with their own line', () => {
    const csv = `${head}over,A B,41,,rul,\n`;
    const [words] = faultLines(job(), faultsOf(readJob(job(), from(csv))), from(csv).csv);
    expect(words).toContain('pump.csv, line 2, column 14');
    expect(words).toContain('2 | over,A B,41,,rul,\n    |              ^');
  });
  test('a row with more cells than columns', () => {
    const faults = faultsOf(readJob(job(), from('kind,features,value\nat,A,(1, 2)\n')));
    expect(
      faults.some((f) => /no more than 3 columns; a value that holds a comma stands in quotes/.test(f.expected)),
    ).toBe(true);
  });
  const told = (csv: string) => faultsOf(readJob(job(), from(csv))).map((f) => `${f.line}:${f.column} ${f.expected}`);
  test('a decimal comma that fills two columns is refused', () => {
    expect(told(`${head}over,A B,41,1,rule\n`)).toEqual([
      expect.stringMatching(/^2:10 a decimal point: 41\.1; or.* ±/),
    ]);
    expect(told(`${head}over,A B,81,96,,\n`)).toEqual([expect.stringMatching(/^2:10 a decimal point: 81\.96/)]);
    expect(told(`${head}over,A B,41.0,1,rule\nover,B C,41,± 1,rule,\nover,C D,41,1.0,,\n`)).toEqual([]);
    expect(told(`${head.replaceAll(',', ';')}over;A B;41;1;rule\n`)).toEqual([]);
    expect(told(`${head.replaceAll(',', ';')}over;A B;41,5;;rule\n`)).toEqual([
      expect.stringMatching(/decimal point.*41\.5/),
    ]);
  });
  test('text behind a closing quote', () =>
    expect(told(`${head}over,A B,"4" 1/8,,rule,\n`)).toEqual([
      expect.stringMatching(/^2:14 a , or the end of the line behind the closing quote/),
    ]));
  test('a quote that is not closed swallows no row after it', () => {
    expect(told(`${head}over,A B,41.5,,rule,"late\nover,A Q,41.5,,rule,\n`)).toEqual([
      expect.stringMatching(/^2:21 a closing quote/),
      expect.stringMatching(/^3:8 a feature of this face/),
    ]);
    expect(told(`${head}over,A B,41.5,,rule,"late\nover,A B,41.5,,rule,"late"\n`)[0]).toMatch(/^2:21 a closing quote/);
  });
  test('an inch mark is no quote, and a note may go on below', () =>
    expect(told(`${head}over,A B,4 1/8",,rule,"late\nand dark"\n`)).toEqual([]));
  test.each([
    ['a carriage return alone', '\r'],
    ['a line separator', '\u2028'],
    ['a next line', '\u0085'],
  ])('%s is no line end, here or in a job', (_, mark) => {
    expect(told(`${head}over,A B,41.5,,rule,late${mark}over,A C,41.5,,rule,\n`)).toEqual([
      expect.stringMatching(/^2:25 an ordinary end of the line/),
    ]);
    const text = shop([`over A B = 41.5 by rule # late${mark}      - over A C = 41.5 by rule`]);
    expect(faultsOf(readJob(text)).map((f) => f.expected)).toEqual([
      expect.stringMatching(/^an ordinary end of the line/),
    ]);
  });
  test('an empty list', () => expect(faultsOf(readJob(job(), from('')))[0]?.expected).toMatch(/a heading line/));
  test('a list over 1 MiB', () =>
    expect(faultsOf(readJob(job(), from(`${head}${'#'.repeat(1_048_576)}`)))[0]?.expected).toMatch(/at most 1 MiB/));
});

/** A list is a file beside the job: nothing else is ever asked for. */
describe('names of lists', () => {
  test.each([
    ['/etc/pump.csv', /no path from the root/],
    ['../pump.csv', /no \.\. in it/],
    ['a/../../pump.csv', /no \.\. in it/],
    ['C:/pump.csv', /beside the job/],
    ['"..\\\\pump.csv"', /beside the job/],
    ['~/pump.csv', /no path from the root/],
    ['http://host/pump.csv', /beside the job/],
    ['pump.txt', /CSV file beside the job/],
    ['"pump\\0.csv"', /beside the job/],
    ['other.csv', /a CSV file that can be read/],
  ])('%s', (name, expected) => {
    const asked: string[] = [];
    const read = readJob(job(name), {
      csv: (n) => {
        asked.push(n);
        return null;
      },
    });
    expect(faultsOf(read).map((f) => f.expected)).toEqual([expect.stringMatching(expected)]);
    expect(asked).toEqual(name === 'other.csv' ? ['other.csv'] : []);
  });
  test('a folder below the job is beside it', () =>
    expect(readJob(job('lists/pump.csv'), { csv: () => head }).ok).toBe(true));
});
