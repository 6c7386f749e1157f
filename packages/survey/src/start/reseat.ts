import { type Point, distance } from '@fayplate/core';
import { type Equations, isSpent } from '../adjust/system.js';
import { asLow } from '../adjust/adjustment.js';
import { reflectedInNearLines } from './near-lines.js';
import { type JointReflection, reflectedLeastStrained } from './partial-reflections.js';
import { foresightAt } from './foresight.js';
import { lineThrough, mirroredIn } from './locus.js';
import { type Known, placements } from './place.js';
import { type Sketch, pointOf, setPoint, strainOf } from './sketch.js';
import { type LocalMinimum, levenbergMarquardt } from './levenberg-marquardt.js';

/** Of two arrangements the lower one; of two equally low the first, unless the second is the `preferred` one. */
export const lowerOf =
  (preferred: (a: Float64Array, b: Float64Array) => boolean) =>
  <One extends LocalMinimum>(a: One, b: One): One =>
    asLow(a.chi2, b.chi2) && !(asLow(b.chi2, a.chi2) && preferred(b.x, a.x)) ? a : b;

/** Places nearer than this share of the blur are one: both lead to the same minimum. */
const LEAST_MOVE = 0.5;

/**
 * Other places for one feature: those that its own ties allow, and its mirror images in the lines between the features
 * it is tied to.
 */
export const otherPlaces = (sketch: Sketch, x: Float64Array, f: number): readonly Point[] => {
  const ties = (sketch.tiesOf[f] ?? []).flatMap((t) => sketch.ties[t] ?? []);
  const known: Known = {
    sketch,
    x: Float64Array.from(x),
    spread: new Float64Array(sketch.slots.length).fill(sketch.blur),
  };
  const least = LEAST_MOVE * sketch.blur;
  const here = pointOf(sketch, x, f);
  const near = [...new Set(ties.flatMap((t) => t.ends))].filter((e) => e !== f).slice(0, 6);
  const images = near.flatMap((a, i) =>
    near.slice(i + 1).flatMap((b) => {
      const line = lineThrough(pointOf(sketch, x, a), pointOf(sketch, x, b));
      return line === null ? [] : [mirroredIn(line, here)];
    }),
  );
  const kept: Point[] = [];
  for (const at of [...placements(known, ties, f, least).map((p) => p.at), ...images]) {
    if (distance(at, here) >= least && kept.every((k) => distance(k, at) >= least)) kept.push(at);
  }
  return kept;
};

/** χ² that a place may promise beyond its thoroughness's `worth`. */
const OVER = 50;

/**
 * How thoroughly other places are tried: the most strained features looked at; places, joint reflections and near lines
 * tried in a round; rounds.
 */
interface Thoroughness {
  readonly features: number;
  readonly places: number;
  /** Times the present χ² that a place may promise: where much has to follow, the first step promises far too much. */
  readonly worth: number;
  readonly reflections: number;
  readonly nearLines: number;
  readonly rounds: number;
}

export const quick: Thoroughness = { features: 6, places: 4, worth: 1.05, reflections: 2, nearLines: 0, rounds: 2 };
export const thorough: Thoroughness = {
  features: 60,
  places: 48,
  worth: 10,
  reflections: 12,
  nearLines: 16,
  rounds: 6,
};

/** Places that promise most, best first: far ones before near ones, from which the slope mostly leads back. */
const promising = (
  sketch: Sketch,
  equations: Equations,
  from: LocalMinimum,
  { features, places, worth }: Thoroughness,
): readonly Float64Array[] => {
  const foresee = foresightAt(equations, from.x);
  const most = worth * from.chi2 + OVER;
  const order = sketch.slots.map((_, f) => [strainOf(sketch, from.x, f), f] as const).sort((a, b) => b[0] - a[0]);
  const found = order.slice(0, features).flatMap(([, f]) =>
    isSpent(equations.meter)
      ? []
      : otherPlaces(sketch, from.x, f).flatMap((at) => {
          const x = Float64Array.from(from.x);
          setPoint(sketch, x, f, at);
          const promised = foresee(sketch.observationsOf[f] ?? [], x);
          return promised === null || promised > most
            ? []
            : [{ x, weight: promised / distance(at, pointOf(sketch, from.x, f)) }];
        }),
  );
  return found
    .sort((a, b) => a.weight - b.weight)
    .slice(0, places)
    .map((c) => c.x);
};

/**
 * Single features tried in the other places that their ties allow (a hole on the wrong side of the line between two
 * others), those that promise most first, then joint reflections and reflections in near lines; an arrangement is kept
 * where χ² falls, or stays while the arrangement is the `preferred` one.
 */
export const reseat = (
  sketch: Sketch,
  equations: Equations,
  reflections: readonly JointReflection[],
  from: LocalMinimum,
  preferred: (a: Float64Array, b: Float64Array) => boolean,
  how: Thoroughness,
): LocalMinimum => {
  const lower = lowerOf(preferred);
  let best = from;
  for (let round = 0; round < how.rounds; round++) {
    let better: LocalMinimum | undefined;
    for (const x of [
      ...promising(sketch, equations, best, how),
      ...reflectedLeastStrained(sketch, reflections, best.x, how.reflections),
      ...(how.nearLines === 0 ? [] : reflectedInNearLines(sketch, best.x, how.nearLines)),
    ]) {
      const end = levenbergMarquardt(equations, x, 25);
      if (lower(best, end) === best) continue;
      better = end;
      break;
    }
    if (better === undefined) break;
    best = better;
  }
  return best;
};

/**
 * Rivals no higher than this above the lowest are looked at in turn: two steps through one of them may lead lower
 * still.
 */
const RIVAL = 10;
/** Rivals looked at, the lowest first. */
const LOOKED_AT = 8;

/**
 * From an arrangement that the readings support, all others that they support about as well and that single moves and
 * reflections lead to, one after another.
 */
export const rivalsOf = (
  sketch: Sketch,
  equations: Equations,
  reflections: readonly JointReflection[],
  from: LocalMinimum,
  preferred: (a: Float64Array, b: Float64Array) => boolean,
): readonly LocalMinimum[] => {
  const known: LocalMinimum[] = [from];
  const waiting = new Set(known);
  for (let looked = 0; looked < LOOKED_AT; looked++) {
    const limit = Math.min(...known.map((k) => k.chi2)) + RIVAL;
    const next = [...waiting]
      .filter((k) => k.chi2 <= limit)
      .reduce<LocalMinimum | null>((a, b) => (a !== null && a.chi2 <= b.chi2 ? a : b), null);
    if (next === null) break;
    waiting.delete(next);
    for (const x of [
      ...promising(sketch, equations, next, thorough),
      ...reflectedLeastStrained(sketch, reflections, next.x, thorough.reflections),
      ...reflectedInNearLines(sketch, next.x, thorough.nearLines),
    ]) {
      const end = levenbergMarquardt(equations, x, 40);
      const isNew =
        end.chi2 <= limit &&
        known.every((k) => !(asLow(k.chi2, end.chi2) && asLow(end.chi2, k.chi2)) || preferred(end.x, k.x));
      if (!isNew) continue;
      known.push(end);
      waiting.add(end);
    }
  }
  return known;
};

/** The `likelier` one of all these. */
export const amongRivals = (
  sketch: Sketch,
  equations: Equations,
  reflections: readonly JointReflection[],
  from: LocalMinimum,
  preferred: (a: Float64Array, b: Float64Array) => boolean,
  likelier: (a: LocalMinimum, b: LocalMinimum) => LocalMinimum,
): LocalMinimum => rivalsOf(sketch, equations, reflections, from, preferred).reduce(likelier);
