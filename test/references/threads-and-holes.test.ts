import { describe, expect, test } from 'vitest';
import { fayplate } from '../support/cli.js';

const look = async (kind: string, what: string): Promise<string> => {
  const { code, out } = await fayplate(['look', kind, ...what.split(' ')]);
  expect(code).toBe(0);
  return out;
};
/** The figures of one row of a table in words. */
const row = (words: string, first: string): readonly number[] => {
  const line = words.split('\n').find((l) => l.startsWith(`${first} `)) ?? '';
  return [...line.slice(first.length).matchAll(/-?\d+\.\d+/g)].map((m) => Number(m[0]));
};

// ASME B1.1: Machinery's Handbook, 31st ed., p. 2168, table 4 (1/4 in and up; the numbered sizes p. 2155, table 2, and
// from memory): major diameter in inches, and the usual tap drill with its size.
describe('unified threads and their usual drills, as the handbook answers', () => {
  test.each([
    ['#4-40 UNC', 0.112, '#43', 0.089],
    ['#10-32 UNF', 0.19, '#21', 0.159],
    ['1/4-20 UNC', 0.25, '#7', 0.201],
    ['5/16-18 UNC', 0.3125, 'F', 0.257],
    ['3/8-16 UNC', 0.375, '5/16', 0.3125],
    ['1/2-13 UNC', 0.5, '27/64', 0.4219],
    ['3/4-10 UNC', 0.75, '21/32', 0.6562],
    ['1-8 UNC', 1, '7/8', 0.875],
  ] as const)('%s', async (name, major, drill, size) => {
    expect(row(await look('thread', name), 'major')[1]).toBeCloseTo(major, 4);
    const drills = await look('tap drill', name);
    expect(
      drills.split('\n').some((l) => l.startsWith(`${drill} `) && Math.abs((row(l, drill)[1] ?? 9) - size) < 0.00011),
    ).toBe(true);
  });
});

// ISO 261 with tap drills of ISO 2306 (read in two places), mm.
describe('metric threads and their drills', () => {
  test.each([
    ['M3', 0.5, 2.5],
    ['M4', 0.7, 3.3],
    ['M5', 0.8, 4.2],
    ['M6', 1, 5],
    ['M8', 1.25, 6.8],
    ['M10', 1.5, 8.5],
    ['M12', 1.75, 10.2],
    ['M16', 2, 14],
    ['M20', 2.5, 17.5],
    ['M24', 3, 21],
  ] as const)('%s', async (name, pitch, drill) => {
    expect(row(await look('thread', name), 'pitch')[0]).toBeCloseTo(pitch, 3);
    expect(await look('tap drill', name)).toMatch(new RegExp(`^${String(drill).replace('.', '\\.')} mm `, 'm'));
  });
});

// ISO 273, fine, medium, coarse, mm (a hardware reference page, read; M12 and M16 cross-checked by a handbook's inch
// equivalents: there lists of BS 4186 say 14/15 and 17/18 in place of 13.5/14.5 and 17.5/18.5, and must not be taken
// for it).
describe('clearance holes of ISO 273', () => {
  test.each([
    ['M4', 4.3, 4.5, 4.8],
    ['M6', 6.4, 6.6, 7],
    ['M8', 8.4, 9, 10],
    ['M10', 10.5, 11, 12],
    ['M12', 13, 13.5, 14.5],
    ['M16', 17, 17.5, 18.5],
    ['M20', 21, 22, 24],
  ] as const)('%s', async (name, ...want) => {
    const words = await look('clearance', name);
    expect(['close', 'normal', 'loose'].map((fit) => row(words, fit)[0])).toEqual([...want]);
  });
});

// ASME B18.2.8, normal fit, inches: a handbook's table (read to 7/16); loose holes least and greatest as printed there,
// to the two thousandths by which its tolerance differs from H14.
describe('clearance holes of ASME B18.2.8', () => {
  test.each([
    ['1/4-20 UNC', 9 / 32, 0.297, 0.311],
    ['5/16-18 UNC', 11 / 32, 0.359, 0.373],
    ['3/8-16 UNC', 13 / 32, 0.422, 0.438],
    ['7/16-14 UNC', 15 / 32, 0.484, 0.5],
    ['1/2-13 UNC', 9 / 16, 0.609, 0.625],
  ] as const)('%s', async (name, normal, least, most) => {
    const words = await look('clearance', name);
    expect(Math.abs((row(words, 'normal')[1] ?? 9) - normal)).toBeLessThan(0.00006);
    expect(Math.abs((row(words, 'loose')[1] ?? 9) - least)).toBeLessThan(0.0006);
    expect(Math.abs((row(words, 'loose')[3] ?? 9) - most)).toBeLessThan(0.002);
  });
});
