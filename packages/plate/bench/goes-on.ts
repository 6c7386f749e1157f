import { randomFrom } from '@fayplate/core';
import { type GoesOnSpec, type Joint, bestFit, goesOn } from '../src/index.js';

/** Sixteen holes on a 200 mm circle and a register, readings and drilling as stated; σ and ± in mm. */
const flange = (clearance: number, sigma: number, made: number): GoesOnSpec => {
  const joints: Joint[] = Array.from({ length: 16 }, (_, i) => {
    const at = { x: 100 * Math.sin((Math.PI * i) / 8), y: 100 * Math.cos((Math.PI * i) / 8) };
    return {
      id: `P${i + 1}`,
      role: 'fastener',
      plate: at,
      part: at,
      clearance: [clearance, clearance + 0.1],
      along: null,
      made,
    };
  });
  joints.push({
    id: 'spigot',
    role: 'locator',
    plate: { x: 0, y: 0 },
    part: { x: 0, y: 0 },
    clearance: [0.02, 0.05],
    along: null,
    made: 0,
  });
  const n = 2 * joints.length;
  return {
    joints,
    covariance: Array.from({ length: n }, (_, i) =>
      Array.from({ length: n }, (_, j) => (i === j && i < 32 ? sigma ** 2 : 0)),
    ),
  };
};

console.log('Does it go on: 100,000 trials, 16 holes and a register');
for (const [what, spec] of [
  ['read-out, normal holes', flange(0.5, 0.05, 0.1)],
  ['read-out, close holes', flange(0.25, 0.04, 0.1)],
  ['punched, normal holes', flange(0.5, 0.05, 0.5)],
  ['close call', flange(0.25, 0.04, 0.3)],
  ['hopeless', flange(0.05, 0.1, 0.5)],
] as const) {
  const start = performance.now();
  const r = goesOn(spec, { trials: 100_000 });
  const seconds = (performance.now() - start) / 1000;
  console.log(
    `${what.padEnd(24)} ${seconds.toFixed(2).padStart(6)} s ${(100_000 / seconds).toFixed(0).padStart(9)} trials/s ` +
      `  p ${r.probability.toFixed(5)} ± ${(2 * r.standardError).toFixed(5)}`,
  );
}

console.log('\nAgainst closed forms, 1,000,000 trials: share seen, share expected, difference in standard errors');
const held = (clearance: number): GoesOnSpec => {
  const at = (id: string, x: number, y: number, role: Joint['role'], r: number): Joint => ({
    id,
    role,
    plate: { x, y },
    part: { x, y },
    clearance: [r, r],
    along: null,
    made: 0,
  });
  const joints = [
    at('P', 30, 10, 'fastener', clearance),
    at('D1', -60, 0, 'locator', 0),
    at('D2', 60, 0, 'locator', 0),
  ];
  return {
    joints,
    covariance: Array.from({ length: 6 }, (_, i) => Array.from({ length: 6 }, (_, j) => (i === j && i < 2 ? 0.01 : 0))),
  };
};
for (const clearance of [0.1, 0.2, 0.3]) {
  const r = goesOn(held(clearance), { trials: 1_000_000 });
  const p = 1 - Math.exp(-(clearance ** 2) / 0.02);
  console.log(
    `one hole held, clearance ${clearance}: ${r.probability.toFixed(6)}  ${p.toFixed(6)}  ` +
      ((r.probability - p) / Math.sqrt((p * (1 - p)) / 1e6)).toFixed(2),
  );
}

console.log('\nSign of the quick decision against the full solution, 5,000 trials of the close call');
const spec = flange(0.25, 0.04, 0.3);
const chance = randomFrom(1);
let hits = 0;
let nearest = Infinity;
for (let t = 0; t < 5000; t += 1) {
  const z = Array.from({ length: 34 }, () => chance.normal());
  const u = Array.from({ length: 17 }, () => chance.uniform());
  const sigma = Math.hypot(0.04, 0.15);
  const joints = spec.joints.map((j, i): Joint => {
    const clearance = j.clearance[0] + (j.clearance[1] - j.clearance[0]) * (u[i] ?? 0);
    const s = j.role === 'fastener' ? sigma : 0;
    return {
      ...j,
      clearance: [clearance, clearance],
      part: { x: j.part.x + s * (z[2 * i] ?? 0), y: j.part.y + s * (z[2 * i + 1] ?? 0) },
    };
  });
  const { slack } = bestFit(joints);
  nearest = Math.min(nearest, Math.abs(slack));
  if (slack >= 0) hits += 1;
}
console.log(
  `quick ${goesOn(spec, { trials: 5000 }).probability}  full ${hits / 5000}  nearest call ` +
    `${nearest.toExponential(1)} mm`,
);
