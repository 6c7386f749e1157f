import { describe, expect, test } from 'vitest';
import { feedPerTurn, leastEngagement, material, materials, turnsPerMinute } from '../../src/index.js';

describe('materials', () => {
  test('are found by any of their names, each name once', () => {
    const names = materials.rows.flatMap((m) => [m.name, ...m.also]);
    expect(new Set(names).size).toBe(names.length);
    for (const n of names) expect(material(` ${n.toUpperCase()} `)).not.toBeNull();
    expect(material('unobtainium')).toBeNull();
  });

  // HSS drilling speeds in surface feet a minute, as read in cutting-speed tables.
  test.each([
    ['aluminium', 200, 300],
    ['mild steel', 70, 100],
    ['cast iron', 50, 80],
  ])('%s is drilled at %d to %d', (name, from, to) => {
    const [a = 0, b = 0] = material(name)?.speed ?? [];
    expect(a / 0.3048).toBeCloseTo(from, 9);
    expect(b / 0.3048).toBeCloseTo(to, 9);
  });

  // rev/min = 3.82 SFM / D: 80 at 1/2 in 611, 80 at 3/8 in 815, 70 at 1/2 in 535, 300 at 1/4 in 4584, as printed.
  test.each([
    [80, 0.5, 611],
    [80, 0.375, 815],
    [70, 0.5, 535],
    [300, 0.25, 4584],
  ])('%d ft/min at %d in turns at %d', (sfm, inches, rpm) =>
    expect(Math.abs(turnsPerMinute(sfm * 0.3048, inches * 25.4) - rpm)).toBeLessThan(0.7),
  );

  test('feeds grow with the drill', () => {
    const feeds = [1, 3.1, 6, 10, 20, 40].map(feedPerTurn);
    for (let i = 1; i < feeds.length; i += 1) expect(feeds[i]).toBeGreaterThanOrEqual(feeds[i - 1] ?? 0);
  });

  // Engagement in diameters: steel 1, cast iron and brass 1.5, aluminium 2, general 1.5; design articles as read.
  test.each([
    ['steel', 1],
    ['cast iron', 1.5],
    ['brass', 1.5],
    ['aluminium', 2],
    [null, 1.5],
  ])('engagement in %s', (name, d) => expect(leastEngagement(name).value).toBe(d));
});
