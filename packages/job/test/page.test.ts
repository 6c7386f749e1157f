import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseAngle, parseLength, parseLengthMeasure, parseLengthRange, parseNumber, toDegrees } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { readJob } from '../src/index.js';

/** JOB-FILE.md is the page that people go by: each of its rows and its sample are read here. */
const page = readFileSync(join(import.meta.dirname, '..', 'JOB-FILE.md'), 'utf8');

const rowsUnder = (heading: string): readonly (readonly string[])[] => {
  const [, table = ''] = page.split(`| ${heading} |`);
  const [body = ''] = table.split(/\n\n/);
  const rows = body
    .split('\n')
    .slice(2)
    .map((row) =>
      row
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim().replace(/^`|`$/g, '')),
    );
  if (rows.length === 0) throw new Error(`no table ${heading}`);
  return rows;
};

describe('the page of the job file', () => {
  test('its sample reads', () =>
    expect(readJob(/```yaml\n([^`]*)```/.exec(page)?.[1] ?? '')).toMatchObject({ ok: true }));

  /** The pieces of jobs under the other headings, each put into a job that has the faces and features that it names. */
  const pieces = [...page.matchAll(/```yaml\n([^`]*)```/g)].slice(1).map(([, piece = '']) => piece);
  test.each(pieces)('the piece %#', (piece) => {
    const faces =
      'faces:\n  mill: { centre: C, features: { C: { kind: bore, diameter: 60 }, S1: { kind: stud, diameter: 8, ' +
      'stands: 24 }, oil: { kind: hole, diameter: 6 } } }\n' +
      '  motor: { centre: S, features: { S: { kind: bore, diameter: 40 }, K: { kind: hole, diameter: 9 } } }\n';
    const whole = `job: piece\nunits: mm\n${piece.includes('faces:') ? '' : faces}${piece}`;
    const read = readJob(whole);
    expect(read.ok ? [] : read.faults.map((f) => `${f.line}: ${f.expected}`)).toEqual([]);
  });

  test.each(rowsUnder('number | reads as'))('%s is %s', (text = '', value) =>
    expect(parseNumber(text)).toEqual({ ok: true, value: Number(value) }),
  );

  test.each(rowsUnder('length | mm'))('%s is %s mm', (text = '', value) => {
    const read = parseLength(text, 1);
    expect(read.ok && read.value).toBeCloseTo(Number(value), 9);
  });

  test.each(rowsUnder('angle | degrees'))('%s is %s°', (text = '', value) => {
    const read = parseAngle(text);
    expect(read.ok && toDegrees(read.value)).toBeCloseTo(Number(value), 9);
  });

  test.each(rowsUnder('refused | likely meant'))('%s is refused: %s', (text = '', likely = '') => {
    const read = parseLength(text, 1);
    expect(read.ok ? `read as ${read.value}` : read.expected).toContain(likely);
  });

  test.each(rowsUnder('value | in a file in | mm | ± mm'))('%s in %s', (text = '', unit, value, plusMinus) => {
    const read = parseLengthMeasure(text, unit === 'in' ? 'in' : 'mm');
    expect(read.ok && read.value.value).toBeCloseTo(Number(value), 9);
    expect(read.ok && read.value.plusMinus).toBeCloseTo(Number(plusMinus), 9);
  });

  test('the range in its words', () =>
    expect(parseLengthRange('12 .. 30 mm', 'in')).toEqual({ ok: true, value: [12, 30] }));
});
