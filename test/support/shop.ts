import { type Random, randomFrom } from '@fayplate/core';

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A part as it is, which nobody in the shop knows: pins as viewed, mm. */
export interface Part {
  readonly pins: readonly Point[];
  readonly diameter: number;
}

export interface Shop {
  readonly parts: readonly [Part, Part];
  readonly job: string;
  /** ± of one hole's place, mm. */
  readonly drilling: number;
}

const fits = ['close', 'normal', 'loose'] as const;

/** Pins about a ring, none where a regular pattern has it. */
const partOf = (random: Random): Part => {
  const n = 3 + Math.floor(5 * random.uniform());
  const radius = 50 + 60 * random.uniform();
  const pins = Array.from({ length: n }, (_, i) => {
    const angle = (2 * Math.PI * (i + 0.5 * random.uniform())) / n;
    const r = radius * (0.8 + 0.4 * random.uniform());
    return { x: r * Math.cos(angle), y: r * Math.sin(angle) };
  });
  return { pins, diameter: [8, 10, 12][Math.floor(3 * random.uniform())] ?? 10 };
};

const faceLines = (name: string, part: Part, plusMinus: number, random: Random): readonly string[] => {
  const ids = part.pins.map((_, i) => `P${i + 1}`);
  const clock = (p: Point): string => {
    const hours = ((Math.atan2(p.x, p.y) * 6) / Math.PI + 12) % 12;
    const minutes = Math.floor((hours % 1) * 60);
    return `${Math.floor(hours) === 0 ? 12 : Math.floor(hours)}:${String(minutes).padStart(2, '0')}`;
  };
  const pairs = ids.flatMap((a, i) =>
    ids.slice(i + 1).map((b, k) => [a, b, part.pins[i], part.pins[i + 1 + k]] as const),
  );
  return [
    `  ${name}:`,
    `    across: ${ids[0] ?? ''} ${ids[1] ?? ''}`,
    '    features:',
    ...part.pins.map(
      (p, i) => `      ${ids[i] ?? ''}: { kind: stud, diameter: ${part.diameter} mm, clock: "${clock(p)}" }`,
    ),
    '    readings:',
    ...pairs.map(([a, b, p, q]) => {
      const true_ = Math.hypot((p?.x ?? 0) - (q?.x ?? 0), (p?.y ?? 0) - (q?.y ?? 0)) + part.diameter;
      return `      - over ${a} ${b} = ${(true_ + (plusMinus / 2) * random.normal()).toFixed(4)} by caliper`;
    }),
  ];
};

/**
 * A shop with two parts and its readings of them; the ± of readings and drilling, the sizes and the fit are drawn so
 * that plates go on now always, now seldom.
 */
export const shopOf = (seed: number): Shop => {
  const random = randomFrom(seed);
  const parts = [partOf(random), partOf(random)] as const;
  const plusMinus = 0.1 + 0.9 * random.uniform();
  const drilling = 0.05 + 0.55 * random.uniform();
  const fit = (): string => fits[Math.floor(3 * random.uniform())] ?? 'normal';
  const job = [
    `job: shop ${seed}`,
    'units: mm',
    'instruments:',
    `  caliper: ± ${plusMinus.toFixed(3)}`,
    'faces:',
    ...faceLines('below', parts[0], plusMinus, random),
    ...faceLines('above', parts[1], plusMinus, random),
    'plate:',
    '  between: [below, above]',
    '  material: aluminium',
    '  thickness: 20',
    '  clocking: 0 deg',
    '  fasten:',
    `    below: { as: clearance, fit: ${fit()} }`,
    `    above: { as: clearance, fit: ${fit()} }`,
    '  outline: { shape: round, margin: 15 mm }',
    `  drilling: ± ${drilling.toFixed(3)}`,
    '',
  ].join('\n');
  return { parts, job, drilling: Number(drilling.toFixed(3)) };
};

const PHI = (Math.sqrt(5) - 1) / 2;

/** Least value of a function with one valley in [from, to], by golden section (from memory). */
const valley = (f: (v: number) => number, from: number, to: number, turns: number): number => {
  let [a, b] = [from, to];
  let [c, d] = [b - PHI * (b - a), a + PHI * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  for (let i = 0; i < turns; i++) {
    if (fc < fd) {
      [b, d, fd] = [d, c, fc];
      c = b - PHI * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + PHI * (b - a);
      fd = f(d);
    }
  }
  return Math.min(fc, fd);
};

/**
 * Radial room left at the tightest hole with the plate shifted and turned as well as can be, mm, below zero where it
 * does not go on: three golden sections one inside another, of turn, x and y. It shares no code with the rooms.
 */
export const roomLeft = (pins: readonly Point[], holes: readonly (Point & { readonly room: number })[]): number => {
  const mean = (points: readonly Point[]): Point => ({
    x: points.reduce((s, p) => s + p.x, 0) / points.length,
    y: points.reduce((s, p) => s + p.y, 0) / points.length,
  });
  const [p0, h0] = [mean(pins), mean(holes)];
  const p = pins.map((q) => ({ x: q.x - p0.x, y: q.y - p0.y }));
  const h = holes.map((q) => ({ x: q.x - h0.x, y: q.y - h0.y }));
  const [dot, cross] = p.reduce(
    ([s, t], a, i) =>
      [s + a.x * (h[i]?.x ?? 0) + a.y * (h[i]?.y ?? 0), t + a.x * (h[i]?.y ?? 0) - a.y * (h[i]?.x ?? 0)] as const,
    [0, 0] as readonly [number, number],
  );
  const best = Math.atan2(cross, dot);
  const excess = (turn: number): number => {
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const apart = p.map((a, i) => ({
      x: c * a.x - s * a.y - (h[i]?.x ?? 0),
      y: s * a.x + c * a.y - (h[i]?.y ?? 0),
      room: holes[i]?.room ?? 0,
    }));
    const at = (x: number, y: number): number =>
      apart.reduce((most, a) => Math.max(most, Math.hypot(a.x + x, a.y + y) - a.room), -Infinity);
    return valley((x) => valley((y) => at(x, y), -3, 3, 26), -3, 3, 26);
  };
  return -valley(excess, best - 0.05, best + 0.05, 22);
};
