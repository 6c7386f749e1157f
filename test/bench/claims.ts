import { type Claim, claimsOf, surprise } from '../journeys/claims.js';

/** Claimed chances beside what happened, over simulated shops; beside them a tool that takes its centres for exact. */
const shops = Number(process.argv[2] ?? 1000);
const seeds = Array.from({ length: shops }, (_, i) => 10_000 + i);
const bins = [0, 0.05, 0.2, 0.4, 0.6, 0.8, 0.95, 0.997, 1.001];

const show = (title: string, claims: readonly Claim[]): void => {
  console.log(
    `\n${title}: ${claims.length} faces; ${claims.filter((c) => c.wentOn).length} went on, ` +
      `${claims.reduce((s, c) => s + c.chance, 0).toFixed(1)} were claimed: ${surprise(claims).toFixed(2)} standard ` +
      'deviations apart',
  );
  console.log('claimed        faces  mean claimed  went on');
  for (const [i, from] of bins.slice(0, -1).entries()) {
    const some = claims.filter((c) => c.chance >= from && c.chance < (bins[i + 1] ?? 1));
    if (some.length === 0) continue;
    const mean = some.reduce((s, c) => s + c.chance, 0) / some.length;
    console.log(
      `${`${from} to ${Math.min(bins[i + 1] ?? 1, 1)}`.padEnd(14)} ${String(some.length).padStart(5)} ` +
        `${mean.toFixed(4).padStart(13)} ` +
        (some.filter((c) => c.wentOn).length / some.length).toFixed(4).padStart(8),
    );
  }
};

show(
  'Fayplate',
  seeds.flatMap((seed) => claimsOf(seed, 2000)),
);
show(
  'Centres taken for exact',
  seeds.slice(0, Math.ceil(shops / 4)).flatMap((seed) => claimsOf(seed, 2000, true)),
);
