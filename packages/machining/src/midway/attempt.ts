import { type Point, covarianceOfPoints, sayTimes } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import {
  type AlreadyCut,
  type Check,
  type CutAlready,
  type PlateTried,
  type TryOptions,
  goesOn,
} from '@fayplate/plate';
import type { Pattern } from '@fayplate/survey';
import { isSure } from '../prove/face.js';
import { faceJoints } from '../prove/joints.js';
import type { Measured } from '../prove/places.js';
import type { HoleWork, Way, WayKind } from './types.js';

/** Draws the whole plate with what is cut already, and runs every check. */
export type TryIt = (how: Pick<TryOptions, 'already' | 'clocking'>) => PlateTried;

/** The drilled plate as it lies on the drawing, before anything is done about it. */
export interface Standing {
  readonly job: Job;
  readonly tryIt: TryIt;
  /** Everything that is drilled, and what is not. */
  readonly drilled: readonly string[];
  readonly left: readonly string[];
  /** Measured diameters by the plate's names. */
  readonly sizes: ReadonlyMap<string, Measured['diameter']>;
  /** What fails of the plate as drawn: `id|H1,H2`. */
  readonly asDrawn: ReadonlySet<string>;
  readonly trials: number;
}

/** One thing to try. */
export interface Attempt {
  readonly kind: WayKind;
  /** Drilled holes that go on serving, by the names of what they serve, laid on the drawing. */
  readonly laid: Pattern;
  readonly works: readonly HoleWork[];
  readonly serves?: ReadonlyMap<string, string>;
  readonly turn?: number;
  readonly turns?: string | null;
  readonly moved?: number;
  readonly clocking?: TryOptions['clocking'];
  /** Drilled holes that nothing uses any more, where they lie then. */
  readonly unused?: ReadonlyMap<string, Point>;
}

export const keyOf = (c: Pick<Check, 'id' | 'of'>): string => `${c.id}|${c.of.toSorted().join(',')}`;

/**
 * What a bush or plug carries again is no worse a seat than the metal was; a chance is worked out from what is
 * measured.
 */
const spared = (check: Check, again: ReadonlySet<string>): boolean =>
  check.id === 'goes-on' ||
  ((check.id === 'head-seat' || check.id === 'plate-thread') && check.of.some((id) => again.has(id)));

/** A hole as it will measure once it is worked on, for what enters it; null where it is drilled again. */
const worked = (at: Measured, work: HoleWork | undefined): Measured | null => {
  if (work === undefined) return at;
  if (work.what === 'bush' || work.what === 'plug' || work.what === 'leave') return null;
  const away = { x: Math.cos(work.towards), y: Math.sin(work.towards) };
  return work.what === 'file'
    ? { ...at, at: { x: at.at.x + work.by * away.x, y: at.at.y + work.by * away.y } }
    : { ...at, diameter: { value: work.diameter, plusMinus: 0 } };
};

/** The same as the metal sees it: a filed hole within the circle about it, a bush where the hole is drawn. */
const checked = (at: Measured, work: HoleWork | undefined, drawn: Point | undefined): CutAlready | null => {
  const diameter = at.diameter?.value ?? null;
  if (work === undefined) return { ...at.at, diameter };
  switch (work.what) {
    case 'file':
      return {
        x: at.at.x + (work.by / 2) * Math.cos(work.towards),
        y: at.at.y + (work.by / 2) * Math.sin(work.towards),
        diameter: work.diameter + work.by,
      };
    case 'to size':
    case 'drill out':
      return { ...at.at, diameter: work.diameter };
    case 'bush':
      return { x: drawn?.x ?? at.at.x, y: drawn?.y ?? at.at.y, diameter: work.diameter };
    default:
      return null;
  }
};

/**
 * Tries one way on the whole plate: every check, and whether each part goes on what is drilled and what is to be
 * drilled.
 */
