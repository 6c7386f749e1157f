import { describe, expect, test } from 'vitest';
import { classLimits, drills, holeForShare, parseThread, tapDrill, threadShare, threads } from '../../src/index.js';
import { printedTapDrills } from '../../src/drills/printed.js';

const thread = (name: string) => {
  const t = parseThread(name);
  if (t === null) throw new Error(name);
  return t;
};

/**
 * Tap drills as printed, typed apart from the data. Unified: Machinery's Handbook, 31st ed., p. 2168, table 4, from 1/4
 * in, from memory below; metric: ISO 2306, from memory; BSF and BA 0 to 2: from memory.
 */
const printed: readonly (readonly [string, string])[] = [
  ['#0-80', '3/64'],
  ['#1-64', '#53'],
  ['#1-72', '#53'],
  ['#2-56', '#50'],
  ['#2-64', '#50'],
  ['#3-48', '#47'],
  ['#3-56', '#45'],
  ['#4-40', '#43'],
  ['#4-48', '#42'],
  ['#5-40', '#38'],
  ['#5-44', '#37'],
  ['#6-32', '#36'],
  ['#6-40', '#33'],
  ['#8-32', '#29'],
  ['#8-36', '#29'],
  ['#10-24', '#25'],
  ['#10-32', '#21'],
  ['#12-24', '#16'],
  ['#12-28', '#14'],
  ['1/4-20', '#7'],
  ['1/4-28', '#3'],
  ['5/16-18', 'F'],
  ['5/16-24', 'I'],
  ['3/8-16', '5/16'],
  ['3/8-24', 'Q'],
  ['7/16-14', 'U'],
  ['7/16-20', '25/64'],
  ['1/2-13', '27/64'],
  ['1/2-20', '29/64'],
  ['9/16-12', '31/64'],
  ['9/16-18', '33/64'],
  ['5/8-11', '17/32'],
  ['5/8-18', '37/64'],
  ['3/4-10', '21/32'],
  ['3/4-16', '11/16'],
  ['7/8-9', '49/64'],
  ['7/8-14', '13/16'],
  ['1-8', '7/8'],
  ['1-12', '59/64'],
  ['1 1/8-7', '63/64'],
  ['1 1/8-12', '1 3/64'],
  ['1 1/4-7', '1 7/64'],
  ['1 1/4-12', '1 11/64'],
  ['1 3/8-6', '1 7/32'],
  ['1 3/8-12', '1 19/64'],
  ['1 1/2-6', '1 11/32'],
  ['1 1/2-12', '1 27/64'],
  ['M2', '1.6 mm'],
  ['M2.5', '2.05 mm'],
  ['M3', '2.5 mm'],
  ['M3.5', '2.9 mm'],
  ['M4', '3.3 mm'],
  ['M5', '4.2 mm'],
  ['M6', '5 mm'],
  ['M8', '6.8 mm'],
  ['M10', '8.5 mm'],
  ['M12', '10.2 mm'],
  ['M14', '12 mm'],
  ['M16', '14 mm'],
  ['M18', '15.5 mm'],
  ['M20', '17.5 mm'],
  ['M22', '19.5 mm'],
  ['M24', '21 mm'],
  ['M10x1.25', '8.8 mm'],
  ['M12x1.5', '10.5 mm'],
  ['M8x1', '7 mm'],
  ['1/4 BSF', '5.3 mm'],
  ['5/16 BSF', '6.8 mm'],
  ['1/2 BSF', '7/16'],
  ['1/4 BSW', '5.1 mm'],
  ['3/8 BSW', '7.9 mm'],
  ['1/2 BSW', '10.5 mm'],
  ['0 BA', '5.1 mm'],
  ['1 BA', '4.5 mm'],
  ['2 BA', '4 mm'],
];

/**
 * As printed, with the range that different lists give, mm: fine metric (ISO 2306 lists and a trade course), BSW, BSF
 * and BA lists.
 */
