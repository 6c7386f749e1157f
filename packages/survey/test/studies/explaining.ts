import { type Point, type Random, distance, polar, randomFrom } from '@fayplate/core';
import { type DistanceKind, type Feature, type Reading, readOf } from '@fayplate/job';
import { type LocatedFace, type Survey, isSound, locateFace, planChecked } from '../../src/index.js';
import { feature, instrument, survey } from '../support.js';

const PLUS_MINUS = 0.05;
const families = ['rectangle', 'square', 'triangle', 'ring', 'scattered'] as const;

/** A face as it is found, with the readings that a new job of it lists, and what each would be without error. */
export interface Planned {
  readonly survey: Survey;
  readonly exact: ReadonlyMap<string, number>;
  readonly places: ReadonlyMap<string, Point>;
  readonly family: (typeof families)[number];
}

const layOut = (random: Random, family: Planned['family']): readonly Point[] => {
  const [w, h] = [60 + 100 * random.uniform(), 50 + 60 * random.uniform()];
  if (family === 'rectangle' || family === 'square') {
    const [x, y] = [w / 2, family === 'square' ? w / 2 : h / 2];
    return [
      { x: -x, y },
      { x, y },
      { x, y: -y },
      { x: -x, y: -y },
    ];
  }
  if (family === 'triangle') return [0, 1, 2].map((k) => polar(w / 2, Math.PI / 2 - (2 * Math.PI * k) / 3));
  if (family === 'ring') {
    const divisions = 5 + random.below(8);
    const all = Array.from({ length: divisions }, (_, k) => k);
    const vacant = random.below(divisions - 3);
    for (let k = 0; k < vacant; k++) all.splice(random.below(all.length), 1);
    return all.map((k) => polar(w / 2 + 10, Math.PI / 2 - (2 * Math.PI * k) / divisions));
  }
  const count = 3 + random.below(8);
  const out: Point[] = [];
  while (out.length < count) {
    const p = { x: w * (random.uniform() - 0.5) * 1.6, y: w * (random.uniform() - 0.5) * 1.6 };
    if (Math.hypot(p.x, p.y) > 28 && out.every((q) => distance(p, q) > 16)) out.push(p);
  }
  return out;
};

const read = (text: string, value: number, id: string): Reading => {
  const [kind = '', ...features] = text.split(' ');
  return {
    id,
    text: `${text} = ${value.toFixed(3)} by caliper`,
    kind: kind as Reading['kind'],
    features,
    value,
    point: null,
    plusMinus: PLUS_MINUS,
    instrument: 'caliper',
    aside: false,
    note: null,
    unit: 'mm',
    place: { line: 1, column: 1 },
  };
};

/** A face of 3 to 12 features with the readings of the starter, not yet taken. */
export const plannedFace = (random: Random): Planned => {
  const family = families[random.below(families.length)] ?? 'ring';
  const points = layOut(random, family);
  const kind = random.uniform() < 0.5 ? 'stud' : 'hole';
  const middle = random.uniform() < 0.7;
  const places = new Map<string, Point>();
  const radii = new Map<string, number>();
  const features: Feature[] = [];
  if (middle) {
    places.set('S', { x: 0.2 * random.normal(), y: 0.2 * random.normal() });
    radii.set('S', 15);
    features.push(feature('S', { kind: kind === 'stud' ? 'spigot' : 'bore', diameter: null, diameterFrom: null }));
  }
  for (const [i, p] of points.entries()) {
    const id = `P${i + 1}`;
    places.set(id, { x: p.x + 0.1 * random.normal(), y: p.y + 0.1 * random.normal() });
    radii.set(id, 5 + 0.02 * random.normal());
    const clock = Math.round((Math.atan2(p.y, p.x) * 12) / Math.PI) * (Math.PI / 12);
    features.push(feature(id, { kind, clock, diameter: null, diameterFrom: null }));
  }
  const face = { centre: middle ? 'S' : null, up: null };
  const bare = survey(features, [], face, [instrument('caliper', PLUS_MINUS)]);
  const { draw, cut } = planChecked(bare);
  const lines = [...draw, ...cut].map((r) => r.reading);
  const exact = new Map<string, number>();
  const readings = lines.map((text, i) => {
    const [k = '', a = '', b = ''] = text.split(' ');
    const [p, q] = [places.get(a), places.get(b)];
    const value =
      k === 'dia' || p === undefined || q === undefined
        ? 2 * (radii.get(a) ?? 0)
        : readOf(k as DistanceKind, distance(p, q), radii.get(a) ?? 0, radii.get(b) ?? 0);
    exact.set(String(i + 1), value);
    return read(text, value, String(i + 1));
  });
  return { survey: { ...bare, face: { ...bare.face, readings } }, exact, places, family };
};

