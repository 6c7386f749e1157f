import { readJob } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { type LocatedFace, locateFace } from '../../src/index.js';

const places = [
  [3, 41],
  [38, -12],
  [-35, -17],
  [9, -44],
] as const;

/** Four holes read on a milling table that is turned by `degrees`; `lines`: what else the face says. */
const locatedAt = (degrees: number, lines = ''): LocatedFace => {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const readings = places.map(
    ([x, y], i) => `- at H${i + 1} = (${(c * x - s * y).toFixed(6)}, ${(s * x + c * y).toFixed(6)}) ± 0.05`,
  );
  const read = readJob(
    `job: t\nunits: mm\nfaces:\n  a:\n${lines}    features: { H1: { kind: hole }, H2: { kind: hole }, H3: { kind: ` +
      `hole }, H4: { kind: hole } }\n    readings:\n${readings.map((r) => `      ${r}\n`).join('')}`,
  );
  const face = read.ok ? read.job.faces[0] : undefined;
  if (!read.ok || face === undefined) throw new Error(JSON.stringify(read));
  return locateFace({ face, instruments: read.job.instruments });
};

const mean = { x: 15 / 4, y: -32 / 4 };

describe('a face read on a table, of which nothing else says which way is up', () => {
  test.each([0, 30, -117])('lies as it was read, about the mean of its centres: table turned by %d°', (degrees) => {
    const located = locatedAt(degrees);
    expect(located.frame).toStrictEqual({ origin: 'mean of centres', direction: 'bench' });
    expect(located.warnings.filter((w) => w.includes('which way is up'))).toStrictEqual([]);
    const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    for (const [i, [x, y]] of places.entries()) {
      const at = located.features.get(`H${i + 1}`);
      const [dx, dy] = [x - mean.x, y - mean.y];
      expect(at?.x).toBeCloseTo(c * dx - s * dy, 5);
      expect(at?.y).toBeCloseTo(s * dx + c * dy, 5);
    }
  });

  test('its ± is that of the shape: a distance is known as well as where one feature is held up', () => {
    const ids = ['H2', 'H3'];
    const varianceOf = (located: LocatedFace): number => {
      const [a, b] = ids.map((id) => located.features.get(id));
      const u = { x: (b?.x ?? 0) - (a?.x ?? 0), y: (b?.y ?? 0) - (a?.y ?? 0) };
      const k = [-u.x, -u.y, u.x, u.y].map((v) => v / Math.hypot(u.x, u.y));
      const m = located.covarianceOf(ids);
      return k.reduce((sum, p, i) => sum + k.reduce((row, q, j) => row + p * q * (m[i]?.[j] ?? Number.NaN), 0), 0);
    };
    const held = varianceOf(locatedAt(30, '    up: H1\n'));
    expect(varianceOf(locatedAt(30))).toBeCloseTo(held, 9);
    // Two places, each of a standard uncertainty of half its ±.
    expect(held).toBeCloseTo(2 * 0.025 ** 2, 9);
  });

  test('one place alone gives no direction: the first feature is up, with a word', () => {
    const read = readJob(`job: t
units: mm
instruments: { caliper: ± 0.05 }
faces:
  a:
    features: { H1: { kind: hole }, H2: { kind: hole }, H3: { kind: hole } }
    readings:
      - at H1 = (0, 0) ± 0.05
      - centres H1 H2 = 30 by caliper
      - centres H2 H3 = 40 by caliper
      - centres H1 H3 = 50 by caliper
`);
    const face = read.ok ? read.job.faces[0] : undefined;
    const located = read.ok && face && locateFace({ face, instruments: read.job.instruments });
    expect(located && located.frame).toStrictEqual({ origin: 'mean of centres', direction: { up: 'H1' } });
  });
});
