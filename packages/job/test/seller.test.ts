import { describe, expect, test } from 'vitest';
import { readJob } from '../src/index.js';

const read = (face: string) =>
  readJob(`job: a\nunits: mm\ninstruments: { caliper: ± 0.05 }\nfaces:\n  motor:\n${face}`);

describe("a seller's figures", () => {
  const rough =
    '    seller: ± 1\n    centre: S\n    features: { S: { kind: bore, ' +
    'diameter: 40 }, K: { kind: hole, diameter: 9 ± 0.2 } }\n';

  test('take his ± where they state none', () => {
    const job = read(
      `${rough}    readings:\n      - centres S K = 55\n      - over S K = 79.5 by caliper\n      - dia K = 9 ± 0.3\n`,
    );
    const face = job.ok ? job.job.faces[0] : undefined;
    expect(face?.seller).toBe(1);
    expect(face?.features.map((f) => f.diameter?.plusMinus)).toEqual([1, 0.2]);
    expect(face?.readings.map((r) => r.plusMinus)).toEqual([1, 0.05, 0.3]);
  });

  test('an angle needs its own, and without a seller so does a length', () => {
    const angle = read(
      `${rough.replace('K:', 'L: { kind: hole, diameter: 9 }, K:')}    readings: [angle K S L = 90 deg]\n`,
    );
    expect(angle.ok ? [] : angle.faults.map((f) => f.code)).toEqual(['no-plus-minus']);
    const none = read(`${rough.replace('    seller: ± 1\n', '')}    readings: [centres S K = 55]\n`);
    expect(none.ok ? [] : none.faults.map((f) => f.code)).toEqual(['no-plus-minus']);
  });

  test.each(['rough', '± 0', '1 deg'])('%s is no ± of a length', (text) => {
    const job = read(rough.replace('± 1', text));
    expect(job.ok ? [] : job.faults.map((f) => f.path)).toEqual(['faces.motor.seller']);
  });
});
