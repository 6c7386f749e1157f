import { randomFrom } from '@fayplate/core';
import { standardFaces } from '@fayplate/handbook';
import { recognise } from '../src/index.js';
import { CHANCE } from '../src/recognise/prior.js';
import { type Truth, measuredFace, ordinaryPart, standardPart } from '../test/support/standards.js';

/**
 * How often standard faces are recognised, and others taken for one, over seeded simulations; beside it the odds that
 * were stated, to see whether they come true. Arguments: faces a row (2000), seed.
 */
const [, , count = '2000', seed = '20265'] = process.argv;
const runs = Number(count);

const table = (title: string, rows: readonly (readonly string[])[]): void => {
  console.log(`\n${title}`);
  for (const row of rows) console.log(`  ${row.map((c, i) => (i === 0 ? c.padEnd(52) : c.padStart(14))).join('')}`);
};
const share = (k: number, n: number): string =>
  n === 0 ? '–' : `${((100 * k) / n).toFixed(2)} ± ${(100 * Math.sqrt(Math.max(k, 1) / n / n)).toFixed(2)} %`;

const without = (truth: Truth, what: 'all' | 'no register' | 'circle alone'): Truth =>
  what === 'all'
    ? truth
    : { ...truth, register: null, ...(what === 'no register' ? {} : { size: null, thread: null }) };

const faces = standardFaces();
interface Told {
  /** Odds that it is a standard at all. */
  readonly odds: number;
  readonly sure: boolean;
  readonly right: boolean;
}

// One stream for all: streams of neighbouring seeds begin alike.
const random = randomFrom(Number(seed));

const standard = (sigma: number, what: Parameters<typeof without>[1]): Told => {
  const std = faces[random.below(faces.length)] ?? faces[0];
  if (std === undefined) throw new Error('no faces');
  const { face, located } = measuredFace(without(standardPart(std, random), what), sigma, random);
  const found = recognise(face, located);
  const best = found?.candidates[0]?.face;
  const right =
    best !== undefined && best.holes.circle === std.holes.circle && best.register?.nominal === std.register?.nominal;
  return { odds: 1 - (found?.none ?? 1), sure: found?.sure === 0, right };
};

const ordinary = (sigma: number, what: Parameters<typeof without>[1]): Told => {
  const { face, located } = measuredFace(without(ordinaryPart(random), what), sigma, random);
  const found = recognise(face, located);
  return { odds: 1 - (found?.none ?? 1), sure: found?.sure === 0, right: false };
};

const each = (of: () => Told): readonly Told[] => Array.from({ length: runs }, of);

console.log(
  `Standard faces: ${runs} parts a row, seed ${seed}; every coordinate and diameter with a normal error of s.`,
);
table('Recognised (called sure), of parts made to a standard; and of parts that follow none', [
  ['measured', 'right', 'wrong one', 'not sure', 'false'],
  ...(['all', 'no register', 'circle alone'] as const).flatMap((what) =>
    [0.02, 0.05, 0.15].map((sigma) => {
      const told = each(() => standard(sigma, what));
      const others = each(() => ordinary(sigma, what));
      const sure = told.filter((t) => t.sure);
      return [
        `${what === 'all' ? 'circle, register, holes or thread' : what === 'no register' ? 'circle, holes or thread' : what}, ` +
          `s ${sigma} mm`,
        share(sure.filter((t) => t.right).length, runs),
        share(sure.filter((t) => !t.right).length, runs),
        share(runs - sure.length, runs),
        share(others.filter((t) => t.sure).length, runs),
      ];
    }),
  ),
]);

const bins = [0, 0.01, 0.05, 0.2, 0.5, 0.8, 0.95, 0.99, 1.0001];
const all = (['all', 'no register', 'circle alone'] as const).flatMap((what) => [
  ...each(() => standard(0.05, what)).map((t) => ({ ...t, is: true, weight: CHANCE.standard })),
  ...each(() => ordinary(0.05, what)).map((t) => ({ ...t, is: false, weight: 1 - CHANCE.standard })),
]);
table(
  'Do the odds come true? One part in ' +
    `${Math.round(1 / CHANCE.standard)} is standard, s 0.05 mm, all three rows above together`,
  [
    ['odds stated that it is a standard', 'mean stated', 'came true', 'parts'],
    ...bins.slice(1).map((to, k) => {
      const from = bins[k] ?? 0;
      const inside = all.filter((t) => t.odds >= from && t.odds < to);
      const weight = inside.reduce((s, t) => s + t.weight, 0);
      const mean = inside.reduce((s, t) => s + t.weight * t.odds, 0) / (weight || 1);
      const came = inside.reduce((s, t) => s + (t.is ? t.weight : 0), 0) / (weight || 1);
      return [
        `${from} to ${Math.min(to, 1)}`,
        `${(100 * mean).toFixed(1)} %`,
        inside.length === 0 ? '–' : `${(100 * came).toFixed(1)} %`,
        String(inside.length),
      ];
    }),
  ],
);
