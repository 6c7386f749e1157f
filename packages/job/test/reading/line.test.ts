import { describe, expect, test } from 'vitest';
import { readJob, readingKinds } from '../../src/index.js';
import { faultsOf, jobOf, readingOf, readingsOf, refusal, told, shop } from '../support.js';

const degrees = (d: number): number => (d * Math.PI) / 180;

const everyKind = [
  ['centres A B = 187.4 mm ± 0.3 mm', ['A', 'B'], 187.4, 0.3],
  ['over A B = 4 1/8 in by rule', ['A', 'B'], 104.775, 0.5],
  ['between A S = 0.688 in by caliper', ['A', 'S'], 17.4752, 0.0508],
  ['step A B = 45.64 by caliper', ['A', 'B'], 45.64, 0.0508],
  ['wall A S = 13.72 by caliper', ['A', 'S'], 13.72, 0.0508],
  ['dia A = 8.39 by caliper', ['A'], 8.39, 0.0508],
  ['angle A B C = 65.5 by protractor', ['A', 'B', 'C'], degrees(65.5), degrees(0.5)],
  ['square A-B C-D by protractor', ['A', 'B', 'C', 'D'], Math.PI / 2, degrees(0.5)],
  ['line A B C by rule', ['A', 'B', 'C'], 0, 0.5],
  ['flush A B C ± 0.1', ['A', 'B', 'C'], 0, 0.1],
  ['offset A B-C = 31.8 by rule', ['A', 'B', 'C'], 31.8, 0.5],
  ['runout A about S = 0.12 by caliper', ['A', 'S'], 0.12, 0.0508],
  ['at A = (12.5, -40) by rule', ['A'], 0, 0.5],
  ['touch A = (-6.3411 in, 1.5134 in) by rule', ['A'], 0, 0.5],
] as const;

describe('every kind of reading', () => {
  test.each(everyKind)('%s', (line, features, value, plusMinus) => {
    const r = readingOf(line);
    expect(r.kind).toBe(line.split(' ')[0]);
    expect(r.features).toEqual(features);
    expect(r.value).toBeCloseTo(value, 9);
    expect(r.plusMinus).toBeCloseTo(plusMinus, 9);
    expect(r.text).toBe(line);
  });

  test('stands in the table', () => expect(everyKind.map(([line]) => line.split(' ')[0])).toEqual(readingKinds));
});

describe('places', () => {
  test.each([
    ['at A = (12.5, -40) ± 1', 'mm', 12.5, -40, 1, 'mm'],
    ['at A = (1, -2) ± 0.1', 'in', 25.4, -50.8, 2.54, 'in'],
    ['at A = (1, -2) ± 0.03 mm', 'in', 1, -2, 0.03, 'mm'],
    ['at A = (1, -2) in ± 0.001', 'mm', 25.4, -50.8, 0.0254, 'in'],
    ['touch A = (-179.424 mm, 98.568 mm) ± 0.1', 'in', -179.424, 98.568, 0.1, 'mm'],
    ['at A = (1/2 in, 10 mm) ± 0.1 mm', 'mm', 12.7, 10, 0.1, 'in'],
  ] as const)('%s in a job in %s', (line, units, x, y, plusMinus, unit) => {
    const r = readingOf(line, units);
    expect(r.point?.x).toBeCloseTo(x, 9);
    expect(r.point?.y).toBeCloseTo(y, 9);
    expect(r.plusMinus).toBeCloseTo(plusMinus, 9);
    expect(r.unit).toBe(unit);
  });
});