/** The face with its readings taken: each with its own error, and slips added to some. */
export const takenFace = (planned: Planned, random: Random, slips: ReadonlyMap<string, number>): Survey => {
  const readings = planned.survey.face.readings.map((r) => {
    const value = (planned.exact.get(r.id) ?? 0) + (PLUS_MINUS / 2) * random.normal() + (slips.get(r.id) ?? 0);
    return read(r.text.split(' =')[0] ?? '', value, r.id);
  });
  return { ...planned.survey, face: { ...planned.survey.face, readings } };
};

/** Readings that an answer names, in its order; the first explanation's own first. */
export const namedIn = (
  located: LocatedFace,
): { readonly first: readonly string[]; readonly all: readonly string[] } => {
  const first = located.suspects.flatMap((s) => [s.reading, ...s.tiedWith]);
  const listed = (
    (located as { explanations?: readonly { readings: readonly string[] }[] }).explanations ?? []
  ).flatMap((e) => e.readings);
  return { first, all: [...new Set([...first, ...listed])] };
};

export interface SlipStudy {
  readonly trials: number;
  readonly named: number;
  readonly firstOrTied: number;
  readonly onlySound: number;
  readonly silent: number;
  readonly lengths: number;
  /** The same for one who knows the shape, that one reading slipped, and no more. */
  readonly ideal: number;
  /** Standard error of `lengths` / `ideal`. */
  readonly ratioError: number;
  /**
   * Of those where only sound ones are named: one reading alone, the shape known, explains all; no reading can tell.
   */
  readonly alone: number;
  readonly seeds: readonly number[];
}

/** Redundancy numbers of the readings at the truth. */
export const redundancies = (planned: Planned, seed: number): ReadonlyMap<string, number> => {
  const located = locateFace(takenFace(planned, randomFrom(seed + 5), new Map()), {
    next: false,
    places: planned.places,
  });
  return new Map(located.readings.map((r) => [r.id, r.redundancy]));
};

/** Whether sound readings would fit without one reading alone, the shape known, oftener than once in 20. */
const isExplainedByOne = (taken: Survey, { places }: Planned): boolean =>
  taken.face.readings.some((r) => {
    const { fit, undetermined } = locateFace(taken, { next: false, doubts: false, places, setAside: [r.id] });
    return undetermined.length === 0 && (fit.p ?? 1) >= 0.05;
  });

/**
 * Readings that one who knows the shape names, each as likely to have slipped by so many of its own standard deviations
 * as any other, to 95 in 100.
 */
const idealLength = (taken: Survey, { places }: Planned): number => {
  const likely = taken.face.readings.map((r) => {
    const without = locateFace(taken, { next: false, places, setAside: [r.id] });
    return without.undetermined.length > 0 ? 0 : Math.exp(-without.fit.chi2 / 2);
  });
  const sum = likely.reduce((a, b) => a + b, 0);
  let [told, length] = [0, 0];
  for (const l of likely.toSorted((a, b) => b - a)) {
    if (told >= 0.95 * sum) break;
    told += l;
    length++;
  }
  return length;
};

/**
 * Slips of `least` to four times as many u/√redundancy in `count` readings of a face as the starter plans it; `size` in
 * place of that: mm, the same for all. A reading that nothing checks by a hundredth cannot show, and is left out.
 */
