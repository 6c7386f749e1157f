import { type Face, type Fault, type Job, crossedWords } from '@fayplate/job';
import { type FaceLayout, type UsedPattern, layoutFace, usedPattern } from '@fayplate/layout';
import {
  type MatedFace,
  type Moves,
  type Plate,
  type StackResult,
  designPlate,
  movesOn,
  mate,
  rimFault,
  solveStack,
  stackRequirements,
} from '@fayplate/plate';
import { type LocatedFace, fittedReport } from '@fayplate/survey';
import { type Motion, type Report, type Speech, type Verdict, once, oncePer, speechFor } from '@fayplate/core';
import { type Midway, type Proof, prove } from '@fayplate/machining';
import type { Task } from './command.js';
import { type OtherPiece, jointAsDrilled } from './joint.js';
import { type PieceStudy, pieceStudies, verdictOnPieces } from './pieces.js';
import { inPlateNames } from './plate-names.js';
import { notAtHand } from './at-hand.js';
import { midwayIn } from './midway.js';
import { verdictOn } from './verdict.js';
import { Faulty, Refusal, Unmet } from './refusal.js';
import { type LocateChoices, locatedIn, platedFaces } from './located.js';

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
 * How a study is made: as the faces are located, and the trials for the odds that the plate goes on (5000 unless told).
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

/** The job's own faces where it has two, as they are written in YAML. */
const bothOf = ({ faces }: Job): string =>
  faces.length === 2
    ? faces.map((f) => (/^[A-Za-z]\w*$/.test(f.name) ? f.name : JSON.stringify(f.name))).join(', ')
    : 'A, B';

/** Rims that make no outline now that the centres are known; a misreading may be why, so not where one is suspected. */
const crossedRims = (
  study: Pick<Study, 'job' | 'located' | 'used' | 'benches'>,
  faces: readonly Face[],
): readonly Fault[] =>
  faces.flatMap((face): readonly Fault[] => {
    const written = face.rimWritten;
    if (written === undefined || study.located(face).suspects.length > 0) return [];
    const used = new Map(faces.map((f) => [f.name, study.used(f)]));
    // How the second face is laid by the first does not change whether its rim crosses itself.
    const plate = study.job.plate === null ? null : { ...study.job.plate, shafts: null };
    const own = mate({ ...study.job, plate }, used, 0).find((m) => m.face === face.name);
    const found = own === undefined ? null : rimFault(face, own, study.benches().get(face.name) ?? null);
    const at = written[found?.piece ?? 0];
    if (found === null || at === undefined) return [];
    const expected =
      found.crosses === null
        ? 'at least three places or features, in order round the part: these make no closed outline'
        : crossedWords(found.crosses);
    return [{ ...at, code: 'crossed-rim', expected, nearest: null, file: null }];
  });

const design = (
  study: Omit<Study, 'plate' | 'named' | 'alone' | 'proof' | 'midway' | 'moves' | 'pieces' | 'verdict'>,
  options: StudyOptions,
): DesignedPlate => {
  const { job } = study;
  if (job.plate === null)
    throw new Refusal(
      `this job has no \`plate:\` section yet; add one that names the two faces and says how thick: plate: { ` +
        `between: [${bothOf(job)}], thickness: ${job.units === 'in' ? '3/4' : '20 mm'} }`,
    );
  const stack = study.stack();
  if (job.plate.thickness === 'from stack' && stack !== null && stack.chosen === null)
    throw new Unmet('the thickness is to come from the stack, but no thickness meets all its limits', [
      ...platedFaces(job).flatMap(notAtHand),
      ...stackRequirements(job, stack, stack.at, speechFor(job.units)),
    ]);
  const faces = platedFaces(job);
  const crossed = crossedRims(study, faces);
  if (crossed.length > 0) throw new Faulty(crossed);
  const designed = designPlate(job, new Map(faces.map((f) => [f.name, study.used(f)])), {
    stack,
    benches: study.benches(),
    ...(options.trials === undefined ? {} : { trials: options.trials }),
    ...(options.progress === undefined ? {} : { progress: options.progress }),
  });
  if (!designed.ok) throw new Refusal(designed.faults.join('\n'));
  return { plate: designed.plate, mated: designed.mated };
};

