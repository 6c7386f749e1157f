import { covarianceOfPoints, heading } from '@fayplate/core';
import { parseThread, tapDrill, threadShare, threads } from '@fayplate/handbook';
import type { Job } from '@fayplate/job';
import { type Plate, type MatedFace, type Check, type PlateHole, goesOn } from '@fayplate/plate';
import type { Pattern } from '@fayplate/survey';
import type { Measured } from '../prove/places.js';
import type { TryIt } from './attempt.js';
import { faceJoints } from '../prove/joints.js';
import { easeOptions } from '../prove/ease.js';
import type { HoleWork, WrongHole } from './types.js';

/**
 * What is known of a plate midway: its measured pattern under the plate's own names, seen from side B, and the sizes
 * that were read.
 */
export interface MidwayGiven {
  readonly job: Job;
  readonly plate: Plate;
  readonly mated: readonly MatedFace[];
  readonly pattern: Pattern;
  readonly sizes: ReadonlyMap<string, Measured['diameter']>;
  /** Holes and bores that are drilled up to now. */
  readonly drilled: readonly string[];
  readonly tryIt: TryIt;
  /** A failing check in words. */
  readonly say: (c: Check) => string;
  readonly trials?: number;
}

/** No one files more than this, mm, nor more than half the hole's own size. */
const MOST_FILED = 5;

/** Steps by which a hole is opened until the plate is sure to go on, mm. */
const STEP = 0.05;

const CLEAN = 0.5;

/** A thread with less of its height than this is none. Source: common practice. */
export const HALF_THREAD = 0.5;

export const shareOf = (hole: PlateHole, drilled: number): number => {
  const thread = hole.thread === null ? null : parseThread(hole.thread.name);
  return thread === null ? 1 : threadShare(thread, drilled);
};

export const measuredIn = (laid: Pattern, sizes: MidwayGiven['sizes']): ReadonlyMap<string, Measured> =>
  new Map(
    laid.ids.map((id, i) => [id, { at: laid.points[i] ?? { x: 0, y: 0 }, diameter: sizes.get(id) ?? null, as: id }]),
  );

export const jointsWith = (given: MidwayGiven, laid: Pattern) => {
  const measured = measuredIn(laid, given.sizes);
  const covariance = (ids: readonly string[]) =>
    covarianceOfPoints(
      laid.covariance,
      ids.map((id) => laid.ids.indexOf(id)),
    );
  return given.mated.flatMap((m) => {
    const met = faceJoints(given.plate, given.job, m, measured, covariance);
    return met === null || met.spec.joints.length === 0 ? [] : [met];
  });
};

/** Holes to open, each set of them the least metal on one part, opened on until the plate is sure to go on. */
export const openings = (given: MidwayGiven, laid: Pattern): readonly (readonly HoleWork[])[] => {
  const trials = given.trials ?? 1000;
  const perFace = jointsWith(given, laid).map((met): readonly (readonly HoleWork[])[] => {
    const { spec, holes, costs } = met;
    const now = goesOn(spec, { trials });
    if (now.nominal.slack >= 0 && now.probability >= 0.95) return [[]];
    // What is not drilled yet is not opened: it must be met as it is planned.
    const options = easeOptions(
      spec.joints.map((joint, i) => ({
        joint: laid.ids.includes(holes[i] ?? '') ? joint : { ...joint, role: 'locator' as const },
        hole: holes[i] ?? joint.id,
        cost: costs[i] ?? 1,
      })),
      4 * MOST_FILED,
    );
    return options.slice(0, 2).flatMap((o) => {
      const sized = o.eases.flatMap((e): readonly HoleWork[] => {
        const hole = given.plate.holes.find((h) => h.id === e.hole && h.as === 'clearance');
        return hole === undefined || !laid.ids.includes(e.hole)
          ? []
          : [
              {
                hole: e.hole,
                what: 'file',
                by: e.by,
                towards: e.towards,
                diameter: given.sizes.get(e.hole)?.value ?? hole.diameter,
                thread: null,
              },
            ];
      });
      if (sized.length < o.eases.length) return [];
      const sure = (more: number): boolean => {
        const joints = spec.joints.map((j, i) => {
          const w = sized.find((s) => s.hole === holes[i]);
          const by = w === undefined ? 0 : w.by + more;
          return w === undefined
            ? j
            : { ...j, plate: { x: j.plate.x + by * Math.cos(w.towards), y: j.plate.y + by * Math.sin(w.towards) } };
        });
        const g = goesOn({ ...spec, joints }, { trials });
        return g.nominal.slack >= 0 && g.probability >= 0.95;
      };
      let more = STEP;
      while (more < 1 && !sure(more)) more += STEP;
      const opened = sized.map((w) => ({ ...w, by: Math.ceil((w.by + more) / STEP - 1e-9) * STEP }));
      return opened.some((w) => w.by > Math.min(MOST_FILED, w.diameter / 2)) ? [] : [opened];
    });
  });
  if (perFace.some((f) => f.length === 0)) return [];
  // The least metal on each part, or the next set on one of them.
  const first = perFace.flatMap((f) => f[0] ?? []);
  const seconds = perFace.flatMap((f, k) =>
    f[1] === undefined ? [] : [perFace.flatMap((g, j) => (j === k ? (f[1] ?? []) : (g[0] ?? [])))],
  );
  return [first, ...seconds].filter((works) => works.length > 0);
};