export const studySlips = (
  trials: number,
  firstSeed: number,
  count: number,
  { least = 8, size = null }: { readonly least?: number; readonly size?: number | null } = {},
): SlipStudy => {
  const tally = { trials: 0, named: 0, firstOrTied: 0, onlySound: 0, silent: 0, lengths: 0, ideal: 0, alone: 0 };
  const lists: (readonly [number, number])[] = [];
  const seeds: number[] = [];
  for (let k = 0; k < trials; k++) {
    const seed = firstSeed + 104_729 * k;
    const random = randomFrom(seed);
    for (let j = 0; j < 10; j++) random.uniform();
    const planned = plannedFace(random);
    const r = redundancies(planned, seed);
    const able = planned.survey.face.readings.filter((q) => (r.get(q.id) ?? 0) > (size === null ? 0.01 : 0.05));
    if (able.length < count) continue;
    const slips = new Map<string, number>();
    while (slips.size < Math.min(count, able.length)) {
      const q = able[random.below(able.length)];
      if (q === undefined) break;
      const own = (least * (1 + 3 * random.uniform() ** 2) * (PLUS_MINUS / 2)) / Math.sqrt(r.get(q.id) ?? 1);
      slips.set(q.id, (random.uniform() < 0.5 ? -1 : 1) * (size ?? own));
    }
    const taken = takenFace(planned, random, slips);
    const located = locateFace(taken, { next: false });
    const { first, all } = namedIn(located);
    const wrong = [...slips.keys()];
    tally.trials++;
    tally.lengths += all.length;
    const ideal = count === 1 ? idealLength(taken, planned) : 0;
    tally.ideal += ideal;
    lists.push([all.length, ideal]);
    if (isSound(located)) tally.silent++;
    if (wrong.every((id) => all.includes(id))) tally.named++;
    else seeds.push(seed);
    if (wrong.every((id) => first.includes(id))) tally.firstOrTied++;
    if (all.length > 0 && wrong.every((id) => !all.includes(id))) {
      tally.onlySound++;
      if (isExplainedByOne(taken, planned)) tally.alone++;
    }
  }
  const ratio = tally.lengths / tally.ideal;
  const ratioError = Math.sqrt(lists.reduce((sum, [l, i]) => sum + (l - ratio * i) ** 2, 0)) / tally.ideal;
  return { ...tally, ratioError, seeds };
};

/** Shares of clean faces that are called suspect, and of which it was promised. */
export const studyClean = (
  trials: number,
  firstSeed: number,
): { readonly trials: number; readonly suspect: number; readonly promised: number } => {
  let [suspect, promised] = [0, 0];
  for (let k = 0; k < trials; k++) {
    const random = randomFrom(firstSeed + 104_729 * k);
    for (let j = 0; j < 10; j++) random.uniform();
    const located = locateFace(takenFace(plannedFace(random), random, new Map()), { next: false });
    promised += located.falseAlarm;
    if (located.suspects.length > 0) suspect++;
  }
  return { trials, suspect, promised };
};

export interface AbsurdStudy {
  readonly trials: number;
  readonly named: number;
  /** No shape was settled on. */
  readonly unsettled: number;
  /** Longest, milliseconds of processor time. */
  readonly longest: number;
  readonly seeds: readonly string[];
}

/** Slips that no scale makes: a digit left out, a number in the other unit, a decimal point gone astray. */
const absurd: readonly ((v: number) => number)[] = [
  (v) => v / 15,
  (v) => v * 25.4,
  (v) => v / 25.4,
  (v) => v / 100,
  (v) => 10 * v,
];

/** One absurd reading among readings of which several check it, by a tenth at least. */
export const studyAbsurd = (trials: number, firstSeed: number): AbsurdStudy => {
  const tally = { trials: 0, named: 0, unsettled: 0, longest: 0 };
  const seeds: string[] = [];
  for (let k = 0; k < trials; k++) {
    const seed = firstSeed + 104_729 * k;
    const random = randomFrom(seed);
    for (let j = 0; j < 10; j++) random.uniform();
    const planned = plannedFace(random);
    const r = redundancies(planned, seed);
    const able = planned.survey.face.readings.filter((q) => (r.get(q.id) ?? 0) > 0.1);
    const one = able[random.below(Math.max(able.length, 1))];
    if (one === undefined) continue;
    const kind = random.below(absurd.length);
    const exact = planned.exact.get(one.id) ?? 0;
    const taken = takenFace(planned, random, new Map([[one.id, (absurd[kind]?.(exact) ?? 0) - exact]]));
    const before = process.cpuUsage().user;
    const located = locateFace(taken, { next: false });
    tally.longest = Math.max(tally.longest, (process.cpuUsage().user - before) / 1000);
    tally.trials++;
    if (!located.stopped.converged) tally.unsettled++;
    if (namedIn(located).all.includes(one.id)) tally.named++;
    else seeds.push(`${seed}/${kind}/${one.text.split(' =')[0] ?? ''}${located.stopped.converged ? '' : ' unsettled'}`);
  }
  return { ...tally, seeds };
};
