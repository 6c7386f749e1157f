import { describe, expect, test } from 'vitest';
import { drills, nearestDrill, parseDrill, pointLength } from '../../src/index.js';

/**
 * ASME B94.11M number and letter drills, inches: the list read in one public table, its common sizes against a
 * handbook's page and a tap chart. Typed here apart from the data, so that a slip in either shows.
 */
const printed = `80 .0135; 79 .0145; 78 .0160; 77 .0180; 76 .0200; 75 .0210; 74 .0225; 73 .0240; 72 .0250; 71 .0260; 70 .0280; 69 .0292;
68 .0310; 67 .0320; 66 .0330; 65 .0350; 64 .0360; 63 .0370; 62 .0380; 61 .0390; 60 .0400; 59 .0410; 58 .0420; 57 .0430; 56 .0465; 55 .0520;
54 .0550; 53 .0595; 52 .0635; 51 .0670; 50 .0700; 49 .0730; 48 .0760; 47 .0785; 46 .0810; 45 .0820; 44 .0860; 43 .0890; 42 .0935; 41 .0960;
40 .0980; 39 .0995; 38 .1015; 37 .1040; 36 .1065; 35 .1100; 34 .1110; 33 .1130; 32 .1160; 31 .1200; 30 .1285; 29 .1360; 28 .1405; 27 .1440;
26 .1470; 25 .1495; 24 .1520; 23 .1540; 22 .1570; 21 .1590; 20 .1610; 19 .1660; 18 .1695; 17 .1730; 16 .1770; 15 .1800; 14 .1820; 13 .1850;
12 .1890; 11 .1910; 10 .1935; 9 .1960; 8 .1990; 7 .2010; 6 .2040; 5 .2055; 4 .2090; 3 .2130; 2 .2210; 1 .2280;
A .234; B .238; C .242; D .246; E .250; F .257; G .261; H .266; I .272; J .277; K .281; L .290; M .295; N .302; O .316; P .323; Q .332; R .339;
S .348; T .358; U .368; V .377; W .386; X .397; Y .404; Z .413`;

const rows = printed.split(/;\s*/).map((pair) => {
  const [name = '', inches = ''] = pair.trim().split(' ');
  return [/^\d/.test(name) ? `#${name}` : name, Number(inches)] as const;
});

describe('number and letter drills', () => {
  test('all 106 are there', () =>
    expect(drills().filter((d) => d.kind === 'number' || d.kind === 'letter')).toHaveLength(rows.length));
  test.each(rows)('%s is %d in', (name, inches) =>
    expect((drills().find((d) => d.name === name)?.diameter ?? 0) / 25.4).toBeCloseTo(inches, 9),
  );
});

// ASME B94.11M and ISO 235, from memory: where one step ends the next begins, and both ends are there.
test('the runs of fractions and millimetres meet, none left out and none twice', () => {
  const gaps = (kind: 'fraction' | 'metric', unit: number, from: number, to: number): readonly number[] => {
    const run = drills()
      .filter((d) => d.kind === kind)
      .map((d) => d.diameter / unit)
      .filter((d) => d > from - 1e-9 && d < to + 1e-9);
    expect([run[0], run.at(-1)]).toEqual([expect.closeTo(from, 9), expect.closeTo(to, 9)]);
    return [...new Set(run.slice(1).map((d, i) => Number((d - (run[i] ?? 0)).toFixed(6))))];
  };
  expect(gaps('fraction', 25.4, 1 / 64, 1.75)).toEqual([1 / 64]);
  expect(gaps('fraction', 25.4, 1.75, 2.25)).toEqual([1 / 32]);
  expect(gaps('fraction', 25.4, 2.25, 3.5)).toEqual([1 / 16]);
  expect(gaps('metric', 1, 0.3, 3)).toEqual([0.05]);
  expect(gaps('metric', 1, 14, 32)).toEqual([0.25]);
  expect(gaps('metric', 1, 32, 50)).toEqual([0.5]);
  expect(gaps('metric', 1, 50, 100)).toEqual([1]);
});

describe('the nearest drill', () => {
  test('is no farther than any other of the tables', () => {
    for (let mm = 0.35; mm < 60; mm += 0.0371) {
      const found = nearestDrill(mm);
      expect(found.error).toBeCloseTo(found.drill.diameter - mm, 12);
      expect(Math.abs(found.error)).toBeLessThanOrEqual(
        Math.min(...drills().map((d) => Math.abs(d.diameter - mm))) + 1e-6,
      );
    }
  });
  test('of those on hand', () => {
    const onHand = [
      { name: 'a', diameter: 8 },
      { name: 'b', diameter: 9 },
    ];
    expect(nearestDrill(8.5, onHand)?.drill.name).toBe('a');
    expect(nearestDrill(8.51, onHand)?.drill.name).toBe('b');
    expect(nearestDrill(8.1, onHand, 'at least')?.drill.name).toBe('b');
    expect(nearestDrill(8.9, onHand, 'at most')?.drill.name).toBe('a');
    expect(nearestDrill(9.1, onHand, 'at least')).toBeNull();
    expect(nearestDrill(5, [])).toBeNull();
  });
  test('a quarter inch is 1/4, not E', () => expect(nearestDrill(6.35).drill.name).toBe('1/4'));
});

describe('a drill as people write it', () => {
  test.each([
    ['#7', '#7'],
    ['no 7', '#7'],
    ['No. 43', '#43'],
    ['f', 'F'],
    ['letter Q', 'Q'],
    ['13/32', '13/32'],
    ['13/32 in', '13/32'],
    ['1 3/64', '1 3/64'],
    ['10.3 mm', '10.3 mm'],
    ['10.3', '10.3 mm'],
    ['.201 in', '#7'],
    ['0.25 in', '1/4'],
  ])('%s', (text, name) => expect(parseDrill(text)?.name).toBe(name));
  test.each(['', '#81', '13/33', '10.33 mm', 'big', '-5', '5,5'])('none: %s', (text) =>
    expect(parseDrill(text)).toBeNull(),
  );
});

// A 118° point reaches 0.3 d beyond the full diameter: the drawing office rule of 0.3 × diameter, common practice.
test('length of a drill point', () => {
  expect(pointLength(10)).toBeCloseTo(3.004, 3);
  expect(pointLength(10, Math.PI / 2)).toBeCloseTo(5, 12);
});