/** Holes that were drilled smaller than the drawing has them, brought to its size. */
export const toSize = ({ plate, sizes, drilled }: MidwayGiven): readonly HoleWork[] =>
  plate.holes.flatMap((hole): readonly HoleWork[] => {
    const size = sizes.get(hole.id) ?? null;
    const least = hole.limits?.[0] ?? hole.diameter;
    return !drilled.includes(hole.id) || hole.slot !== null || size === null || size.value + size.plusMinus >= least
      ? []
      : [{ hole: hole.id, what: 'to size', by: 0, towards: 0, diameter: hole.diameter, thread: null }];
  });

/** Round holes in place of filed ones: as much larger on the radius as they are longer. */
export const drilledOut = (works: readonly HoleWork[], unit: Job['units']): readonly HoleWork[] => {
  const step = unit === 'in' ? 25.4 / 64 : 0.5;
  return works.map((w) => ({
    ...w,
    what: 'drill out',
    diameter: Math.ceil((w.diameter + 2 * w.by) / step - 1e-9) * step,
  }));
};

/** A bush bored about the right place until the wrong hole is cleaned up, in whole millimetres or sixteenths. */
export const bushOf = (hole: PlateHole, w: WrongHole, size: number, unit: Job['units']): HoleWork => {
  const far = Math.hypot(w.off.x, w.off.y);
  const step = unit === 'in' ? 25.4 / 16 : 1;
  const outside = Math.max(2 * far + size + 2 * CLEAN, Math.max(hole.diameter, hole.thread?.major ?? 0) + 2 * WALL);
  return {
    hole: w.id,
    what: 'bush',
    by: far,
    towards: heading(w.off),
    diameter: Math.ceil(outside / step - 1e-9) * step,
    thread: null,
  };
};

/** Coarse threads that few shops have taps for. Source: common practice. */
const rare: ReadonlySet<string> = new Set(['M7', 'M9', 'M11']);

/** The smallest coarse thread whose tapping drill cleans up the hole; null where none is held. */
export const plugOf = (w: WrongHole, size: number, unit: Job['units']): HoleWork | null => {
  const thread = threads
    .filter((t) => (unit === 'in' ? t.series === 'UNC' : t.series === 'metric coarse' && !rare.has(t.name)))
    .toSorted((a, b) => a.major - b.major)
    .find((t) => tapDrill(t).drill.diameter >= size);
  return thread === undefined
    ? null
    : {
        hole: w.id,
        what: 'plug',
        by: Math.hypot(w.off.x, w.off.y),
        towards: heading(w.off),
        diameter: thread.major,
        thread: thread.name,
      };
};

export const leave = (id: string, plate: Plate): HoleWork => ({
  hole: id,
  what: 'leave',
  by: 0,
  towards: 0,
  diameter: plate.holes.find((h) => h.id === id)?.diameter ?? 0,
  thread: null,
});

/**
 * Wall that a bush keeps about the hole in it, and cleaning up of the wrong hole all round, mm. Source: common
 * practice.
 */
const WALL = 2;
