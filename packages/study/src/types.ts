import type { Motion, Verdict } from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import type { FaceLayout, UsedPattern } from '@fayplate/layout';
import type { Midway, Proof } from '@fayplate/machining';
import type { MatedFace, Moves, Plate, StackResult } from '@fayplate/plate';
import type { LocatedFace } from '@fayplate/survey';
import type { OtherPiece } from './joint.js';

/** Told how far long work has come. */
export type Progress = (done: number, of: number) => void;

/**
 * How a face is located: readings left out, whether to look for what to measure next, who gets warnings and
 * progress.
 */
export interface LocateChoices {
  readonly setAside?: readonly string[];
  readonly next?: boolean | 'where loose';
  /** Told of what is legal but unlikely. */
  readonly warn?: (words: string) => void;
  readonly progress?: Progress;
}

/** One piece of a plate of two: its name, and its own job on its way through the rooms. */
export interface PieceStudy {
  readonly name: string;
  readonly study: Study;
  /** How this piece knows the other. */
  readonly other: NonNullable<StudyOptions['other']>;
}

/** The plate, and both faces in its frame, mm. */
export interface DesignedPlate {
  readonly plate: Plate;
  readonly mated: readonly [MatedFace, MatedFace];
}

/** One job on its way through the rooms; each step is worked out once, when it is first asked for. */
export interface Study {
  readonly job: Job;
  readonly located: (face: Face) => LocatedFace;
  readonly layout: (face: Face) => FaceLayout;
  readonly used: (face: Face) => UsedPattern;
  readonly stack: () => StackResult | null;
  /** Face → from the bench frame of its `rim` points into its own, where that is fixed. */
  readonly benches: () => ReadonlyMap<string, Motion>;
  readonly plate: () => DesignedPlate;
  /** The job with what is drilled under the plate's own names. */
  readonly named: () => Job;
  /** The same by its own readings alone: what the other of two pieces measures takes no part. */
  readonly alone: () => Proof | null;
  /** What is drilled, tried on both parts; null where the job has no plate or nothing is drilled yet. */
  readonly proof: () => Proof | null;
  /**
   * How to go on with a plate that is drilled in part, or went wrong; null where there is none such, or its readings do
   * not agree.
   */
  readonly midway: () => Midway | null;
  /** Where the places of the parts come to lie; null where the job names none. */
  readonly moves: () => Moves | null;
  /** The pieces of a plate of two, each with its own job; null where it is one. */
  readonly pieces: () => readonly PieceStudy[] | null;
  /** The one answer about the whole job. */
  readonly verdict: () => Verdict;
}

/**
 * How a study is made: as the faces are located, and the trials for the odds that the plate goes on (default 5000).
 */
export interface StudyOptions extends LocateChoices {
  readonly trials?: number;
  /** The other of two pieces, and what it is called where this one meets it. */
  readonly other?: { readonly face: string; readonly piece: () => OtherPiece | null };
  /**
   * A face as it was located before, by one that keeps answers; left out: each is located when it is first asked for.
   */
  readonly located?: (face: Face) => LocatedFace;
  /** The same of layouts. */
  readonly layout?: (face: Face) => FaceLayout;
}
