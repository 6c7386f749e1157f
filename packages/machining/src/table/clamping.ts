import {
  type Point,
  type Speech,
  apply,
  distance,
  flatten,
  invert,
  minusSign,
  pathBox,
  perUnit,
  sayAtLeast,
  sayNumber,
} from '@fayplate/core';
import type { Plate, PlateHole } from '@fayplate/plate';
import type { TableAxes } from '../frame/axes.js';
import { chamferWidth } from '../operations/hole.js';

/** Least clear metal about the middle of a clamp's toe, mm (common practice: a strap is 20 to 25 wide). */
const TOE = 12;
/** Steps of the search, mm, and how many places are weighed against each other. */
const STEP = 4;
const MOST = 300;
/** More clear metal than this is no better, mm. */
const AMPLE = 40;

const isInside = (p: Point, rim: readonly Point[]): boolean =>
  rim.reduce((inside, a, i) => {
    const b = rim[(i + 1) % rim.length] ?? a;
    const crosses = a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) / (b.y - a.y)) * (b.x - a.x);
    return crosses ? !inside : inside;
  }, false);

/** Metal from a point to the nearest cut, mm: what is sunk or chamfered counts at its full width. */
const clearAt = (p: Point, plate: Plate): number =>
  Math.min(
    ...plate.bores.map((b) => distance(p, b) - b.diameter / 2),
    ...plate.holes.map((h) => distance(p, h) - widestOf(h) / 2 - (h.slot?.length ?? 0) / 2),
  );

const widestOf = (h: PlateHole): number => Math.max(chamferWidth(h), h.sink?.diameter ?? 0);

/**
 * Where two clamps may stand for the whole of the drilling: the two widest stretches of whole metal, far apart. `milled`: the face is first milled all
 * over, where no clamp may stand on it.
 */
export const clampingWords = (plate: Plate, axes: TableAxes, speech: Speech, milled: boolean): string => {
  const rim = flatten(plate.outline.path, 0.2);
  const box = pathBox(plate.outline.path);
  const spots: { readonly at: Point; readonly clear: number }[] = [];
  for (let x = box.left + STEP; x < box.right; x += STEP)
    for (let y = box.bottom + STEP; y < box.top; y += STEP) {
      const at = { x, y };
      if (!isInside(at, rim)) continue;
      const clear = clearAt(at, plate);
      if (clear >= TOE) spots.push({ at, clear });
    }
  const roomy = Math.max(0, ...spots.map((s) => Math.min(s.clear, AMPLE)));
  const good = spots.filter((s) => s.clear >= 0.6 * roomy);
  const few = good.filter((_, i) => i % Math.ceil(good.length / MOST) === 0);
  const pairs = few.flatMap((p, i) => few.slice(i + 1).map((q) => [p, q, distance(p.at, q.at)] as const));
  const far = 0.5 * Math.max(box.right - box.left, box.top - box.bottom);
  const [one, two] = pairs.reduce<(typeof pairs)[number] | readonly [null, null, number]>(
    (best, pair) => (pair[2] > best[2] + 1e-9 ? pair : best),
    [null, null, far],
  );
  if (one === null || two === null)
    return 'Clamp it by the edges of the blank, or hold it in the vice: no metal within the outline is wide enough for two clamps.';
  const places = speech.unit === 'in' ? 1 : 0;
  const said = [one, two].map(({ at }) => asSaid(apply(axes.motion, at), speech, places));
  // What is promised holds at the places as they are printed.
  const clear = Math.min(...said.map((p) => clearAt(apply(invert(axes.motion), p), plate)));
  const [first, second] = said.map(
    (p) => `X ${minusSign(sayNumber(p.x, speech, places))}, Y ${minusSign(sayNumber(p.y, speech, places))}`,
  );
  return `${milled ? 'Hold the blank by its edges while its face is milled. Then clamps' : 'Clamps'} may stand at ${first} and at ${second} as seen from side B: no cut comes within ${sayAtLeast(clear, speech, places + (speech.unit === 'in' ? 1 : 0))} of them.`;
};

const asSaid = (p: Point, { unit }: Speech, places: number): Point => {
  const step = perUnit(unit) / 10 ** places;
  return { x: Math.round(p.x / step) * step, y: Math.round(p.y / step) * step };
};
