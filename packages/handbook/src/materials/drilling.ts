import { MM_PER_INCH } from '@fayplate/core';
import type { Table } from '../source.js';

/** Turns a minute for a cutting speed (m/min) at a diameter (mm): n = v / (π d), which is 3.82 × SFM / inches. */
export const turnsPerMinute = (metresPerMinute: number, diameter: number): number =>
  (1000 * metresPerMinute) / (Math.PI * diameter);

/** Feed a turn for twist drills up to a diameter, both inches; the middle of each printed range. */
export const drillFeeds: Table<readonly [to: number, feed: number]> = {
  source: 'twist drill feeds, from memory: 0.001–0.003 in below 1/8, to 0.004 at 1/4, 0.007 at 1/2, 0.015 at 1 in',
  rows: [
    [1 / 8, 0.002],
    [1 / 4, 0.003],
    [1 / 2, 0.0055],
    [1, 0.01],
    [Infinity, 0.015],
  ],
};

/** Feed a turn, mm, for a drill of a diameter, mm. */
export const feedPerTurn = (diameter: number): number =>
  (drillFeeds.rows.find(([to]) => diameter / MM_PER_INCH <= to + 1e-9)?.[1] ?? 0.015) * MM_PER_INCH;
