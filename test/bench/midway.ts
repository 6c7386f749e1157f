import { randomFrom } from '@fayplate/core';
import { answer } from '@fayplate/study';
import { bare } from '../verdict/job.js';

/**
 * How long a mistake midway takes: plates of two rings of holes, two thirds of them drilled and some of those 1.2 mm
 * out, `prove`d, beside the same plate drilled right. What it tries is bounded: at most three other places, three turns
 * of the second part, six openings, a bush or plug of the fewest holes by halving, and 3,000 layings of the whole.
 */
interface Spot {
  readonly id: string;
  readonly x: number;
  readonly y: number;
}

const ringOf = (prefix: string, n: number, radius: number, from: number, ragged: () => number): readonly Spot[] =>
  Array.from({ length: n }, (_, i) => {
    const a = (2 * Math.PI * (i + from)) / n + ragged();
    return { id: `${prefix}${i + 1}`, x: radius * Math.cos(a), y: radius * Math.sin(a) };
  });

const jobOf = (holes: number, regular: boolean): string => {
  const random = randomFrom(5);
  const ragged = (): number => (regular ? 0 : 0.02 * random.normal());
  const inner = ringOf('A', holes / 2, 40 + 3.2 * holes, 0, ragged);
  const outer = ringOf('B', holes / 2, 80 + 3.2 * holes, 0.5, ragged);
  const at = (s: Spot): string => `      - at ${s.id} = (${s.x.toFixed(4)}, ${s.y.toFixed(4)}) by dro\n`;
  return `job: Midway
units: mm
instruments: { dro: ± 0.01 }
faces:
  low:
    centre: ring
    up: N
    features:
      ring: { kind: spigot, diameter: 20, stands: 2 }
      N: { kind: hole, diameter: 3, vacant: true }
${inner.map((s) => `      ${s.id}: { kind: stud, thread: M8, diameter: 8, stands: 15 }\n`).join('')}    readings:
      - at ring = (0, 0) by dro
      - at N = (0, 20) by dro
${inner.map(at).join('')}  high:
    centre: hub
    up: B1
    features:
      hub: { kind: spigot, diameter: 30, stands: 2 }
${outer.map((s) => `      ${s.id}: { kind: hole, diameter: 9 }\n`).join('')}    readings:
      - at hub = (0, 0) by dro
${outer.map(at).join('')}plate:
  between: [low, high]
  material: mild steel
  thickness: 16
  bore: none
  locate: { low: { register: 20.1, depth: 3 }, high: { register: 30.1, depth: 3 } }
  fasten: { low: { as: clearance, fit: normal, nut: counterbored }, high: { as: tapped, thread: M8 } }
  outline: { shape: round, margin: 15 }
  drilling: ± 0.02
`;
};

interface Way {
  readonly kind: string;
  readonly holds: boolean;
}
const timed = async (text: string) => {
  const began = process.cpuUsage();
  const { json } = await answer(text, 'prove', {}, bare);
  const { user, system } = process.cpuUsage(began);
  const { midway } = json as { readonly midway?: { readonly ways: readonly Way[] } };
  return { seconds: (user + system) / 1e6, ways: midway?.ways ?? [] };
};

console.log('a mistake midway: seconds of the processor for prove, beside the same plate drilled right');
for (const regular of [false, true])
  for (const [holes, wrong] of [
    [12, 3],
    [12, 5],
    [30, 3],
    [30, 8],
    [60, 3],
    [60, 8],
  ] as const) {
    const text = jobOf(holes, regular);
    const { json } = await answer(text, 'plate', { trials: 1 }, bare);
    const drawn = (json as { readonly holes: readonly Spot[] }).holes;
    const done = drawn.slice(0, Math.round((2 * holes) / 3));
    const random = randomFrom(9);
    const out = new Set(
      done
        .map((h) => [random.uniform(), h.id] as const)
        .sort(([a], [b]) => a - b)
        .slice(0, wrong)
        .map(([, id]) => id),
    );
    const drilled = (off: number): string =>
      `${text}drilled:\n  so far: [${done.map((h) => h.id).join(', ')}]\n  readings:\n${done
        .map((h) => {
          const way = 2 * Math.PI * random.uniform();
          const by = out.has(h.id) ? off : 0;
          return (
            `    - at ${h.id} = ` +
            `(${(h.x + by * Math.cos(way)).toFixed(3)}, ${(h.y + by * Math.sin(way)).toFixed(3)}) by dro\n`
          );
        })
        .join('')}`;
    const [right, astray] = [await timed(drilled(0)), await timed(drilled(1.2))];
    const does = astray.ways.filter((w) => w.holds).map((w) => w.kind);
    console.log(
      `${regular ? 'equally divided' : 'of no pattern  '} ${String(holes).padStart(3)} holes, ${wrong} wrong: ` +
        `${astray.seconds.toFixed(1).padStart(5)} s (right: ${right.seconds.toFixed(1)} s), ${astray.ways.length} ` +
        `ways tried, of which do: ${does.join(', ')}`,
    );
  }
