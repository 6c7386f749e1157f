import { type Report, type Speech, type Verdict, once, oncePer, speechFor } from '@fayplate/core';
import { type Face, type Fault, type Job, crossedWords } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { prove } from '@fayplate/machining';
import { designPlate, mate, movesOn, rimFault, solveStack, stackRequirements } from '@fayplate/plate';
import { fittedReport } from '@fayplate/survey';
import { notAtHand } from './at-hand.js';
import type { Task } from './command.js';
import { jointAsDrilled } from './joint.js';
import { locatedIn, platedFaces } from './located.js';
import { midwayIn } from './midway.js';
import { pieceStudies, verdictOnPieces } from './pieces.js';
import { inPlateNames } from './plate-names.js';
import { Faulty, Refusal, Unmet } from './refusal.js';
import type { DesignedPlate, Study, StudyOptions } from './types.js';
import { verdictOn } from './verdict.js';

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
