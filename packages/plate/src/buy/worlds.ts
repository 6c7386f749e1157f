import type { Random } from '@fayplate/core';
import type { Face, Feature, Job, LocateSpec, StackSpec } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import type { Sampler } from './sampler.js';

/**
 * What comes back when one asks for a size is within this, mm. Source: common practice, a caliper in someone else's
 * hands.
 */
export const ASKED = 0.2;

/** One way in which the parts may truly be, all of it drawn from what the figures leave open. */
export interface World {
  readonly job: Job;
  readonly used: ReadonlyMap<string, UsedPattern>;
  /** What each thing that one may ask for truly is, mm, in the order of `asks`. */
  readonly values: readonly number[];
}

/** A size that one may ask the seller for. */
export interface Ask {
  /** `motor: over B1 B2`, `reach`, `motor: how far S1 stands`. */
  readonly says: string;
  /** The same for a seller, who knows no job file: `across the far sides of B1 and B2`. */
  readonly plainly: string;
  /** As stated now, with its ±, mm. */
  readonly stated: number;
  readonly plusMinus: number;
  readonly of: (world: Omit<World, 'values'>) => number;
}

/** Sizes of a feature that have no ± of their own in the job. */
export const plain = ['stands', 'deep', 'height'] as const;

export const isSold = (f: Face): boolean => f.seller != null;

/** Sizes that are written alike are alike on the part: they take one draw. */
const drawnAlike = (seller: number, random: Random): ((what: string, value: number | null) => number | null) => {
  const drawn = new Map<string, number>();
  return (what, value) => {
    if (value === null) return null;
    const key = `${what} ${value}`;
    const by = drawn.get(key) ?? (seller / 2) * random.normal();
    drawn.set(key, by);
    return Math.max(0.1, value + by);
  };
};

const drawFace = (face: Face, used: UsedPattern, random: Random): Face => {
  const alike = drawnAlike(face.seller ?? 0, random);
  return {
    ...face,
    flange: alike('flange', face.flange),
    features: face.features.map((f): Feature => {
      const r = used.pattern.radii[used.pattern.ids.indexOf(f.id)] ?? null;
      const sizes = Object.fromEntries(plain.map((key) => [key, alike(`${f.kind} ${key}`, f[key])]));
      return {
        ...f,
        ...sizes,
        diameter: r === null || f.diameter === null ? f.diameter : { value: 2 * r, plusMinus: null },
      };
    }),
  };
};

/** A register is cut to what it meets, once that is measured: as much larger and deeper as that turns out. */
const registerFor = (locate: LocateSpec | undefined, from: Face, to: Face): LocateSpec | undefined => {
  if (locate?.as !== 'register') return locate;
  const met = (f: Face): Feature | undefined => f.features.find((x) => x.id === f.centre);
  const [before, now] = [met(from), met(to)];
  const change = (size: (f: Feature | undefined) => number | null | undefined): number =>
    (size(now) ?? 0) - (size(before) ?? 0);
  const height = (f: Feature | undefined): number | null | undefined => (f?.kind === 'bore' ? f.deep : f?.stands);
  return {
    ...locate,
    diameter: { ...locate.diameter, value: locate.diameter.value + change((f) => f?.diameter?.value) },
    depth: locate.depth === null ? null : Math.max(0.5, locate.depth + change(height)),
  };
};

/** The chain with every link as it truly is, each then known to what asking brings. */
const drawStack = (stack: StackSpec, random: Random): StackSpec => ({
  ...stack,
  links: stack.links.map((l) => ({
    ...l,
    value: l.value + (l.plusMinus / 2) * random.normal(),
    plusMinus: Math.min(l.plusMinus, ASKED),
  })),
});

/**
 * Draws the parts as they may truly be: centres and sizes of what is sold from the seller's ±, the rest from their own.
 */
export const drawWorld = (
  job: Job,
  samplers: ReadonlyMap<string, Sampler>,
  asks: readonly Ask[],
  random: Random,
): World => {
  const drawn = new Map([...samplers].map(([name, sample]) => [name, sample(random)]));
  const faces = job.faces.map((f) => {
    const own = drawn.get(f.name);
    return isSold(f) && own !== undefined ? drawFace(f, own, random) : f;
  });
  const locate = new Map(
    [...(job.plate?.locate ?? [])].flatMap(([name, spec]) => {
      const [from, to] = [job.faces, faces].map((all) => all.find((f) => f.name === name));
      const now = from === undefined || to === undefined ? spec : registerFor(spec, from, to);
      return now === undefined ? [] : [[name, now] as const];
    }),
  );
  const world = {
    job: {
      ...job,
      faces,
      plate: job.plate === null ? null : { ...job.plate, locate },
      stack: job.stack === null ? null : drawStack(job.stack, random),
    },
    used: drawn,
  };
  return { ...world, values: asks.map((a) => a.of(world)) };
};
