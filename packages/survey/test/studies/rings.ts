import { type Point, type Random, distance, polar, randomFrom } from '@fayplate/core';
import type { Feature, Reading } from '@fayplate/job';
import { type LocatedFace, type Survey, isSound, locateFace } from '../../src/index.js';
import { feature, reading, survey } from '../support.js';
import { idealChoice } from './ring-chooser.js';

/**
 * What the face says of where its studs are: right to half an hour, one in five an hour off, every other one missing,
 * or nothing.
 */
export type Clocks = 'right' | 'slips' | 'some' | 'none';

/** A ring of studs about a spigot as it is found every day, its readings without error, and where the studs are. */
export interface Ring {
  readonly survey: Survey;
  readonly truth: ReadonlyMap<string, Point>;
}

/** Equal divisions, how many of them have a stud, and how many readings go across. */
const drawn = (random: Random, across: number, clocks: Clocks): Ring => {
  const divisions = 6 + random.below(7);
  const places = Array.from({ length: divisions }, (_, k) => k);
  const vacant = random.below(divisions - 3);
  for (let k = 0; k < vacant; k++) places.splice(random.below(places.length), 1);
  const radius = 40 + 80 * random.uniform();
  const stud = 4 + 4 * random.uniform();
  const spigot = 0.7 * radius;
  // A clock is said to the nearest half hour, some an hour off.
  const clockOf = (k: number): number | null => {
    if (clocks === 'none' || (clocks === 'some' && random.uniform() < 0.5)) return null;
    const slip = clocks === 'slips' && random.uniform() < 0.2 ? (random.uniform() < 0.5 ? 2 : -2) : 0;
    return Math.PI / 2 - ((Math.round((24 * k) / divisions) + slip) * Math.PI) / 12;
  };
  const truth = new Map<string, Point>([['S', { x: 0, y: 0 }]]);
  const studs = places.map((k, i): Feature => {
    truth.set(`P${i + 1}`, polar(radius, Math.PI / 2 - (2 * Math.PI * k) / divisions));
    return feature(`P${i + 1}`, { clock: clockOf(k), diameter: { value: stud, plusMinus: 0.05 } });
  });
  const ids = studs.map((s) => s.id);
  const at = (id: string): Point => truth.get(id) ?? { x: 0, y: 0 };
  const over = (a: string, b: string): Reading => reading(`over ${a} ${b}`, distance(at(a), at(b)) + stud, 0.1);
  const pairs = ids.flatMap((a, i) => ids.slice(i + 2).map((b) => [a, b] as const));
  const taken = Array.from({ length: across }, () => pairs.splice(random.below(pairs.length), 1)[0]);
  const readings = [
    ...ids.map((id) => reading(`between ${id} S`, radius - stud / 2 - spigot / 2, 0.1)),
    ...ids.map((id, i) => over(id, ids[(i + 1) % ids.length] ?? '')),
    ...taken.flatMap((p) => (p === undefined ? [] : [over(...p)])),
  ];
  const centre = feature('S', { kind: 'spigot', diameter: { value: spigot, plusMinus: 0.02 } });
  return { survey: survey([centre, ...studs], readings, { centre: 'S', up: 'P1' }), truth };
};

/** Whether every centre lies where it is, to a tenth of a millimetre, turned about the centre as the frame is. */
const isTrue = ({ truth }: Ring, located: LocatedFace): boolean => {
  const up = truth.get('P1') ?? { x: 0, y: 1 };
  const turn = Math.PI / 2 - Math.atan2(up.y, up.x);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return (located.hand.settled ? [1] : [1, -1]).some((side) =>
    [...truth].every(([id, p]) => {
      const f = located.features.get(id);
      return f !== undefined && distance(f, { x: side * (c * p.x - s * p.y), y: s * p.x + c * p.y }) < 0.1;
    }),
  );
};

export interface RingStudy {
  readonly rings: number;
  /** Said to be sound, and not the ring that was read. */
  readonly silentlyWrong: number;
  /** Not said to be sound. */
  readonly undecided: number;
  /** The same of one who knows how the clocks were drawn, and is sure at odds of 0.95. */
  readonly ideal: { readonly silentlyWrong: number; readonly undecided: number };
  /** First few seeds of each, to look into. */
  readonly seeds: { readonly wrong: readonly number[]; readonly undecided: readonly number[] };
}

/**
 * Rings of 6 to 12 divisions, some vacant, read to the spigot, to the next stud and `across`: none may be wrong without
 * a word.
 */
export const studyRings = (rings: number, firstSeed: number, across: number, clocks: Clocks): RingStudy => {
  const [wrong, undecided]: [number[], number[]] = [[], []];
  const ideal = { silentlyWrong: 0, undecided: 0 };
  for (let k = 0; k < rings; k++) {
    const ring = drawn(randomFrom(firstSeed + 7919 * k), across, clocks);
    const located = locateFace(ring.survey, { next: false });
    if (!isSound(located)) undecided.push(firstSeed + 7919 * k);
    else if (!isTrue(ring, located)) wrong.push(firstSeed + 7919 * k);
    const choice = idealChoice(ring, clocks);
    if (choice.odds < 0.95) ideal.undecided++;
    else if (!choice.isRight) ideal.silentlyWrong++;
  }
  return {
    rings,
    silentlyWrong: wrong.length,
    undecided: undecided.length,
    ideal,
    seeds: { wrong: wrong.slice(0, 8), undecided: undecided.slice(0, 8) },
  };
};
