import type { Motion, Path, Point } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { MatedFace, Plate } from '@fayplate/plate';
import type { Body, Prism } from './solid.js';

/**
 * What an exploded view is drawn from: the job, its plate, both faces in the plate's frame, and where each bench frame
 * lies.
 */
export interface ExplodedInput {
  readonly job: Job;
  readonly plate: Plate;
  readonly mated: readonly MatedFace[];
  readonly benches: ReadonlyMap<string, Motion>;
}

/** A place that is named on a piece: a fastener's hole or stud. */
export interface Named extends Point {
  /** Which axis it lies on: the hole of the plate. */
  readonly axis: string;
  readonly id: string;
  readonly diameter: number;
}

/** One piece along the shaft, in its own place before it is pulled out; mm. */
export interface Piece {
  readonly kind: 'part' | 'gasket' | 'plate';
  readonly name: string;
  readonly body: Body;
  /** The level that faces the eye, and the lowest of its metal. */
  readonly top: number;
  readonly bottom: number;
  readonly outline: Path;
  /** 12 o'clock of its own, radians, about a place; none for what has none. */
  readonly clocks: readonly { readonly of: string; readonly at: number; readonly about: Point }[];
  readonly named: readonly Named[];
  /** What of it is not measured, in words; drawn in broken lines where it is the rim. */
  readonly unknown: readonly string[];
  readonly broken: boolean;
}
/** A raised spigot, recess or boss of no known height, mm. */
export const STEP = 3;
/** A cut runs so far past what it cuts through, mm. */
export const PAST = 0.5;

export const cut = (body: Omit<Prism, 'cut'>): Prism => ({ ...body, cut: true });
export const metal = (body: Omit<Prism, 'cut'>): Prism => ({ ...body, cut: false });
