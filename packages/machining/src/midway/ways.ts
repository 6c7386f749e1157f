import { type Motion, type Point, apply, distance, subtract } from '@fayplate/core';
import { type Plate, enough, usualDrilling } from '@fayplate/plate';
import type { Pattern } from '@fayplate/survey';
import { faceJoints } from '../prove/joints.js';
import { type Attempt, type Standing, attempted, keyOf } from './attempt.js';
import { layByGood, nearOf } from './lay-by-good.js';
import { relaid, turnedWays } from './turned.js';
import type { HoleWork, Midway, Way, WayKind, WrongHole } from './types.js';
import {
  HALF_THREAD,
  type MidwayGiven,
  bushOf,
  drilledOut,
  measuredIn,
  openings,
  plugOf,
  shareOf,
  toSize,
} from './works.js';

/**
 * Best first: what needs nothing done, what moves only what is not drilled yet, what turns, what takes metal, what puts
 * some back.
 */
const order: readonly WayKind[] = ['go on', 're-plan', 'turn', 'turn over', 'open', 'bush', 'plug', 'scrap'];

/** It does, but with a chance below what a new plate is held to. */
const isTight = (w: Way): boolean => [...w.goesOn.values()].some((g) => g.probability < enough);

/**
 * Which of the drilled holes is wrong: out of its place by more than what enters it allows, or, with a thread to come,
 * too large for one.
 */
const wrongHoles = (given: MidwayGiven, laid: Pattern, good: readonly string[]): readonly WrongHole[] => {
  const { plate, job, mated, sizes } = given;
  const measured = measuredIn(laid, sizes);
  const clearances = new Map(
    mated.flatMap((m) => {
      const met = faceJoints(plate, job, m, measured, () => []);
      return met === null ? [] : met.holes.map((id, i) => [id, met.spec.joints[i]?.clearance[0] ?? 0] as const);
    }),
  );
  return laid.ids.flatMap((id, i): readonly WrongHole[] => {
    const hole = plate.holes.find((h) => h.id === id);
    const at = laid.points[i];
    if (hole === undefined || at === undefined) return [];
    const off = subtract(at, hole);
    const far = Math.hypot(off.x, off.y);
    const size = sizes.get(id) ?? null;
    const stripped = hole.thread !== null && size !== null && shareOf(hole, size.value - size.plusMinus) < HALF_THREAD;
    if (stripped) return [{ id, off, why: 'size' }];
    return !good.includes(id) || far > Math.max(clearances.get(id) ?? 0, job.plate?.drilling ?? usualDrilling)
      ? [{ id, off, why: 'place' }]
      : [];
  });
};

/** How far a motion moves the holes that are not drilled, the farthest, mm. */
const farthest = (plate: Plate, left: readonly string[], motion: Motion): number =>
  Math.max(
    0,
    ...[...plate.holes, ...plate.bores].filter((h) => left.includes(h.id)).map((h) => distance(apply(motion, h), h)),
  );

/**
 * The way with the fewest holes worked on, of `works` the first so many, at least `least` of them: found by halving,
 * since whoever mends the worst has less to mend in the rest, so that sixty wrong holes take six tries. All of them
 * where not even that does.
 */
const fewest = (works: readonly HoleWork[], least: number, attempt: (works: readonly HoleWork[]) => Way): Way => {
  let best = attempt(works);
  if (!best.holds) return best;
  let [tooFew, most] = [Math.max(least, 1) - 1, works.length];
  while (most - tooFew > 1) {
    const n = Math.floor((tooFew + most) / 2);
    const way = attempt(works.slice(0, n));
    if (way.holds) [best, most] = [way, n];
    else tooFew = n;
  }
  return best;
};

/**
 * What can be done with a plate of which some holes are drilled, best first, each tried on the whole plate with all its
 * checks: go on as drawn; re-plan what is left round what is drilled; turn the plate on the parts, turn it over, or
 * turn the second part on it; open holes; bush or plug and drill again; scrap it.
 */
