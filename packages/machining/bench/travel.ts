import { type Point, polar, randomFrom } from '@fayplate/core';
import { leg, shortestWay, wayLength } from '../src/travel/order.js';
import { shortWay } from '../src/travel/improve.js';
import { berlin52, lengthOf, roundCosts, shortestRound } from '../test/travel/berlin52.js';

/**
 * How near the order of travel comes to the shortest: exact answers to 16 holes, layouts of known optimum beyond, and a
 * published round.
 */
const scattered = (n: number, seed: number): readonly Point[] => {
  const random = randomFrom(seed);
  return Array.from({ length: n }, () => ({ x: 300 * random.uniform(), y: 200 * random.uniform() }));
};
const costs = (places: readonly Point[]): readonly (readonly number[])[] =>
  places.map((a) => places.map((b) => leg(a, b, null)));
const along = (places: readonly Point[], way: readonly number[]): number =>
  wayLength(
    way.flatMap((i) => places[i] ?? []),
    null,
  );
const say = (name: string, worst: number, mean: number, seconds: number): void =>
  console.log(
    `${name.padEnd(28)} worst ${(100 * (worst - 1)).toFixed(2).padStart(6)} %   mean ` +
      `${(100 * (mean - 1)).toFixed(2).padStart(6)} %   ${(1000 * seconds).toFixed(0).padStart(6)} ms each`,
  );

console.log('order of travel against the shortest there is');
for (const [n, shops] of [
  [13, 150],
  [14, 100],
  [15, 50],
  [16, 20],
] as const) {
  let worst = 1;
  let sum = 0;
  let spent = 0;
  for (let seed = 1; seed <= shops; seed++) {
    const places = scattered(n, 1000 * n + seed);
    const c = costs(places);
    const before = performance.now();
    const found = along(places, shortWay(c));
    spent += performance.now() - before;
    const ratio = found / along(places, shortestWay(c));
    worst = Math.max(worst, ratio);
    sum += ratio;
  }
  say(`${n} holes, ${shops} random shops`, worst, sum / shops, spent / shops / 1000);
}

const shuffled = (places: readonly Point[], seed: number): readonly Point[] => {
  const random = randomFrom(seed);
  const out = places.slice();
  for (let i = out.length - 1; i > 0; i--) {
    const j = random.below(i + 1);
    const [a, b] = [out[i], out[j]];
    if (a !== undefined && b !== undefined) [out[i], out[j]] = [b, a];
  }
  return out;
};
const known: readonly (readonly [string, readonly Point[], number])[] = [
  [
    'circle of 60',
    Array.from({ length: 60 }, (_, i) => polar(100, (2 * Math.PI * i) / 60)),
    59 * 200 * Math.sin(Math.PI / 60),
  ],
  ['grid of 10 × 10', Array.from({ length: 100 }, (_, i) => ({ x: 10 * (i % 10), y: 10 * Math.floor(i / 10) })), 990],
  ['grid of 20 × 20', Array.from({ length: 400 }, (_, i) => ({ x: 10 * (i % 20), y: 10 * Math.floor(i / 20) })), 3990],
  ['grid of 14 × 14', Array.from({ length: 196 }, (_, i) => ({ x: 10 * (i % 14), y: 10 * Math.floor(i / 14) })), 1950],
];
for (const [name, places, shortest] of known) {
  const ratios = [1, 2, 3].map((seed) => {
    const mixed = shuffled(places, seed);
    const before = performance.now();
    const ratio = along(mixed, shortWay(costs(mixed))) / shortest;
    return { ratio, seconds: (performance.now() - before) / 1000 };
  });
  say(
    name,
    Math.max(...ratios.map((r) => r.ratio)),
    ratios.reduce((s, r) => s + r.ratio, 0) / 3,
    ratios.reduce((s, r) => s + r.seconds, 0) / 3,
  );
}
const round = roundCosts(berlin52);
const before = performance.now();
const ratio = lengthOf(round, shortWay(round)) / shortestRound;
say('TSPLIB berlin52', ratio, ratio, (performance.now() - before) / 1000);
