import { type Random, randomFrom } from '@fayplate/core';
import { type Job, readJob } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { type Plate, designPlate, solveStack } from '@fayplate/plate';
import { locateFace } from '@fayplate/survey';

const pick = <T>(random: Random, items: readonly T[]): T => items[random.below(items.length)] as T;
const mm = (v: number): string => v.toFixed(4);

interface Ring {
  readonly lines: readonly string[];
  readonly readings: readonly string[];
}

const ring = (random: Random, letter: string, n: number, radius: number, feature: string): Ring => {
  const start = random.uniform() * 6;
  const at = Array.from({ length: n }, (_, i) => {
    const a = start + (2 * Math.PI * (i + (random.uniform() - 0.5) / 4)) / n;
    const r = radius + random.uniform() * 3;
    return [r * Math.cos(a), r * Math.sin(a)] as const;
  });
  return {
    lines: at.map((_, i) => `      ${letter}${i + 1}: { ${feature} }`),
    readings: at.map(([x, y], i) => `      - at ${letter}${i + 1} = (${mm(x)}, ${mm(y)}) ± 0.02`),
  };
};

/**
 * A job of a random plate: outlines and ways to locate and fasten of every kind, holes on two rings that stand apart.
 */
export const randomJob = (seed: number): string => {
  const random = randomFrom(seed);
  const middle = { a: pick(random, ['spigot', 'bore']), b: pick(random, ['spigot', 'bore']) };
  const d = [60 + random.uniform() * 8, 56 + random.uniform() * 8] as const;
  const inner = ring(random, 'A', 3 + random.below(4), 52, 'kind: stud, thread: M8, diameter: 7.9, stands: 60');
  const outer = ring(random, 'B', 3 + random.below(6), 88, 'kind: hole, diameter: 11');
  const thick = 22 + random.uniform() * 14;
  const outline = pick(random, [
    '{ shape: round, margin: 14 }',
    '{ shape: follow, margin: 14 }',
    '{ shape: rectangle, margin: 12, corner: 8 }',
    '{ shape: rectangle, margin: 12 }',
    '{ like: second, margin: 2 }',
  ]);
  const rim = Array.from({ length: 9 }, (_, i) => {
    const a = (2 * Math.PI * i) / 9;
    const r = 112 + random.uniform() * 12;
    return `"(${mm(r * Math.cos(a))}, ${mm(r * Math.sin(a))})"`;
  });
  return [
    `job: random plate ${seed}`,
    'units: mm',
    'faces:',
    '  first:',
    '    centre: C',
    '    features:',
    `      C: { kind: ${middle.a}, diameter: ${mm(d[0])} }`,
    ...inner.lines,
    '    readings:',
    '      - at C = (0, 0) ± 0.02',
    ...inner.readings,
    '  second:',
    '    centre: D',
    '    flange: 15 mm',
    '    features:',
    `      D: { kind: ${middle.b}, diameter: ${mm(d[1])} }`,
    ...outer.lines,
    '    readings:',
    '      - at D = (0, 0) ± 0.02',
    ...outer.readings,
    `    rim: [${rim.join(', ')}]`,
    'plate:',
    '  between: [first, second]',
    '  material: aluminium',
    `  thickness: ${mm(thick)}`,
    ...(random.uniform() < 0.7 ? [`  bore: { diameter: ${mm(30 + random.uniform() * 15)} }`] : []),
    '  locate:',
    ...(random.uniform() < 0.8
      ? [`    first: { register: ${mm(d[0] + 0.05)}, depth: ${mm(2 + random.uniform() * 3)} }`]
      : []),
    `    second: { register: ${mm(d[1] - 0.05)}, depth: ${mm(2 + random.uniform() * 3)} }`,
    '  fasten:',
    `    first: { as: clearance, ${pick(random, ['nut: counterbored', 'nut: spotfaced', 'nut: plain'])} }`,
    `    second: ${pick(random, [
      '{ as: tapped, thread: M10, blind: true, engagement: 1 d }',
      '{ as: tapped, thread: M10 }',
      '{ as: clearance, thread: M10, cap screw: counterbored }',
      '{ as: clearance, thread: M10, countersunk screw: countersunk }',
    ])}`,
    `  outline: ${outline}`,
    '',
  ].join('\n');
};

/** The plate of a job text, from its readings on; null where the job asks for what cannot be. */
export const plateOf = (text: string): { readonly job: Job; readonly plate: Plate } | null => {
  const read = readJob(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const { job } = read;
  const used = new Map(
    job.faces.map((face) => {
      const located = locateFace({ face, instruments: job.instruments }, { next: false });
      const u = usedPattern(face, located, layoutFace(face, located));
      if (!u.ok) throw new Error(u.why);
      return [face.name, u.used];
    }),
  );
  const designed = designPlate(job, used, { stack: job.stack === null ? null : solveStack(job.stack), trials: 50 });
  return designed.ok ? { job, plate: designed.plate } : null;
};