const ranges: readonly (readonly [string, number, number])[] = [
  ['M2x0.25', 1.75, 1.75],
  ['M2.5x0.35', 2.1, 2.1],
  ['M4x0.5', 3.5, 3.5],
  ['M5x0.5', 4.5, 4.5],
  ['M6x0.75', 5.2, 5.2],
  ['M8x1', 7, 7],
  ['M8x0.75', 7.2, 7.2],
  ['M10x1.25', 8.8, 8.8],
  ['M10x1', 9, 9],
  ['M10x0.75', 9.2, 9.2],
  ['M12x1.5', 10.5, 10.5],
  ['M12x1.25', 10.8, 10.8],
  ['M12x1', 11, 11],
  ['M14x1.5', 12.5, 12.5],
  ['M14x1.25', 12.8, 12.8],
  ['M16x1.5', 14.5, 14.5],
  ['M16x1', 15, 15],
  ['M18x2', 16, 16],
  ['M18x1.5', 16.5, 16.5],
  ['M20x2', 18, 18],
  ['M20x1.5', 18.5, 18.5],
  ['M22x2', 20, 20],
  ['M22x1.5', 20.5, 20.5],
  ['M24x2', 22, 22],
  ['M24x1.5', 22.5, 22.5],
  ['M8', 6.75, 6.8],
  ['M12', 10.2, 10.25],
  ['1/8 BSW', 2.55, 2.55],
  ['3/16 BSW', 3.7, 3.7],
  ['7/32 BSW', 4.6, 4.6],
  ['1/4 BSW', 5, 5.2],
  ['5/16 BSW', 6.4, 6.6],
  ['3/8 BSW', 7.7, 8],
  ['7/16 BSW', 9.25, 9.3],
  ['1/2 BSW', 10.25, 10.7],
  ['9/16 BSW', 12.1, 12.1],
  ['5/8 BSW', 13.5, 13.5],
  ['3/4 BSW', 16.25, 16.5],
  ['7/8 BSW', 19.25, 19.25],
  ['1 BSW', 22, 22],
  ['3/16 BSF', 3.97, 4],
  ['7/32 BSF', 4.6, 4.7],
  ['1/4 BSF', 5.3, 5.4],
  ['5/16 BSF', 6.74, 6.8],
  ['3/8 BSF', 8.2, 8.3],
  ['7/16 BSF', 9.7, 9.8],
  ['1/2 BSF', 11.1, 11.12],
  ['9/16 BSF', 12.7, 12.7],
  ['5/8 BSF', 14, 14],
  ['11/16 BSF', 15.5, 15.5],
  ['3/4 BSF', 16.75, 16.75],
  ['7/8 BSF', 19.84, 19.85],
  ['1 BSF', 22.75, 22.75],
  ['0 BA', 5.1, 5.1],
  ['1 BA', 4.5, 4.5],
  ['2 BA', 4, 4],
  ['3 BA', 3.4, 3.4],
  ['4 BA', 3, 3],
  ['5 BA', 2.65, 2.65],
  ['6 BA', 2.3, 2.3],
  ['7 BA', 2.05, 2.05],
  ['8 BA', 1.8, 1.8],
  ['9 BA', 1.55, 1.55],
  ['10 BA', 1.4, 1.4],
];

describe('tap drills', () => {
  test.each(ranges)('%s takes %d to %d mm', (name, from, to) => {
    const { diameter } = tapDrill(thread(name)).drill;
    expect(diameter).toBeGreaterThanOrEqual(from - 1e-6);
    expect(diameter).toBeLessThanOrEqual(to + 1e-6);
  });

  test.each(printed)('%s takes %s, as the charts print', (name, drill) =>
    expect(tapDrill(thread(name)).drill.name).toBe(drill),
  );

  test('every printed drill is a real one and leaves 58 to 89 % of thread', () => {
    for (const [name, { drill }] of printedTapDrills) {
      const t = thread(name);
      const d = drills().find((x) => x.name === drill);
      expect([name, d?.name]).toEqual([name, drill]);
      const share = threadShare(t, d?.diameter ?? 0);
      expect([name, share > 0.58 && share < 0.89]).toEqual([name, true]);
    }
  });

  test('computed at the printed drill’s own share, the nearest drill is the printed one', () => {
    for (const [name] of printedTapDrills) {
      const t = thread(name);
      const chart = tapDrill(t);
      const computed = tapDrill(t, { share: chart.share, onHand: drills() });
      expect([name, computed?.drill.diameter]).toEqual([name, chart.drill.diameter]);
    }
  });

  test('computed at 75 % (unified) the drill is the printed one or its neighbour in size', () => {
    const inch = drills().filter((d) => d.kind !== 'metric');
    for (const [name, want] of printed.filter(([n]) => thread(n).form === 'unified')) {
      const t = thread(name);
      const found = tapDrill(t, { share: 0.75 });
      const between = inch.filter(
        (d) =>
          d.diameter > Math.min(found?.drill.diameter ?? 0, tapDrill(t).drill.diameter) &&
          d.diameter < Math.max(found?.drill.diameter ?? 0, tapDrill(t).drill.diameter),
      );
      expect([name, want, between.length <= 1]).toEqual([name, want, true]);
    }
  });

  // % = (D − drill) n / 0.0129904 (inches): a handbook's worked 0-80 with a drill of 0.0492 in gives 66 to 68 %.
  test('the percentage rule', () => {
    expect(threadShare(thread('#0-80'), 0.0492 * 25.4)).toBeCloseTo(0.665, 3);
    for (const t of threads) expect(threadShare(t, holeForShare(t, 0.7))).toBeCloseTo(0.7, 9);
    expect(holeForShare(thread('1/2 BSW'), 1)).toBeCloseTo(thread('1/2 BSW').minor, 6);
  });

  test('a smaller share asks for a larger hole; the class limits are looked at', () => {
    const t = thread('M10');
    expect(tapDrill(t, { share: 0.6 })?.drill.diameter).toBeGreaterThan(
      tapDrill(t, { share: 0.8 })?.drill.diameter ?? 0,
    );
    expect(tapDrill(t).withinClass).toBe(true);
    expect(tapDrill(t, { share: 1 })?.withinClass).toBe(false);
    expect(tapDrill(t, { onHand: [{ name: 'the only one', diameter: 8.7 }] })?.drill.name).toBe('the only one');
    expect(tapDrill(t, { onHand: [] })).toBeNull();
    expect(classLimits(t).internal.least).toBeCloseTo(8.376, 3);
  });
});