describe('units of one reading', () => {
  test.each([
    ['dia A = 4 1/8 ± 0.3 mm', 'in', 4.125, 0.3, 'mm'],
    ['dia A = 4 1/8 in ± 1/64', 'mm', 104.775, 0.396875, 'in'],
    ['dia A = 5 thou ± 1', 'mm', 0.127, 0.0254, 'in'],
    ['dia A = 10 mm ± 1', 'in', 10, 1, 'mm'],
    ["angle A B C = 57° 15' ± 0.4 deg", 'mm', degrees(57.25), degrees(0.4), null],
    ['angle A B C = 0.5 rad ± 0.01', 'mm', 0.5, 0.01, null],
    ['square A-B C-D ± 0.3 deg', 'mm', Math.PI / 2, degrees(0.3), null],
    ['line A B C ± 5 thou', 'mm', 0, 0.127, 'in'],
  ] as const)('%s in a job in %s', (line, units, value, plusMinus, unit) => {
    const r = readingOf(line, units);
    expect(r.value).toBeCloseTo(value, 9);
    expect(r.plusMinus).toBeCloseTo(plusMinus, 9);
    expect(r.unit).toBe(unit);
  });

  test("a ± of its own goes before the instrument's", () =>
    expect(readingOf('dia A = 8 ± 0.07 by rule')).toMatchObject({ plusMinus: 0.07, instrument: 'rule' }));
});

describe('ids, notes and lines set aside', () => {
  const readings = readingsOf([
    'dia A = 8 by rule',
    'r7: over A B = 40 by rule   # slipped a little',
    'aside dia B = 9 by rule',
    '"flush A B C by rule # held against the light"',
    'aside r9: dia B = 9 by rule # worn',
    'aside: dia C = 9 by rule',
    'Over A B = 41 by rule',
  ]);

  test('an id is the one written, else the place in the list', () =>
    expect(readings.map((r) => r.id)).toEqual(['1', 'r7', '3', '4', 'r9', '6', '7']));
  test('aside', () => expect(readings.map((r) => r.aside)).toEqual([false, false, true, false, true, true, false]));
  test("notes, whether YAML's comment or in quotes", () =>
    expect(readings.map((r) => r.note)).toEqual([
      null,
      'slipped a little',
      null,
      'held against the light',
      'worn',
      null,
      null,
    ]));
  test('the words are kept without id and note', () => expect(readings[1]?.text).toBe('over A B = 40 by rule'));
  test('each knows its place', () => expect(readings.slice(0, 4).map((r) => r.place.column)).toEqual([9, 13, 9, 10]));
  test('a comment on a line of its own is no note', () =>
    expect(
      readingsOf(['dia A = 8 by rule\n      # all of these by lamplight', 'dia B = 8 by rule']).map((r) => r.note),
    ).toEqual([null, null]));
});

