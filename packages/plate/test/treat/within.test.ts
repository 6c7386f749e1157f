import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { plateFrom } from '../support/from-text.js';

const example = readFileSync(
  join(import.meta.dirname, '..', '..', '..', '..', 'examples', 'thread-inserts.yaml'),
  'utf8',
);
const withBoss = (height: string): string =>
  example
    .replace('    flange: 12\n', `    flange: 12\n`)
    .replace('      B1: {', `      knob: { kind: boss, diameter: 10, height: ${height} }\n      B1: {`)
    .replace('      - at B1 =', '      - at knob = (0, 55) by readout\n      - at B1 =');
const reliefFor = (height: string): number | null =>
  plateFrom(withBoss(height)).bores.find((b) => b.kind === 'relief' && b.feature === 'motor.knob')?.depth ?? null;

describe('sizes with a ± of their own', () => {
  test('a pocket is as deep as the boss may be high, and a millimetre', () => {
    expect(reliefFor('4')).toBeCloseTo(5, 9);
    expect(reliefFor('4 ± 0.3')).toBeCloseTo(5.3, 9);
  });

  test('a bolt is long enough through the thickest flange, and short enough through the thinnest', () => {
    const bolts = (flange: string) =>
      plateFrom(example.replace('flange: 12', `flange: ${flange}`).replace(', blind: true', '')).bolts.find((b) =>
        b.holes.includes('H4'),
      );
    const [sure, unsure] = [bolts('12'), bolts('12 ± 0.4')];
    expect((unsure?.least ?? 0) - (sure?.least ?? 0)).toBeCloseTo(0.4, 9);
    expect((unsure?.most ?? 0) - (sure?.most ?? 0)).toBeCloseTo(-0.4, 9);
  });
});
