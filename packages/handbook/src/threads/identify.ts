import { MM_PER_INCH } from '@fayplate/core';
import { classLimits } from './limits.js';
import { threads } from './list.js';
import { taperThreads } from './pipe.js';

/** What was measured of a thread: over its crests, and from crest to crest; mm, the ± at 95 in 100. */
export interface MeasuredThread {
  readonly major: number;
  readonly majorPlusMinus: number;
  readonly pitch: number;
  readonly pitchPlusMinus: number;
}

/** A thread of any system, as far as telling it from others goes; mm, radians. */
export interface AnyThread {
  readonly name: string;
  readonly system: string;
  readonly least: number;
  readonly most: number;
  readonly pitch: number;
  readonly tpi: number | null;
  readonly angle: number;
  readonly taper: boolean;
}

/** A thread that a measured one may be, and the odds of it, 0 to 1. */
export interface ThreadOdds {
  readonly thread: AnyThread;
  readonly odds: number;
}

/**
 * How often each system is met on machines, before anything is measured. Source: none, a guess; within a system every
 * size is as likely as another.
 */
const met: Readonly<Record<string, number>> = {
  'metric coarse': 0.27,
  'metric fine': 0.11,
  UNC: 0.16,
  UNF: 0.12,
  UNEF: 0.02,
  UNS: 0.005,
  BSW: 0.08,
  BSF: 0.07,
  BSC: 0.02,
  brass: 0.015,
  BA: 0.05,
  G: 0.03,
  R: 0.02,
  NPT: 0.03,
};
/** Chance that it is none that is held. */
const STRANGE = 0.02;
/** Wear, dirt and burrs beside the ± of a caliper, standard uncertainty, mm. */
const WEAR = 0.03;

const every: () => readonly AnyThread[] = () => [
  ...threads.map((t) => {
    const { least, most } = classLimits(t).external;
    return { name: t.name, system: t.series, least, most, pitch: t.pitch, tpi: t.tpi, angle: t.angle, taper: false };
  }),
  // A taper thread measures smaller toward its end: up to a few turns' worth.
  ...taperThreads.map((t) => ({
    name: t.name,
    system: t.series,
    least: t.major - 0.6,
    most: t.major + 0.1,
    pitch: t.pitch,
    tpi: t.tpi,
    angle: t.angle,
    taper: true,
  })),
];

const normal = (off: number, sigma: number): number =>
  Math.exp(-((off / sigma) ** 2) / 2) / (sigma * Math.sqrt(2 * Math.PI));

/**
 * The threads of every system that are held by their odds, given both figures with their ±, likeliest first (to 1 in
 * 1000), and the odds of none: prior by system, the diameter against the limits of the usual class, the pitch against
 * the nominal one.
 */
export const identifyThread = (
  m: MeasuredThread,
): { readonly candidates: readonly ThreadOdds[]; readonly none: number } => {
  const all = every();
  const counts = new Map<string, number>();
  for (const t of all) counts.set(t.system, (counts.get(t.system) ?? 0) + 1);
  const weighed = all.map((thread) => {
    const { system, least, most, pitch } = thread;
    const d = Math.hypot(m.majorPlusMinus / 2, (most - least) / Math.sqrt(12), WEAR);
    const weight =
      (((1 - STRANGE) * (met[system] ?? 0)) / (counts.get(system) ?? 1)) *
      normal(m.major - (least + most) / 2, d) *
      normal(m.pitch - pitch, m.pitchPlusMinus / 2);
    return { thread, weight };
  });
  // Any diameter from 1 to 110 mm and any pitch from 0.2 to 6 mm, evenly on a logarithmic scale.
  const strange = STRANGE / (m.major * Math.log(110) * m.pitch * Math.log(30));
  const total = weighed.reduce((s, w) => s + w.weight, strange);
  return {
    candidates: weighed
      .map((w) => ({ thread: w.thread, odds: w.weight / total }))
      .filter((w) => w.odds >= 0.001)
      .toSorted((a, b) => b.odds - a.odds),
    none: strange / total,
  };
};

const degrees = (a: number): string => `${((a * 180) / Math.PI).toFixed(1).replace(/\.0$/, '')}°`;
const pitchWords = (t: AnyThread): string => (t.tpi === null ? `${t.pitch} mm` : `${t.tpi} to the inch`);

/**
 * What would tell two threads apart in the shop, in one sentence: taper, pitch over a length, diameter, or the angle of
 * the flanks.
 */
export const tellApart = (a: AnyThread, b: AnyThread): string => {
  if (a.taper !== b.taper) {
    const [taper, plain] = a.taper ? [a, b] : [b, a];
    return (
      `Measure over the crests at the end and 16 mm further up: ${taper.name} grows by 1 mm (taper 1 in 16), ` +
      `${plain.name} stays the same.`
    );
  }
  const over = 10;
  const gap = Math.abs(a.pitch - b.pitch) * over;
  if (gap >= 0.4)
    return (
      `Measure over ${over} threads: ${a.name} (${pitchWords(a)}) takes ${(over * a.pitch).toFixed(2)} mm ` +
      `(${((over * a.pitch) / MM_PER_INCH).toFixed(3)} in), ${b.name} (${pitchWords(b)}) ` +
      `${(over * b.pitch).toFixed(2)} mm (${((over * b.pitch) / MM_PER_INCH).toFixed(3)} in).`
    );
  if (a.least > b.most + 0.05 || b.least > a.most + 0.05)
    return (
      `Measure a clean part of the crests: ${a.name} is ${a.least.toFixed(2)} to ${a.most.toFixed(2)} mm, ${b.name} ` +
      `${b.least.toFixed(2)} to ${b.most.toFixed(2)} mm.`
    );
  if (Math.abs(a.angle - b.angle) > 0.01) {
    const [wide, narrow] = a.angle > b.angle ? [a, b] : [b, a];
    return `Pitch and diameter are too near: the flanks tell. A ${degrees(wide.angle)} pitch gauge fits ${wide.name} with no light, and rocks in ${narrow.name} (${degrees(narrow.angle)}${
      narrow.system === 'BSW' || narrow.system === 'BSF' || narrow.system === 'G' || narrow.system === 'brass'
        ? ', crests and roots rounded'
        : ''
    }).`;
  }
  if (gap >= 0.1)
    return (
      `Run a pitch gauge of each along it, or measure over ${Math.ceil(0.4 / Math.abs(a.pitch - b.pitch))} threads: ` +
      `${a.name} has ${pitchWords(a)}, ${b.name} ${pitchWords(b)}.`
    );
  return `No caliper tells ${a.name} from ${b.name}: try a known nut of each.`;
};
