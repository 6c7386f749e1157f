import {
  type Box,
  type LengthUnit,
  MM_PER_INCH,
  type Motion,
  type Path,
  type Point,
  add,
  apply,
  distance,
  edgesOf,
  flipX,
  movePath,
  offsetPath,
  pathBox,
  pathLength,
  say,
  scale,
  signedArea,
} from '@fayplate/core';
import type { MachineSpec } from '@fayplate/job';
import type { Plate, Side } from '@fayplate/plate';
import { CLAMP_ROOM, fromBox } from '../frame/axes.js';
import { speedsFor } from '../operations/plan.js';
import type { Blank, Contour, ContourMade, Tab } from '../types.js';
import { nearestAlong, placeOn, placesAlong, reversed, startedAt, stepLength } from './along.js';
import { type Hollow, hollowFor } from './hollow.js';

/** The edge that the end mill goes round: notches that go through it are milled by their own programs. */
const wholeOf = ({ outline }: Plate): Path => outline.whole ?? outline.path;

/** Left for the last pass where the job does not say, mm (common practice). */
const LEAVE = 0.3;
/** Tabs where the job does not say (common practice). */
const TABS = 4;
/**
 * A tab is so wide where it is narrowest, and so high, but no more than this part of the plate, mm (common practice).
 */
const WIDE = 6;
const HIGH = 2;
const OF_PLATE = 1 / 3;
/**
 * An end mill that cuts a slot takes half its diameter at a time; along an edge no deeper than its flutes are long, two
 * diameters (common practice).
 */
const SLOTTING = 0.5;
const FLUTES = 2;
/** The cutter goes so far past the lower face, mm. */
const PAST = 1;
/** Before the first metal and after the last the cutter is this far off the blank, mm. */
const OFF = 2;
/** Of the way round, what tabs may take together. */
const MOST_TABS = 0.5;

/** End mills as they are sold, mm (common practice). */
const sold: Readonly<Record<LengthUnit, readonly number[]>> = {
  mm: [20, 16, 12, 10, 8, 6, 5, 4, 3, 2],
  in: [3 / 4, 5 / 8, 1 / 2, 3 / 8, 5 / 16, 1 / 4, 3 / 16, 1 / 8, 1 / 16].map((d) => d * MM_PER_INCH),
};

/**
 * What the contour is cut from and with: the plate, where it lies in the blank, and what the job says of the cutter.
 */
interface ContourInput {
  readonly plate: Plate;
  /** Plate frame → table axes. */
  readonly motion: Motion;
  readonly blank: Blank;
  readonly clamps: readonly Box[];
  readonly machine: MachineSpec;
  readonly side: Side;
  readonly unit: LengthUnit;
}

/** The hole or bore that lies nearest to a place, by which a person finds it. */
const nearestCut = (plate: Plate, at: Point): string | null =>
  [...plate.holes, ...plate.bores].reduce<{ id: string; off: number } | null>((best, c) => {
    const off = distance(c, at);
    return best === null || off < best.off ? { id: c.id, off } : best;
  }, null)?.id ?? null;

const hollowWords = (input: ContourInput, hollow: Hollow, radius: number): string => {
  const { plate, motion, unit } = input;
  const own = { unit, fraction: null };
  const at = apply(motion, hollow.at);
  const near = nearestCut(plate, hollow.at);
  const where = `at X ${say(at.x, own)}, Y ${say(at.y, own)}${near === null ? '' : `, nearest to ${near}`}`;
  const cutter = `a cutter of ${say(2 * radius, own)}`;
  if (hollow.radius === 0)
    return (
      `the outline has a sharp inner corner ${where}, which no cutter leaves: give it a fillet of ` +
      `${say(radius, own)} or more, or take \`outline\` out of \`machine\``
    );
  const goes = sold[unit].find((d) => d < 2 * radius - 1e-9 && hollowFor(wholeOf(plate), d / 2) === null);
  const cure =
    goes === undefined
      ? 'no end mill that is sold goes in: widen it'
      : `the largest end mill that goes in is ${say(goes, own)}`;
  return hollow.radius === null
    ? `the outline is too narrow for ${cutter} ${where}: ${cure}`
    : `the hollow of radius ${say(hollow.radius, own)} in the outline ${where} is too tight for ${cutter}: ${cure}`;
};

/** The side of the blank from which the cutter comes: no clamp in its way, and the least metal to go through. */
const leadFor = (
  path: Path,
  blank: Box,
  clamps: readonly Box[],
  radius: number,
): { readonly n: Point; readonly off: number } | null => {
  const box = pathBox(path);
  const ways = [
    { n: { x: -1, y: 0 }, off: box.left - blank.left },
    { n: { x: 1, y: 0 }, off: blank.right - box.right },
    { n: { x: 0, y: -1 }, off: box.bottom - blank.bottom },
    { n: { x: 0, y: 1 }, off: blank.top - box.top },
  ];
  const open = ways.flatMap(({ n, off }) => {
    const foot = extremeOf(path, n);
    const far = Math.max(off, 0) + radius + OFF;
    const way = Array.from({ length: 41 }, (_, i) => add(foot, scale(n, (far * i) / 40)));
    const clear = clamps.every((c) => way.every((p) => fromBox(p, c) > 2 * radius + CLAMP_ROOM));
    return clear ? [{ n, off: far }] : [];
  });
  return open.toSorted((a, b) => a.off - b.off)[0] ?? null;
};