export const midwayOf = (given: MidwayGiven): Midway => {
  const { job, plate, pattern, sizes, drilled, tryIt, say, trials = 1000 } = given;
  const all = [...plate.holes, ...plate.bores].map((h) => h.id);
  const left = all.filter((id) => !drilled.includes(id));
  const designed = new Map([...plate.holes, ...plate.bores].map((h): [string, Point] => [h.id, { x: h.x, y: h.y }]));
  const { laid, good, sure } = layByGood(pattern, designed, nearOf(job.plate?.drilling ?? usualDrilling));
  const wrong = wrongHoles(given, laid, good);
  const drawn = tryIt({});
  const asDrawn = new Set(drawn.ok ? drawn.fails.map(keyOf) : []);
  const standing: Standing = { job, tryIt, drilled, left, sizes, asDrawn, trials };
  const attempt = (a: Attempt): Way => attempted(standing, a, say);
  // Where the zero was cannot be told of holes of which no three agree: going on as drawn would be a guess.
  const goOn: Way = {
    ...attempt({ kind: 'go on', laid, works: [] }),
    ...(sure
      ? {}
      : {
          holds: false,
          fails: [`no three of ${laid.ids.join(', ')} agree with the drawing, so which is out cannot be told`],
        }),
  };
  if (goOn.holds && wrong.length === 0) return { drilled, left, wrong, ways: [goOn], stopped: null };
  const best = relaid(given, laid);
  const replan: readonly Attempt[] =
    left.length === 0 || laid.ids.length < 2
      ? []
      : [{ kind: 're-plan', laid: best.laid, works: [], moved: farthest(plate, left, best.motion) }];
  const opened = (basis: Pattern, moved: number): readonly Attempt[] =>
    openings(given, basis).flatMap((works): readonly Attempt[] => [
      { kind: 'open', laid: basis, works, moved },
      { kind: 'open', laid: basis, works: drilledOut(works, job.units), moved },
    ]);
  const asPlanned = opened(laid, 0);
  const open =
    asPlanned.length > 0 || left.length === 0 ? asPlanned : opened(best.laid, farthest(plate, left, best.motion));
  const small = toSize(given);
  const sized: readonly Attempt[] = small.length === 0 ? [] : [{ kind: 'open', laid, works: small }];
  const sizeOf = (id: string): number => sizes.get(id)?.value ?? plate.holes.find((h) => h.id === id)?.diameter ?? 0;
  const again = wrong.flatMap((w) => {
    const hole = plate.holes.find((h) => h.id === w.id);
    return hole === undefined ? [] : [{ hole, w }];
  });
  // The worst first: one whose thread is gone cannot stay as it is.
  const worst = again.toSorted(
    (a, b) =>
      Number(b.w.why === 'size') - Number(a.w.why === 'size') ||
      Math.hypot(b.w.off.x, b.w.off.y) - Math.hypot(a.w.off.x, a.w.off.y),
  );
  const bushes = worst.map(({ hole, w }) => bushOf(hole, w, sizeOf(w.id), job.units));
  const stripped = worst.filter(({ w }) => w.why === 'size').length;
  const bushed: readonly Way[] =
    bushes.length === 0 ? [] : [fewest(bushes, stripped, (works) => attempt({ kind: 'bush', laid, works }))];
  // As few are plugged as are bushed.
  const plugs = worst
    .filter(({ w }) => bushed[0]?.works.some((k) => k.hole === w.id) === true)
    .map(({ w }) => plugOf(w, sizeOf(w.id), job.units));
  const plugged: readonly Attempt[] =
    plugs.length === 0 || plugs.includes(null) ? [] : [{ kind: 'plug', laid, works: plugs.flatMap((p) => p ?? []) }];
  const planned = replan.map(attempt);
  // A turn that only puts the same holes to each other's use is no better than to plan round them.
  const serves = planned.some((w) => w.holds);
  const elsewhere = turnedWays(given, laid, wrong);
  const turned = elsewhere.attempts
    .filter((a) => !serves || a.kind !== 'turn' || a.turns != null || a.works.length > 0)
    .map(attempt);
  const tried = [...planned, ...turned, ...[...sized, ...open].map(attempt), ...bushed, ...plugged.map(attempt)];
  // A turn that leaves a hole unused comes after what uses all.
  const wasteful = (w: Way): boolean => w.kind === 'turn' && w.works.length > 0;
  const rank = (w: Way): number =>
    (!w.holds ? 100 : isTight(w) ? 50 : 0) + order.indexOf(wasteful(w) ? 'bush' : w.kind);
  const scrap: Way = {
    kind: 'scrap',
    works: [],
    serves: new Map(),
    turn: 0,
    turns: null,
    moved: 0,
    holds: true,
    fails: [],
    goesOn: new Map(),
    metalLeft: null,
    left: all,
    made: null,
  };
  const sorted = [goOn, ...tried].toSorted((a, b) => rank(a) - rank(b));
  const ways = [...sorted.filter((w) => w.holds), scrap, ...sorted.filter((w) => !w.holds)];
  return { drilled, left, wrong, ways, stopped: elsewhere.all ? null : 'turns' };
};
