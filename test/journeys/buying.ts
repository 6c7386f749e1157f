import { type Random, randomFrom } from '@fayplate/core';
import { answer } from '@fayplate/study';
import { bare } from '../verdict/job.js';

/**
 * Sellers with a part each, to set the odds of `buy` beside what comes of it. A part is drawn truly; its seller's
 * figures are the truth with an error of half their ±; and when it arrives it is measured exactly and the plate is
 * designed for it, as a person would, by a job of its own.
 */

/** What a part truly is, or what its seller says of it, mm. Its four holes lie equally divided on a circle. */
interface Part {
  readonly reach: number;
  readonly spigot: number;
  readonly stands: number;
  /** From the spigot's rim to each hole's near side, then from each hole to the next, centre to centre. */
  readonly webs: readonly number[];
  readonly chords: readonly number[];
}

/** What decides whether a plate can exist. */
export type Kind = 'stack' | 'pattern' | 'register' | 'stud';

export const kinds: readonly Kind[] = ['stack', 'pattern', 'register', 'stud'];

const HOLE = 9;
const AT_HAND = 50;

/** A part with its size that decides `off` mm beyond where a plate is just possible (below zero: it is possible). */
const partOf = (kind: Kind, off: number): Part => {
  // Metal of 6 between an M6 thread on 100 and an M8 thread on the circle, each at its largest: 50 + 3 + 6 + 4.
  const circle = 2 * (kind === 'pattern' ? 63 - off : 90);
  // The recess is 0.1 larger than the spigot, and 6 from the M6 threads: 2 (50 − 3 − 6) − 0.1.
  const spigot = kind === 'register' ? 81.9 + off : 30;
  return {
    reach: kind === 'stack' ? 30.3 + off : 20,
    spigot,
    // A plate 16 thick with a floor of 4, its nut (6.8) let in, and a thread of 1.25 past it, in steps of 0.5: 13.8 to
    // 14.
    stands: kind === 'stud' ? 13.8 - off : 2,
    webs: Array.from({ length: 4 }, () => circle / 2 - spigot / 2 - HOLE / 2),
    chords: Array.from({ length: 4 }, () => circle / Math.SQRT2),
  };
};

const told = (part: Part, random: Random): Part => {
  const off = (v: number): number => Number((v + 0.5 * random.normal()).toFixed(2));
  return {
    reach: off(part.reach),
    spigot: off(part.spigot),
    stands: off(part.stands),
    webs: part.webs.map(off),
    chords: part.chords.map(off),
  };
};