/** Each line by itself: the word marked is pointed at. */
describe('refused lines', () => {
  test.each([
    ['«ovr» A B = 4 by rule', /kind of reading: centres, over/, 'over'],
    ['«diameter» A = 4 by rule', /kind of reading/, 'dia'],
    ['over A «Z» = 4 by rule', /a feature of this face: S, A, B, C, D/, null],
    ['over A «AA» = 4 by rule', /a feature of this face/, 'A'],
    ['over A «A» = 4 by rule', /another feature/, null],
    ['over A B = 4 by «rul»', /an instrument of the job: rule, caliper, protractor/, 'rule'],
    ['over A B = 4 by «protractor»', /measures a length/, null],
    ['angle A B C = 4 by «rule»', /measures an angle/, null],
    ['over A B = «4,5» by rule', /a decimal point, not a comma: 4.5/, null],
    ['over A B = «nan» by rule', /a number such as/, null],
    ['over A B = «.inf» by rule', /a number such as/, null],
    ['over A B = «1e3» by rule', /without an exponent/, null],
    ['over A B = «1/0» by rule', /other than zero/, null],
    ['over A B = «0» by rule', /above zero/, null],
    ['centres A B = «-4» by rule', /above zero/, null],
    ['between A B = «-4» by rule', /not below zero/, null],
    ['over A B = «100001 mm» by rule', /no more than 100 m/, null],
    ['over A B = «4 furlong» by rule', /one of the units/, null],
    ['over A B = 4 ± «0»', /a ± above zero/, null],
    ['over A B = 4 ± «x»', /after the ±/, null],
    ['over A 4 «1/8» by rule', /features as in: over A B/, null],
    ['over A B «by rule', /= and a value, as in/, null],
    ['angle A B C = «200» by protractor', /at most 180°/, null],
    ['square A «B» C D by protractor', /features as in: square A-B C-D/, null],
    ['square A-B A-«B» by protractor', /another feature/, null],
    ['square A-B C-D = «80» by protractor', /no value: square says its own/, null],
    ['line A B C = «3» by rule', /no value/, null],
    ['offset A B-«A» = 3 by rule', /another feature/, null],
    ['touch A = «(1, 2, 3)» by rule', /two lengths separated by one comma/, null],
    ['touch A = «(1,5, 2,5)» by rule', /with decimal points/, null],
    ['touch A = «1, 2» by rule', /a place in brackets/, null],
    ['at A = (1 ± «0.02, 2 ± 0.02)»', /one ± for both lengths, behind the bracket/, null],
    ['touch A = «(x, 2)» by rule', /a number such as/, null],
  ] as const)('%s', (line, expected, nearest) => {
    expect(refusal(shop([line]))).toEqual(told(expected, nearest));
  });

  test('neither ± nor instrument: the end of the line', () =>
    expect(refusal(shop(['over A B = «4']))).toEqual(told(/a ± or "by" an instrument at the end, such as by rule/)));
  test('two ±', () => expect(refusal(shop(['over A B = 4 ± «1 ± 2»']))).toEqual(told(/one ± only/)));
  test('two features joined by a dash', () =>
    expect(refusal(shop(['over A«-»B = 4 by rule']))).toEqual(told(/features as in: over A B/)));
  test('an id twice', () =>
    expect(refusal(shop(['r1: dia A = 8 by rule', '«r1»: dia B = 8 by rule']))).toEqual(told(/no other reading/)));
  test("an id that is another line's place", () =>
    expect(refusal(shop(['2: dia A = 8 by rule', '«dia B = 8 by rule']))).toEqual(told(/no other reading/)));
  test('an id that is no name', () =>
    expect(refusal(shop(['«a-b»: dia A = 8 by rule']))).toEqual(told(/an id that is a name of one word/)));
  test('two lines in one item', () =>
    expect(refusal(shop(['«{ r1: dia A = 8 by rule, r2: dia B = 8 by rule }»']))).toEqual(told(/a reading such as/)));
  test('a list in the list', () => expect(refusal(shop(['«[dia A = 8 by rule]»']))).toEqual(told(/a reading such as/)));
  test('two faults in one line are both told', () => {
    expect(faultsOf(readJob(shop(['over X A = 4 by rul']))).map((f) => f.found)).toEqual(['X', 'rul']);
  });
});

describe('what may repeat itself', () => {
  test('two lines of a square may share a corner', () =>
    expect(readingOf('square A-B A-C by protractor').features).toEqual(['A', 'B', 'A', 'C']));
  test('its own value may be written out', () =>
    expect(readingOf('square A-B C-D = 90 deg by protractor').value).toBeCloseTo(Math.PI / 2, 12));
  test('a step may be below zero', () => expect(readingOf('step A S = -3 by rule').value).toBe(-3));
  test('a gap may be nothing', () => expect(readingOf('between A B = 0 by rule').value).toBe(0));
});

describe('the unit of a ± behind a place', () => {
  const pointIn = (units: 'in' | 'mm', reading: string) => {
    const job = jobOf(
      `job: x\nunits: ${units}\nfaces:\n  a:\n    features: { A: { kind: hole, diameter: 8 mm } }\n    readings: ` +
        `["${reading}"]\n`,
    );
    return job.faces[0]?.readings[0]?.point;
  };
  test.each([
    ['in', 'at A = (3.5, 2) ± 2 thou', 88.9, 50.8],
    ['in', 'at A = (3.5, 0) ± 20 microns', 88.9, 0],
    ['mm', 'at A = (3.5, 2) ± 2 thou', 3.5, 2],
    ['in', 'at A = (12.5, -40) ± 0.02 mm', 12.5, -40],
    ['in', 'at A = (1, -2) ± 3 mm', 25.4, -50.8],
    ['in', 'at A = (1, 2) mm ± 2 thou', 1, 2],
    ['in', 'at A = (1 mm, 2 mm) ± 2 thou', 1, 2],
  ] as const)('%s: %s', (units, reading, x, y) => {
    expect(pointIn(units, reading)?.x).toBeCloseTo(x, 9);
    expect(pointIn(units, reading)?.y).toBeCloseTo(y, 9);
  });
});
