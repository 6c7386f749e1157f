import { type Random, randomFrom } from '@fayplate/core';

const [FEATURES, READINGS] = [1000, 4000];
const WIDE = Math.ceil(Math.sqrt(FEATURES));
/** Standard deviation of a reading, mm: half its ±; and the misreading of a slip, mm. */
const [SIGMA, SLIP] = [0.025, 5];
const RADIUS = 3;

interface Place {
  readonly x: number;
  readonly y: number;
}

/** What a shape is made from: places on a rough grid, 20 mm apart, and chance. */
interface Ground {
  readonly at: readonly Place[];
  readonly random: Random;
  readonly noise: () => number;
}

interface Shape {
  /** Readings, at most as many as may be. */
  readonly readings: (ground: Ground) => Iterable<string>;
  /** What stands in a feature's braces beside its kind. */
  readonly feature?: (at: Place) => string;
}

const mm = (value: number): string => value.toFixed(3);
const apart = (a: Place, b: Place): number => Math.hypot(a.x - b.x, a.y - b.y);
const by = 'by caliper';

/** Pairs of neighbours in rows, columns and across, nearest first, farther ones after them without end. */
function* neighbours(within: (i: number, j: number) => boolean = () => true): Generator<readonly [number, number]> {
  const fits = (i: number, j: number): boolean => j < FEATURES && within(i, j);
  for (let d = 1; d < WIDE; d++)
    for (let i = 0; i < FEATURES; i++) {
      if ((i % WIDE) + d < WIDE && fits(i, i + d)) yield [i, i + d];
      if (fits(i, i + d * WIDE)) yield [i, i + d * WIDE];
      if (d === 1 && i % WIDE < WIDE - 1 && fits(i, i + WIDE + 1)) yield [i, i + WIDE + 1];
      if (d === 1 && i % WIDE > 0 && fits(i, i + WIDE - 1)) yield [i, i + WIDE - 1];
    }
}

/** Pairs at hazard, none twice in a row and none with itself. */
function* strangers({ random }: Ground): Generator<readonly [number, number]> {
  for (;;) {
    const [i, j] = [Math.floor(random.uniform() * FEATURES), Math.floor(random.uniform() * FEATURES)];
    if (i !== j) yield [i, j];
  }
}

const centres = ({ at, noise }: Ground, i: number, j: number, wrong = 0): string =>
  `centres F${i} F${j} = ${mm(apart(at[i] as Place, at[j] as Place) + noise() + wrong)} ${by}`;

function* places({ at, noise }: Ground): Generator<string> {
  for (const [i, p] of at.entries()) yield `at F${i} = (${mm(p.x + noise())}, ${mm(p.y + noise())}) ${by}`;
}

function* net(ground: Ground, wrong = 0): Generator<string> {
  for (const [i, j] of neighbours())
    yield centres(ground, i, j, wrong > 0 && ground.random.uniform() < wrong ? SLIP : 0);
}

/** How far a lies from the line through b and c. */
const offset = ({ at, noise }: Ground, a: number, b: number, c: number): string => {
  const [p, q, r] = [at[a], at[b], at[c]] as [Place, Place, Place];
  const across = (r.x - q.x) * (p.y - q.y) - (r.y - q.y) * (p.x - q.x);
  return `offset F${a} F${b}-F${c} = ${mm(Math.abs(Math.abs(across) / apart(q, r) + noise()))} ${by}`;
};

/** All from one hole: how far, and the angle from the line to the second; then neighbours. */
function* polar(ground: Ground): Generator<string> {
  const { at, random } = ground;
  const [hub, first] = at as readonly [Place, Place];
  const bearing = (p: Place): number => Math.atan2(p.y - hub.y, p.x - hub.x);
  for (let i = 1; i < FEATURES; i++) {
    yield centres(ground, 0, i);
    if (i === 1) continue;
    const turn = Math.abs(bearing(at[i] as Place) - bearing(first)) + 0.0005 * random.normal();
    const degrees = (Math.abs(Math.min(turn, 2 * Math.PI - turn)) * 180) / Math.PI;
    yield `angle F1 F0 F${i} = ${degrees.toFixed(3)} by protractor`;
  }
  yield* net(ground);
}