/** The job: `sold` with a seller's figures, else with a part that is measured. */
const jobOf = (kind: Kind, part: Part, sold: boolean): string => {
  const by = sold ? 'rule' : 'dro';
  const stud = kind === 'stud';
  const hole = (i: number): string =>
    stud
      ? `B${i}: { kind: stud, thread: M8, diameter: ${HOLE}, stands: ${part.stands}, clock: ` +
        `${i === 1 ? 12 : (i - 1) * 3} }`
      : `B${i}: { kind: hole, diameter: ${HOLE}, clock: ${i === 1 ? 12 : (i - 1) * 3} }`;
  const low = [
    [0, 1],
    [1, 0],
    [0, -1],
    [-1, 0],
  ].map(([x = 0, y = 0], i) => `      - at A${i + 1} = (${AT_HAND * x}, ${AT_HAND * y}) by dro`);
  return `job: ${kind}
units: mm
instruments: { dro: ± 0.01, rule: ± 1 }
faces:
  low:
    centre: ring
    up: A1
    features:
      ring: { kind: spigot, diameter: 20, stands: 2 }
${[1, 2, 3, 4].map((i) => `      A${i}: { kind: hole, thread: M6, diameter: 6.6 }`).join('\n')}
    readings:
      - at ring = (0, 0) by dro
${low.join('\n')}
  high:
${sold ? '    seller: ± 1\n' : ''}    centre: hub
    up: B1
    features:
      hub: { kind: spigot, diameter: ${part.spigot.toFixed(3)} ± ${sold ? 1 : 0.01}, stands: ${stud ? 2 : part.stands} }
${[1, 2, 3, 4].map((i) => `      ${hole(i)}`).join('\n')}
    readings:
${part.webs.map((w, i) => `      - between B${i + 1} hub = ${w.toFixed(3)} by ${by}`).join('\n')}
${part.chords.map((c, i) => `      - centres B${i + 1} B${((i + 1) % 4) + 1} = ${c.toFixed(3)} by ${by}`).join('\n')}
plate:
  between: [low, high]
  material: mild steel
  thickness: ${kind === 'stack' ? 'from stack' : '16'}
  bore: none
  locate: { low: { register: 20.1, depth: 3 }, high: { register: ${(part.spigot + 0.1).toFixed(3)}, depth: ${(stud ? 2 : part.stands) + 1} } }
  fasten:
    low: { as: tapped, thread: M6 }
    high: ${stud ? '{ as: clearance, fit: loose, nut: counterbored }' : '{ as: tapped, thread: M8 }'}
  outline: { shape: round, margin: 15 }
  limits: { web: ${stud ? 4 : 6} }
  drilling: ± 0.01
${
  kind === 'stack'
    ? `stack:
  links: { reach: ${part.reach} ± ${sold ? 1 : 0.2}, plate: { find: 12 .. 20 } }
  limits: { gap: { sum: reach - plate, least: 10, most: 10.5 } }
`
    : ''
}`;
};

export interface Bought {
  readonly kind: Kind;
  readonly odds: number;
  /** Whether a plate could be made for the part that came. */
  readonly made: boolean;
  readonly asks: readonly string[];
  /** What stood in the way of the part that came; empty where nothing did. */
  readonly because: string;
}

const ask = async (text: string, command: 'buy' | 'plate', trials: number): Promise<unknown> => {
  const a = await answer(text, command, { trials }, bare);
  if (a.error !== null || a.faults.length > 0) throw new Error(JSON.stringify([a.error, a.faults, a.thrown, text]));
  return a.json;
};

/**
 * One seller: what `buy` says of his figures, and what came of the part. `off`: how far the deciding size is past what
 * a plate bears, mm.
 */
export const bought = async (kind: Kind, seed: number, trials: number): Promise<Bought> => {
  const random = randomFrom(seed);
  // The first draws of seeds that follow each other are alike.
  for (let i = 0; i < 20; i++) random.uniform();
  const part = partOf(kind, 3 * (random.uniform() - 0.5));
  const [said, came] = [jobOf(kind, told(part, random), true), jobOf(kind, part, false)];
  const { odds, ask: asks } = (await ask(said, 'buy', trials)) as {
    readonly odds: number;
    readonly ask: readonly { readonly says: string }[];
  };
  const { verdict } = (await ask(came, 'plate', 100)) as {
    readonly verdict: { readonly answer: string; readonly because: string };
  };
  const made = verdict.answer !== 'no';
  return { kind, odds, made, asks: asks.map((a) => a.says), because: made ? '' : verdict.because };
};

/**
 * Claimed odds beside what came: how far apart they are in standard deviations, and the mean square of what was said
 * less what came.
 */
export const judged = (all: readonly Bought[]) => {
  const claimed = all.reduce((s, b) => s + b.odds, 0);
  const came = all.filter((b) => b.made).length;
  const variance = all.reduce((s, b) => s + b.odds * (1 - b.odds), 0);
  const brier = all.reduce((s, b) => s + (b.odds - (b.made ? 1 : 0)) ** 2, 0) / all.length;
  return {
    claimed,
    came,
    apart: (came - claimed) / Math.sqrt(Math.max(variance, 1e-9)),
    brier,
    due: variance / all.length,
  };
};
