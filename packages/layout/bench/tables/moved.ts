import { type Point, type Random, distance } from '@fayplate/core';
import { isTrue } from '../../test/support/families.js';
import type { Shop } from '../../test/support/network.js';
import { INCH, everyDistance, named, onDivisions, ringReadings, shopOf } from '../../test/support/scenes.js';
import { wholeDrawings } from '../../src/index.js';
import { idealCorner } from './ideal.js';
import { type Run, all, chance, judged, reliability, share } from './run.js';

/** Standard uncertainty of a reading, mm. */
const U = 0.02;

/** Steps of the sizes drawn, mm, by system: a maker works in one. */
const SYSTEMS = [
  [INCH / 8, INCH / 16, INCH / 32],
  [1, 0.5],
];

const pick = <T>(random: Random, of: readonly T[]): T => of[random.below(of.length)] as T;
const round = (random: Random, steps: readonly number[], from: number, to: number): number => {
  const step = pick(random, steps);
  return step * Math.round((from + (to - from) * random.uniform()) / step);
};

const corners = (random: Random): readonly Point[] => {
  const steps = pick(random, SYSTEMS);
  const [a, b] = [round(random, steps, 60, 140), round(random, steps, 60, 140)];
  return [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ].map(([i = 0, j = 0]) => ({ x: (i * a) / 2, y: (j * b) / 2 }));
};

interface Class {
  readonly name: string;
  readonly draw: (random: Random) => readonly Point[];
  readonly spigot: Point | null;
  readonly ring: boolean;
  /** Four corners, of which one who knows the model can say more. */
  readonly corners?: true;
}

const ring =
  (n: number, about?: Point): Class['draw'] =>
  (random) =>
    onDivisions(round(random, pick(random, SYSTEMS), 100, 250), n, all(n), about);
const classes: readonly Class[] = [
  { name: 'six equally divided about the spigot', draw: ring(6), spigot: { x: 0, y: 0 }, ring: true },
  { name: 'eight equally divided about the spigot', draw: ring(8), spigot: { x: 0, y: 0 }, ring: true },
  {
    name: 'seven of twelve divisions about the spigot',
    draw: (r) => onDivisions(round(r, pick(r, SYSTEMS), 100, 250), 12, [0, 1, 3, 4, 6, 8, 9]),
    spigot: { x: 0, y: 0 },
    ring: true,
  },
  { name: 'eight equally divided, no spigot', draw: ring(8), spigot: null, ring: false },
  { name: 'a rectangle about the spigot', draw: corners, spigot: { x: 0, y: 0 }, ring: false },
  { name: 'a rectangle, no spigot', draw: corners, spigot: null, ring: false, corners: true },
];

const shopWith = (c: Class, random: Random, by: number): { readonly made: Shop; readonly moved: string | null } => {
  const places = c.draw(random);
  const which = 1 + random.below(places.length - 1);
  const turn = 2 * Math.PI * random.uniform();
  const off = places.map((p, i) => (i === which ? { x: p.x + by * Math.cos(turn), y: p.y + by * Math.sin(turn) } : p));
  const truth = named(off, c.spigot);
  const readings = c.ring ? ringReadings(places.length, U, 2) : everyDistance([...truth.keys()], U);
  return { made: shopOf(truth, readings), moved: by === 0 ? null : `P${which + 1}` };
};

/** Table 6: regular layouts of which one hole is off its place. */
export const moved = (run: Run): void => {
  const runs = Math.max(1, Math.round(run.runs / 20));
  console.log(`
6  Regular layouts of which one hole was moved by so many u (u = ${U} mm, the standard uncertainty of a reading), in a direction of chance: ${runs} faces a cell; sizes to 1/8–1/32 in, 1 or 0.5 mm.
   taken: a layout is chosen, at any level. right: of those, every position is the true one to what the layout says itself that it does not know. fine grid: one of 1/64 in or 0.25 mm is chosen.
   off: of the faces taken, the moved hole is left where it was measured. inside: of all holes taken, true centre inside its printed ± ('off at most').
   Goals: from 6 u, right ≥ .95 where odds .95–.99 are claimed, and taken ≥ .90; below, inside ≥ .95; fine grid 0.
   an ideal chooser: one who knows that it is a rectangle, of which sizes, and that one corner may have moved; the share to which it gives odds of .95.`);
  for (const [row, c] of classes.entries()) {
    console.log(`   ${c.name}`);
    const honest = reliability();
    for (const [k, times] of [0, 2, 3, 4, 6, 8, 12, 20].entries()) {
      const random = chance(run, 600 + 20 * row + k);
      const count = { taken: 0, right: 0, fine: 0, off: 0, holes: 0, inside: 0, first: 0, ideal: 0 };
      for (let i = 0; i < runs; i++) {
        const { made, moved: off } = shopWith(c, random, times * U);
        const { layout, points } = judged(made, random);
        if (c.corners === true && idealCorner(points, U, SYSTEMS, 20 * U) >= 0.95) count.ideal++;
        const taken = layout.candidates[layout.chosen ?? -1];
        const [first] = wholeDrawings(layout);
        if (off === null ? first?.moved === null && first.asMeasured.length === 0 : first?.moved?.feature === off)
          count.first++;
        if (taken === undefined) continue;
        count.taken++;
        const right = isTrue(taken, made);
        if (right) count.right++;
        if (times === 0 || times >= 6) honest.add(taken.odds, right);
        if (taken.grid !== null && taken.grid.step < 0.45) count.fine++;
        if (off !== null && taken.asMeasured.includes(off)) count.off++;
        for (const [id, f] of taken.features) {
          count.holes++;
          if (distance(f, made.points[made.ids.indexOf(id)] ?? f) <= f.plusMinus + 1e-6) count.inside++;
        }
      }
      console.log(
        `   ${String(times).padStart(3)} u  taken ${share(count.taken, runs)}   right ` +
          `${share(count.right, count.taken)}   off ${share(count.off, count.taken)}   inside ` +
          `${share(count.inside, count.holes)}   fine grid ${count.fine}   told first ` +
          `${share(count.first, runs)}${c.corners === true ? `   an ideal chooser takes ${share(count.ideal, runs)}` : ''}`,
      );
    }
    honest.print();
  }
};
