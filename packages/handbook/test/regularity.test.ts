import { describe, expect, test } from 'vitest';
import { deviationTable, gradeTable } from '../src/fits/deviations.js';
import { baNuts, oldWhitworthNuts, whitworthNuts } from '../src/hardware/british.js';
import { inchCapScrews, inchCountersunk, inchNuts, inchWashers } from '../src/hardware/inch.js';
import { metricCapScrews, metricCountersunk, metricNuts, metricWashers } from '../src/hardware/metric.js';
import { b1828, iso273 } from '../src/holes/clearance.js';
import { drills } from '../src/drills/list.js';
import { baTable } from '../src/threads/british.js';
import { metricTable } from '../src/threads/metric.js';
import { bspTable } from '../src/threads/pipe.js';

/**
 * A printed table follows its sizes evenly, so a figure that strays from the line between its neighbours, by more than
 * a share of their distance, is a misprint or one of the standard's own steps. The steps are listed; anything else
 * fails.
 */
const outliers = (points: readonly (readonly [x: number, y: number])[], share: number): readonly number[] =>
  points.slice(1, -1).flatMap(([x, y], i) => {
    const [x0, y0] = points[i] ?? [0, 0];
    const [x1, y1] = points[i + 2] ?? [0, 0];
    const line = y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
    return Math.abs(y - line) > share * Math.abs(y1 - y0) + 1e-9 ? [x] : [];
  });

const drill = (name: string): number => drills().find((d) => d.name === name)?.diameter ?? Number.NaN;
const column = (rows: readonly (readonly number[])[], k: number) => rows.map((r) => [r[0] ?? 0, r[k] ?? 0] as const);
const inches = (size: string): number =>
  size
    .split(' ')
    .reduce((s, part) => s + (Number(part.split('/')[0]) || 0) / (Number(part.split('/')[1] ?? 1) || 1), 0);

/** Table, its points, the share, and the sizes at which the standard itself steps. */
const tables: readonly (readonly [
  name: string,
  points: readonly (readonly [number, number])[],
  share: number,
  steps: readonly number[],
])[] = [
  ['ISO 273 fine', column(iso273.rows, 1), 0.2, []],
  ['ISO 273 medium', column(iso273.rows, 2), 0.2, []],
  ['ISO 273 coarse', column(iso273.rows, 3), 0.2, []],
  ['B18.2.8 normal', b1828.rows.map((r) => [r[1], drill(r[3])] as const), 0.2, []],
  ['B18.2.8 close', b1828.rows.map((r) => [r[1], drill(r[2])] as const), 0.2, []],
  ['B18.2.8 loose', b1828.rows.map((r) => [r[1], drill(r[4])] as const), 0.2, []],
  ['ISO 4032 across flats', column(metricNuts.rows, 1), 0.2, []],
  ['ISO 4032 height', column(metricNuts.rows, 2), 0.2, [5, 7]],
  ['ISO 4762 head', column(metricCapScrews.rows, 1), 0.2, []],
  ['ISO 4762 key', column(metricCapScrews.rows, 3), 0.35, [2, 16, 18, 20, 22, 24, 27]],
  ['DIN 974-1 counterbore', column(metricCapScrews.rows, 4), 0.19, []],
  ['ISO 10642 head', column(metricCountersunk.rows, 1), 0.2, []],
  ['ISO 7089 hole', column(metricWashers.rows, 1), 0.2, []],
  ['ISO 7089 outside', column(metricWashers.rows, 2), 0.2, [22]],
  [
    'B18.2.2 across flats',
    column(
      inchNuts.rows.filter(([d]) => d >= 0.25),
      1,
    ),
    0.35,
    [],
  ],
  [
    'B18.2.2 height',
    column(
      inchNuts.rows.filter(([d]) => d >= 0.25),
      2,
    ),
    0.2,
    [],
  ],
  ['B18.3 head', column(inchCapScrews.rows, 1), 0.2, []],
  ['B18.3 counterbore', column(inchCapScrews.rows, 4), 0.35, [0.099, 0.112]],
  ['B18.3 flat head', column(inchCountersunk.rows, 1), 0.2, []],
  ['B18.21.1 hole', column(inchWashers.rows, 1), 0.2, []],
  ['B18.21.1 outside', column(inchWashers.rows, 2), 0.2, []],
  ['BS 1083 across flats', column(whitworthNuts.rows, 1), 0.25, [0.2813, 0.3125]],
  ['BS 190 across flats', column(oldWhitworthNuts.rows, 1), 0.25, []],
  ['BA across flats', baNuts.rows.map(([n, f]) => [n, f] as const), 0.15, []],
  ['BA major', baTable.rows.map((r) => [r.number, Math.log(r.major)] as const), 0.15, [13]],
  ['BA pitch', baTable.rows.map((r) => [r.number, Math.log(r.pitch)] as const), 0.15, []],
  [
    'ISO 261 coarse pitch',
    metricTable.rows.flatMap((r) => (r.coarse === null ? [] : [[r.major, r.coarse] as const])),
    0.5,
    [2.2, 24, 48],
  ],
  ['ISO 228 major', bspTable.rows.map((r) => [inches(r[0]), r[2]] as const), 0.15, [0.5]],
  ...(gradeTable.rows[0]?.it ?? []).map(
    (_, g) =>
      [`IT${g + 5}`, gradeTable.rows.map((r) => [Math.log(r.to), Math.log(r.it[g] ?? 1)] as const), 0.25, []] as const,
  ),
  ...(['d', 'e', 'f', 'g', 'n', 'p'] as const).map(
    (l) =>
      [
        `ISO 286 ${l}`,
        deviationTable.rows.map((r) => [Math.log(r.to), Math.log(Math.abs(r[l]))] as const),
        0.25,
        [],
      ] as const,
  ),
];

test('a misprint stands out', () => {
  const rows = column(metricCapScrews.rows, 4);
  // Some lists have 43 for M27, which is the counterbore of M24 with a washer.
  const misprinted = rows.map(([d, bore]) => [d, d === 27 ? 43 : bore] as const);
  expect(outliers(rows, 0.19)).toEqual([]);
  expect(outliers(misprinted, 0.19)).toEqual([27]);
  const slipped = column(iso273.rows, 2).map(([d, hole]) => [d, d === 20 ? 24 : hole] as const);
  expect(outliers(slipped, 0.2)).toContain(20);
});

describe('tables are even', () => {
  test.each(tables)('%s', (_, points, share, steps) => {
    expect(outliers(points, share).map((x) => Number(x.toFixed(4)))).toEqual(steps);
  });
});
