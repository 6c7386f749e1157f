import { randomFrom } from '@fayplate/core';
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { adjust } from '../src/adjust/adjust.js';
import type { Adjustment } from '../src/adjust/adjustment.js';
import { centreCovariances } from '../src/frame/covariance.js';
import { datumOf } from '../src/frame/datum.js';
import { inDatum } from '../src/frame/placed.js';
import { type Network, networkOf } from '../src/network/network.js';
import { gridShop } from '../test/shops.js';
import { simulate } from '../test/simulate.js';

/**
 * Time against size: plates of 10 to 1,000 holes, four readings a hole; every centre's covariance and every redundancy
 * number included.
 */
const SIZES = [10, 30, 100, 300, 1000];
/** The dense library takes too long beyond. */
const DENSE_TO = 300;
const RUNS = 5;

const full = (network: Network, start: Float64Array): Adjustment => {
  const a = adjust(network, start);
  const datum = datumOf(network.face, network.unknowns, a.values, []);
  const covarianceAt = centreCovariances(a, datum);
  for (const slots of network.unknowns.features.values()) covarianceAt(inDatum(datum, a.values, slots));
  return a;
};

const cpu = (work: () => void): number => {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
};

/**
 * The same least squares by a dense general-purpose library, the frame's three coordinates held where the sparse answer
 * has them.
 */
const dense = (
  network: Network,
  answer: Adjustment,
  start: Float64Array,
): { readonly seconds: number; readonly apart: number } => {
  const { unknowns, observations, face } = network;
  const [from, to] = face.across ?? ['', ''];
  const held = new Set([unknowns.features.get(from)?.x, unknowns.features.get(from)?.y, unknowns.features.get(to)?.y]);
  const free = [...start.keys()].filter((u) => !held.has(u));
  const base = Float64Array.from(answer.values);
  const placeOf = new Map(free.map((u, k) => [u, k]));
  const x = Float64Array.from(base);
  const put = (parameters: readonly number[]): void => {
    for (const [k, u] of free.entries()) x[u] = parameters[k] as number;
  };
  const slopes = new Float64Array(16);
  let solution: readonly number[] = [];
  const seconds = cpu(() => {
    solution = levenbergMarquardt(
      { x: observations.map((_, i) => i), y: observations.map((o) => o.value / o.sigma) },
      (parameters: number[]) => {
        put(parameters);
        return (i: number) => (observations[i]?.model(x) ?? 0) / (observations[i]?.sigma ?? 1);
      },
      {
        initialValues: free.map((u) => start[u] as number),
        jacobianFunction: (parameters: number[]) => {
          put(parameters);
          return (i: number) => {
            const row = free.map(() => 0);
            const o = observations[i];
            if (o === undefined) return row;
            o.model(x, slopes);
            for (const [k, u] of o.unknowns.entries()) {
              const place = placeOf.get(u);
              if (place !== undefined) row[place] = (slopes[k] as number) / o.sigma;
            }
            return row;
          };
        },
        damping: 1e-3,
        maxIterations: 12,
        errorTolerance: 1e-12,
      },
    ).parameterValues;
  });
  return {
    seconds,
    apart: Math.max(...free.map((u, k) => Math.abs((solution[k] as number) - (answer.values[u] as number)))),
  };
};

console.log('\nTime against size (CPU seconds, median of five; start off the answer by 1 mm)');
console.log('holes  readings  unknowns   seconds   exponent since last   dense library   largest difference, mm');
let last: { readonly holes: number; readonly seconds: number } | null = null;
const first: { holes: number; seconds: number }[] = [];
for (const holes of SIZES) {
  const random = randomFrom(20_261);
  const shop = gridShop(holes, random);
  const { survey, start } = simulate(shop.template, shop.truth, random);
  const network = networkOf(survey);
  const off = start.map((v) => v + random.normal());
  let answer = full(network, off);
  const times = Array.from({ length: RUNS }, () => cpu(() => (answer = full(network, off)))).sort((a, b) => a - b);
  const seconds = times[Math.floor(RUNS / 2)] as number;
  const exponent = last === null ? '' : (Math.log(seconds / last.seconds) / Math.log(holes / last.holes)).toFixed(2);
  const other = holes <= DENSE_TO ? dense(network, answer, off) : null;
  console.log(
    [
      String(holes).padStart(5),
      String(network.readings.length).padStart(9),
      String(network.unknowns.count).padStart(9),
      seconds.toFixed(4).padStart(9),
      exponent.padStart(21),
      (other?.seconds.toFixed(2) ?? '').padStart(15),
      (other?.apart.toExponential(1) ?? '').padStart(24),
    ].join(' '),
  );
  last = { holes, seconds };
  first.push(last);
}
const [a, b] = [first.find((f) => f.holes === 100), first.at(-1)];
if (a !== undefined && b !== undefined)
  console.log(
    `exponent from 100 to ${b.holes} holes: ` +
      `${(Math.log(b.seconds / a.seconds) / Math.log(b.holes / a.holes)).toFixed(2)} (asked: at most 1.5)`,
  );