export const attempted = (standing: Standing, a: Attempt, say: (c: Check) => string): Way => {
  const { job, tryIt, sizes, asDrawn, trials } = standing;
  const { laid, works, unused = new Map<string, Point>() } = a;
  const base = {
    kind: a.kind,
    works,
    serves: a.serves ?? new Map<string, string>(),
    turn: a.turn ?? 0,
    turns: a.turns ?? null,
    moved: a.moved ?? 0,
    left: standing.left,
  };
  const first = tryIt(a.clocking === undefined ? {} : { clocking: a.clocking });
  if (!first.ok) return { ...base, holds: false, fails: first.faults, goesOn: new Map(), metalLeft: null, made: null };
  const readAs = new Map([...base.serves].map(([read, is]) => [is, read]));
  const places = new Map(
    laid.ids.map((id, i): [string, Measured] => [
      id,
      { at: laid.points[i] ?? { x: 0, y: 0 }, diameter: sizes.get(readAs.get(id) ?? id) ?? null, as: id },
    ]),
  );
  const workOn = (id: string): HoleWork | undefined => works.find((w) => w.hole === id);
  const drawnOf = (id: string): Point | undefined => first.plate.holes.find((h) => h.id === id);
  const already: AlreadyCut = {
    cuts: new Map(
      [...places].flatMap(([id, at]) => {
        const cut = checked(at, workOn(id), drawnOf(id));
        return cut === null ? [] : [[id, cut] as const];
      }),
    ),
    spoiled: [
      ...[...unused].map(([id, at]) => ({
        name: `${id} as drilled`,
        ...at,
        diameter: sizes.get(id)?.value ?? first.plate.holes.find((h) => h.id === id)?.diameter ?? 0,
        why: 'no longer used',
      })),
      ...works
        .filter((w) => w.what === 'plug')
        .flatMap((w) => {
          const at = places.get(w.hole)?.at;
          return at === undefined ? [] : [{ name: `plug of ${w.hole}`, ...at, diameter: w.diameter, why: 'plugged' }];
        }),
    ],
  };
  const tried = tryIt({ already, ...(a.clocking === undefined ? {} : { clocking: first.plate.clocking }) });
  if (!tried.ok) return { ...base, holds: false, fails: tried.faults, goesOn: new Map(), metalLeft: null, made: null };
  const again = new Set(works.flatMap((w) => (w.what === 'bush' || w.what === 'plug' ? [w.hole] : [])));
  // What is drilled again is as drawn: for what enters it, and for the table of what is left.
  const plate = {
    ...tried.plate,
    holes: tried.plate.holes.map((h) =>
      again.has(h.id)
        ? (first.plate.holes.find((o) => o.id === h.id) ?? h)
        : places.has(h.id) || h.id.startsWith('X') || (base.serves.size === 0 && standing.drilled.includes(h.id))
          ? { ...h, done: true as const }
          : h,
    ),
    bores: tried.plate.bores.map((b) => (standing.drilled.includes(b.id) ? { ...b, done: true as const } : b)),
  };
  const measured = new Map(
    [...places].flatMap(([id, at]) => {
      const now = worked(at, workOn(id));
      return now === null ? [] : [[id, now] as const];
    }),
  );
  const covariance = (ids: readonly string[]): readonly (readonly number[])[] =>
    covarianceOfPoints(
      laid.covariance,
      ids.map((id) => laid.ids.indexOf(id)),
    );
  const faces = tried.mated.flatMap((m) => {
    const met = faceJoints(plate, job, m, measured, covariance);
    if (met === null || met.spec.joints.length === 0) return [];
    const { probability, nominal } = goesOn(met.spec, { trials });
    return [[m.face, { probability, slack: nominal.slack }] as const];
  });
  const broken = tried.fails.filter((c) => !spared(c, again) && !asDrawn.has(keyOf(c)));
  const stuck = faces.filter(([, f]) => !isSure(f));
  const about = new Set([
    ...works.map((w) => w.hole),
    ...plate.holes.flatMap((h) => (h.id.startsWith('X') ? [h.id] : [])),
  ]);
  const webs = tried.plate.checks.filter((c) => c.id === 'web-between-cuts' && c.of.some((id) => about.has(id)));
  return {
    ...base,
    turn: a.kind === 'turn' && typeof a.clocking === 'object' ? first.plate.clocking - (a.turn ?? 0) : base.turn,
    left: [...plate.holes, ...plate.bores].flatMap((c) => (c.done === true ? [] : [c.id])),
    holds: broken.length === 0 && stuck.length === 0,
    fails: [
      ...stuck.map(([face, f]) =>
        f.slack < 0 ? `it does not go on ${face}` : `it goes on ${face} only ${sayTimes(f.probability)}`,
      ),
      ...broken.map(say),
    ],
    goesOn: new Map(faces.map(([face, { probability, slack }]) => [face, { probability, slack }])),
    metalLeft: works.length === 0 || webs.length === 0 ? null : Math.min(...webs.map((c) => c.value)),
    made: { plate, mated: tried.mated },
  };
};