/** Four points of every rim. */
function* touches({ at, noise }: Ground): Generator<string> {
  for (const [i, p] of at.entries())
    for (const turn of [0.2, 1.8, 3.3, 4.9]) {
      const r = RADIUS + noise();
      yield `touch F${i} = (${mm(p.x + r * Math.cos(turn))}, ${mm(p.y + r * Math.sin(turn))}) ${by}`;
    }
}

/** Every diameter, and neighbours over their far sides and between their near ones. */
function* rims({ at, noise }: Ground): Generator<string> {
  for (const i of at.keys()) yield `dia F${i} = ${mm(2 * RADIUS + noise())} ${by}`;
  for (const [n, [i, j]] of [...neighbours()].entries()) {
    const d = apart(at[i] as Place, at[j] as Place);
    yield n % 2 === 0
      ? `over F${i} F${j} = ${mm(d + 2 * RADIUS + noise())} ${by}`
      : `between F${i} F${j} = ${mm(d - 2 * RADIUS + noise())} ${by}`;
  }
}

/** Pairs of one kind only, each with the ground that it was read on. */
function* pairs(ground: Ground, from: Iterable<readonly [number, number]>): Generator<string> {
  for (const [i, j] of from) yield centres(ground, i, j);
}

function* offsets(ground: Ground): Generator<string> {
  yield* places(ground);
  const chosen = strangers(ground);
  for (const [a, b] of chosen) {
    const c = Math.floor(ground.random.uniform() * FEATURES);
    if (c !== a && c !== b) yield offset(ground, a, b, c);
  }
}

function* placesAcross(ground: Ground): Generator<string> {
  yield* places(ground);
  for (let d = 1; ; d++) for (let i = 0; i < FEATURES; i++) yield centres(ground, i, (i + 37 * d) % FEATURES);
}

/** Blocks of 4 by 4 places that no reading ties to each other. */
const sameIsland = (i: number, j: number): boolean =>
  Math.floor((i % WIDE) / 4) === Math.floor((j % WIDE) / 4) && Math.floor(i / WIDE / 4) === Math.floor(j / WIDE / 4);
const sameRow = (i: number, j: number): boolean => Math.floor(i / WIDE) === Math.floor(j / WIDE);

const clock = ({ x, y }: Place): string => {
  const half = ((WIDE - 1) * 20) / 2;
  const hours = Math.round(((Math.atan2(x - half, y - half) / Math.PI) * 6 + 12) * 2) / 2;
  const hour = Math.floor(hours) % 12 || 12;
  return `, clock: "${hour}:${hours % 1 === 0 ? '00' : '30'}"`;
};

const kinds: Readonly<Record<string, Shape>> = {
  'net of neighbours': { readings: net },
  'net, one reading in 500 wrong': { readings: (ground) => net(ground, 0.002) },
  'net, with clocks': { readings: net, feature: clock },
  'places, with distances across': { readings: placesAcross },
  'places, with offsets at hazard': { readings: offsets },
  'polar from one hole, with neighbours': { readings: polar },
  'touches of every rim': { readings: touches },
  'diameters, over and between': { readings: rims },
  'islands of sixteen': { readings: (ground) => pairs(ground, neighbours(sameIsland)) },
  'rows that nothing ties together': { readings: (ground) => pairs(ground, neighbours(sameRow)) },
  'pairs at hazard': { readings: (ground) => pairs(ground, strangers(ground)) },
};

const jobOf = ({ readings, feature = () => '' }: Shape): string => {
  const random = randomFrom(4_000_018);
  const at = Array.from({ length: FEATURES }, (_, i) => ({
    x: (i % WIDE) * 20 + 2 * random.uniform(),
    y: Math.floor(i / WIDE) * 20 + 2 * random.uniform(),
  }));
  const lines: string[] = [];
  for (const line of readings({ at, random, noise: () => SIGMA * random.normal() })) {
    if (lines.length >= READINGS) break;
    lines.push(`      - ${line}`);
  }
  const features = at.map((p, i) => `      F${i}: { kind: hole${feature(p)} }`);
  return [
    'job: Largest',
    'units: mm',
    'instruments:',
    '  caliper: ± 0.05',
    '  protractor: ± 0.05 deg',
    'faces:',
    '  A:',
    '    viewed: from outside',
    '    up: F0',
    '    features:',
    ...features,
    '    readings:',
    ...lines,
    '',
  ].join('\n');
};

/** Every shape of job at the limit, each made when it is asked for. */
export const shapes = Object.entries(kinds).map(([name, shape]) => ({ name, job: () => jobOf(shape) }));