/** A job's study. Nothing is worked out before it is asked for; each step may throw a `Refusal` in words. */
export const studyOf = (job: Job, options: StudyOptions = {}): Study => {
  const located = options.located ?? oncePer((face: Face) => locatedIn(job, face, options));
  const layout = options.layout ?? oncePer((face: Face) => layoutFace(face, located(face)));
  const used = oncePer((face: Face) => {
    const result = usedPattern(
      face,
      located(face),
      face.layout.kind === 'stated' || face.standard !== null ? null : layout(face),
      speechFor(job.units),
    );
    if (!result.ok) throw new Refusal(`face ${face.name}: ${result.why}`);
    return result.used;
  });
  const stack = once(() => (job.stack === null ? null : solveStack(job.stack)));
  const benches = once(
    () =>
      new Map(
        job.faces.flatMap((f) => {
          const { bench } = located(f);
          return bench === null ? [] : [[f.name, bench] as const];
        }),
      ),
  );
  const study = { job, located, layout, used, stack, benches };
  // The parts' faces are those of the whole; only the joint's are a piece's own.
  const ofPiece = (own: Job): Pick<StudyOptions, 'located' | 'layout'> => {
    const locatedHere = oncePer((face: Face) =>
      job.faces.includes(face) ? located(face) : locatedIn(own, face, { ...options, warn: () => undefined }),
    );
    return {
      located: locatedHere,
      layout: oncePer((face: Face) => (job.faces.includes(face) ? layout(face) : layoutFace(face, locatedHere(face)))),
    };
  };
  const pieces = once(() =>
    pieceStudies(study, (own, other) =>
      studyOf(own, { ...options, ...ofPiece(own), ...(other === null ? { trials: 1 } : { other }) }),
    ),
  );
  const plate = once(() => {
    const [one, two] = job.plate?.pieces?.names ?? [];
    if (one !== undefined)
      throw new Refusal(
        `the plate is of two pieces, ${one} and ${two ?? ''}: only plate, ` +
          'table, print, prove, packet and compare answer on each',
      );
    return design(study, options);
  });
  const named = once(() => (job.drilled === null ? job : inPlateNames(job, plate().plate)));
  const alone = once(() => {
    if (job.drilled === null || job.drilled.readings.every((r) => r.aside)) return null;
    const { plate: designed, mated } = plate();
    return prove(named(), designed, mated);
  });
  const proof = once(() => {
    const other = options.other?.piece() ?? null;
    const own = alone();
    if (own === null || other === null) return own;
    const { plate: designed, mated } = plate();
    return prove(
      named(),
      designed,
      mated.map((m) => (m.face === options.other?.face ? jointAsDrilled(m, other) : m)),
    );
  });
  const midway = once(() => midwayIn(whole));
  const moves = once(() => {
    const { plate: designed, mated } = plate();
    const solved = job.plate?.thickness === 'from stack' ? stack() : null;
    const shims = (solved?.shims ?? []).reduce((sum, s) => sum + s, 0);
    return movesOn(job, designed, mated, shims);
  });
  const verdict = (): Verdict => {
    const both = pieces();
    return both === null ? verdictOn(whole) : verdictOnPieces(whole, both);
  };
  const whole: Study = { ...study, plate, named, alone, proof, midway, moves, pieces, verdict: once(verdict) };
  return whole;
};

/** The study that a command works on. */
export const studyFor = (
  { job, options, begun, warn, world: { progress } }: Task,
  more: Pick<StudyOptions, 'next' | 'located'> = {},
): Study =>
  begun ??
  studyOf(job, {
    ...more,
    setAside: options.setAside ?? [],
    warn,
    ...(options.trials === undefined ? {} : { trials: options.trials }),
    ...(progress === undefined ? {} : { progress }),
  });

/** How every reading fits on every face that was asked for: what `--verbose` adds. */
export const fittedWords = (study: Study, faces: readonly Face[], speech: Speech) => (): Report =>
  faces.flatMap((f) => fittedReport(f, study.located(f), speech));