/** Levels below the flat, evenly spaced, the last at `depth`, mm. */
const levels = (depth: number, step: number): readonly number[] => {
  const n = Math.max(1, Math.ceil(depth / step - 1e-9));
  return Array.from({ length: n }, (_, i) => (depth * (i + 1)) / n);
};

/**
 * The outline as an end mill cuts it with a side of the plate uppermost: paths of its centre, clockwise so that it
 * climbs, one that leaves some metal and one to size, from a start off the metal, with tabs that hold the plate in its
 * blank. Faults in words where the cutter cannot reach all of it, or where a clamp stands in its way.
 */
export const contourOf = (input: ContourInput): ContourMade | null => {
  const { plate, motion, blank, machine, side, unit } = input;
  const spec = machine.outline;
  if (spec === undefined) return null;
  const radius = spec.cutter / 2;
  const leave = spec.leave ?? LEAVE;
  const own = { unit, fraction: null };
  const hollow = hollowFor(wholeOf(plate), radius);
  if (hollow !== null) return { ok: false, faults: [hollowWords(input, hollow, radius)] };
  const last = offsetPath(wholeOf(plate), radius);
  // Farther out a hollow may close: then the cutter leaves there what it can.
  const rough = hollowFor(wholeOf(plate), radius + leave) === null ? offsetPath(wholeOf(plate), radius + leave) : last;
  if (last === null || rough === null)
    return {
      ok: false,
      faults: [`the path of a cutter of ${say(spec.cutter, own)} round the outline closes on itself`],
    };
  const lay = (p: Path): Path => {
    const seen = movePath(motion, p);
    const laid = side === 'A' ? movePath(flipX, seen) : seen;
    return signedArea(laid) > 0 ? reversed(laid) : laid;
  };
  const turned = (b: Box): Box => (side === 'A' ? { ...b, left: -b.right, right: -b.left } : b);
  const clamps = input.clamps.map(turned);
  const metal = turned({
    left: blank.left,
    right: blank.left + blank.width,
    bottom: blank.bottom,
    top: blank.bottom + blank.height,
  });
  const [roughPath, lastPath] = [lay(rough), lay(last)];
  const blocked = clamps.flatMap((c, i) => {
    const gap = Math.min(...placesAlong(roughPath, 0.5).map((p) => fromBox(p.at, c))) - radius;
    return gap >= CLAMP_ROOM ? [] : [i + 1];
  });
  if (blocked.length > 0)
    return {
      ok: false,
      faults: blocked.map(
        (k) => `clamp ${k} stands in the way of the cutter round the outline: move it, or hold the plate by its holes`,
      ),
    };
  const lead = leadFor(roughPath, metal, clamps, radius);
  if (lead === null)
    return {
      ok: false,
      faults: ['clamps stand before every side of the blank: leave one free, from which the cutter comes in'],
    };
  const begun = (p: Path): Path => startedAt(p, nearestAlong(p, extremeOf(p, lead.n)).along);
  const tabs = tabsOf(begun(lastPath), spec.tabs ?? TABS, radius);
  if (tabs === null)
    return { ok: false, faults: [`${spec.tabs ?? TABS} tabs do not fit round the outline: write fewer`] };
  const depth = plate.thickness + PAST;
  const speeds = speedsFor(plate.material?.name ?? null, machine.topSpeed);
  const { speed, feed } = speeds({ op: 'mill', tool: 'end mill', toolDiameter: spec.cutter }, spec.cutter);
  const contour: Contour = {
    side,
    cutter: spec.cutter,
    leave: rough === last ? 0 : leave,
    rough: rough === last ? null : begun(roughPath),
    last: begun(lastPath),
    passes: {
      rough: levels(depth, SLOTTING * spec.cutter),
      last: levels(depth, (rough === last ? SLOTTING : FLUTES) * spec.cutter),
    },
    off: lead.n,
    far: lead.off,
    tabs,
    tabTop: plate.thickness - Math.min(HIGH, plate.thickness * OF_PLATE),
    speed,
    feed,
  };
  return { ok: true, contour };
};

/** The place of a path that lies farthest in a direction along an axis. */
const extremeOf = (path: Path, n: Point): Point => {
  const box = pathBox(path);
  const most = n.x < 0 ? -box.left : n.x > 0 ? box.right : n.y < 0 ? -box.bottom : box.top;
  let best = path.start;
  for (const step of edgesOf(path)) {
    const [, edge] = step;
    const along = (p: Point): number => p.x * n.x + p.y * n.y;
    if (along(edge.to) > along(best)) best = edge.to;
    if (edge.kind !== 'arc') continue;
    const r = distance(edge.centre, edge.to);
    const top = { x: edge.centre.x + n.x * r, y: edge.centre.y + n.y * r };
    if (
      Math.abs(along(top) - most) < 1e-9 &&
      nearestAlong({ start: step[0], edges: [edge], closed: false }, top).off < 1e-9
    )
      best = top;
  }
  return best;
};

/** Tabs evenly round, none where the cutter comes in; null where they do not fit. */
const tabsOf = (path: Path, count: number, radius: number): readonly Tab[] | null => {
  const round = pathLength(path);
  const long = WIDE + 2 * radius;
  if (count * long > MOST_TABS * round) return null;
  return Array.from({ length: count }, (_, i) => {
    const middle = (round * (i + 0.5)) / count;
    let begin = 0;
    const step = edgesOf(path).find((s) => {
      const here = middle <= begin + stepLength(s);
      if (!here) begin += stepLength(s);
      return here;
    });
    return { at: step === undefined ? path.start : placeOn(step, middle - begin), wide: WIDE, long };
  });
};
