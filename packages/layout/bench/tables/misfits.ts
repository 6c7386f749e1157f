import type { Random } from '@fayplate/core';
import type { Shop } from '../../test/support/network.js';
import { INCH, clockwise, everyDistance, named, onDivisions, shopOf } from '../../test/support/scenes.js';
import { type Run, all, chance, judged, share } from './run.js';

const eight = named(onDivisions(150, 8, all(8)));
const ids = [...eight.keys()];

/**
 * Eight divisions with some holes off their places, each by so many standard deviations of its measured place in a
 * direction of chance.
 */
const strayed = (random: Random, which: readonly number[], far: number, sigma: number): Shop => {
  const diameter = (INCH / 16) * Math.round(((100 + 150 * random.uniform()) * 16) / INCH);
  const places = onDivisions(diameter, 8, all(8));
  const { covariance: c } = shopOf(named(places), everyDistance(ids, sigma));
  const off = places.map((p, i) => {
    const turn = 2 * Math.PI * random.uniform();
    const u = { x: Math.cos(turn), y: Math.sin(turn) };
    const row = 2 * (i + 1);
    const variance =
      u.x ** 2 * c.get(row, row) + u.y ** 2 * c.get(row + 1, row + 1) + 2 * u.x * u.y * c.get(row, row + 1);
    const miss = which.includes(i) ? far * Math.sqrt(variance) : 0;
    return { x: p.x + miss * u.x, y: p.y + miss * u.y };
  });
  return shopOf(named(off), everyDistance(ids, sigma));
};

const anywhere = (random: Random, sigma: number): Shop => {
  const truth = named(all(7).map(() => clockwise(30 + 90 * Math.sqrt(random.uniform()), 360 * random.uniform())));
  return shopOf(truth, everyDistance([...truth.keys()], sigma));
};

interface Row {
  readonly name: string;
  readonly draw: (random: Random) => Shop;
  /** Features off the layout; null: all. */
  readonly off: readonly string[] | null;
}

const rows: readonly Row[] = [
  { name: 'seven holes anywhere', draw: (r) => anywhere(r, 0.05), off: null },
  { name: 'eight divisions, every hole 5 σ off', draw: (r) => strayed(r, all(8), 5, 0.05), off: null },
  { name: 'eight divisions, P4 5 σ off', draw: (r) => strayed(r, [3], 5, 0.05), off: ['P4'] },
  { name: 'eight divisions, P4 5 σ off, finer readings', draw: (r) => strayed(r, [3], 5, 0.025), off: ['P4'] },
];

/** Table 3: patterns that no simple layout fits. */
export const misfits = (run: Run): void => {
  console.log(`
3  Patterns that no simple layout fits by 5 standard deviations or more. Readings: every distance between two features; σ 0.05 mm, the finer 0.025 mm.
   snapped: a layout is chosen that moves a hole which is off it. left: one is chosen that leaves the hole which is off where it was measured.`);
  for (const [row, { name, draw, off }] of rows.entries()) {
    const random = chance(run, 20 + row);
    const count = { snapped: 0, left: 0 };
    for (let k = 0; k < run.runs; k++) {
      const { layout } = judged(draw(random), random);
      const chosen = layout.candidates[layout.chosen ?? -1];
      if (chosen === undefined) continue;
      if (off?.every((id) => chosen.asMeasured.includes(id)) === true) count.left++;
      else count.snapped++;
    }
    console.log(
      `   ${name.padEnd(45)} snapped ${share(count.snapped, run.runs)}   left ${share(count.left, run.runs)}`,
    );
  }
};
