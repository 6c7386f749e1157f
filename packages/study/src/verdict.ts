import { type Requirement, type Verdict, notKnown, say, sayAll, speechFor, verdictOf } from '@fayplate/core';
import { type Face, type Job, fingerprintOf } from '@fayplate/job';
import {
  type Proof,
  assembledRequirements,
  assembledWith,
  blankRequirements,
  proofRequirements,
  sizeRequirements,
} from '@fayplate/machining';
import { designPlate, gasketRequirements, movesRequirements, stackRequirements } from '@fayplate/plate';
import { type LocatedFace, agrees, arrangementWords, isOneArrangement } from '@fayplate/survey';
import { notAtHand } from './at-hand.js';
import { suspectsOn } from './doubts.js';
import { platedFaces } from './located.js';
import { midwayRequirements } from './midway.js';
import { asideFlag } from './options.js';
import { Faulty, Refusal, Unmet } from './refusal.js';
import { trialAsks } from './trial.js';
import type { Study } from './types.js';

/** Readings that contradict each other, and shapes that they leave open, on one face. */
const ofReadings = (face: Face, located: LocatedFace): readonly Requirement[] => {
  const suspects = suspectsOn(face.name, located).map((s) => s.reading);
  const one = suspects.length === 1;
  // Of readings that cannot be told apart one is wrong, and one is left out.
  const heads = located.suspects.map((s) => s.reading);
  return [
    ...notAtHand(face),
    ...(suspects.length === 0
      ? []
      : [
          notKnown(
            'reading-suspect',
            'reading suspect',
            `${one ? 'reading' : 'readings'} ${sayAll(suspects)} of ` +
              `${face.name} ${one ? 'does' : 'do'} not agree with the rest`,
            `measure ${one ? 'it' : 'them'} again, or leave ` +
              `${one ? 'it' : heads.length < suspects.length ? 'one' : 'them'} out: ` +
              `\`${heads.map((id) => asideFlag(face, id)).join(' ')}\``,
            `measure ${one ? 'it' : 'them'} again, or leave ` +
              `${one ? 'it' : heads.length < suspects.length ? 'one' : 'them'} out`,
          ),
        ]),
    ...(suspects.length > 0 || agrees(located)
      ? []
      : [
          notKnown(
            'readings-contradict',
            'readings contradict each other',
            `the readings of ${face.name} disagree by more than their ± allow, and no single one stands out`,
            'a ± may be too small, or several readings wrong: see `locate`',
            'a ± may be too small, or several readings wrong',
          ),
        ]),
    ...(isOneArrangement(located)
      ? []
      : [
          notKnown(
            'arrangement',
            'arrangement of the centres',
            `on ${face.name} ${arrangementWords(located).join('; ')}`,
            'take the reading that `locate` proposes',
            'take the reading under “To measure next”',
          ),
        ]),
    ...(located.hand.settled
      ? []
      : [
          notKnown(
            'mirror-image',
            'mirror image',
            `the readings of ${face.name} fit its shape and the mirror image alike`,
            'write `clock` on three features',
            'write down where three features stand, by the clock',
          ),
        ]),
  ];
};

/** What is settled of the readings that the plate rests on: `Not settled: reading 7 of pump`, or null where all are. */
export const unsettledOf = (study: Study): string | null => {
  const suspects = platedFaces(study.job).flatMap((f) => suspectsOn(f.name, study.located(f)));
  const restless = platedFaces(study.job).filter(
    (f) => study.located(f).suspects.length === 0 && !agrees(study.located(f)),
  );
  const parts = [
    ...platedFaces(study.job).flatMap((f) => {
      const own = suspects.filter((s) => s.face === f.name).map((s) => s.reading);
      return own.length === 0 ? [] : [`${own.length === 1 ? 'reading' : 'readings'} ${sayAll(own)} of ${f.name}`];
    }),
    ...restless.map((f) => `the readings of ${f.name}`),
  ];
  return parts.length === 0 ? null : `Not settled: ${parts.join(', ')}`;
};

/** What is said of a job whose every requirement holds. */
const soundWords = (study: Study, proof: Proof | null): string => {
  const { plate } = study.plate();
  const least = plate.checks
    .filter((c) => c.id === 'web-between-cuts' || c.id === 'floor-between-cuts')
    .toSorted((a, b) => a.value - b.value)[0];
  const speech = speechFor(study.job.units);
  const metal =
    least === undefined
      ? ''
      : `; least metal between cuts ${say(least.value, speech, speech.unit === 'in' ? 3 : 2)} ` +
        `(${least.of.join(' and ')})`;
  const drilled =
    proof === null || proof.state === 'not drilled'
      ? ''
      : (study.midway()?.left.length ?? 0) > 0
        ? ' What is drilled so far is good.'
        : ' The plate as drilled goes on both parts.';
  return `The plate goes together${metal}.${drilled}`;
};

/** What stands past the plate, and so depends on how thick it came out. */
const past: ReadonlySet<string> = new Set(['stud-end', 'dowel-end', 'standing-under-part']);

/** The plate as thick as it was measured: what then stands into the other part, and did not as drawn. */
const asThick = (study: Study): readonly Requirement[] => {
  const { job } = study;
  const measured = job.drilledSizes?.thickness ?? null;
  const { plate } = study.plate();
  if (job.plate === null || measured === null || Math.abs(measured - plate.thickness) < 1e-9) return [];
  const used = new Map(platedFaces(job).map((f) => [f.name, study.used(f)]));
  const options = { stack: study.stack(), benches: study.benches(), trials: 1 };
  const made = designPlate({ ...job, plate: { ...job.plate, thickness: measured } }, used, options);
  const bad = (requirements: readonly Requirement[]): readonly Requirement[] =>
    requirements.filter((r) => r.state === 'fails' && past.has(r.id));
  return !made.ok || bad(plate.requirements).length > 0
    ? []
    : bad(made.plate.requirements).map((r) => ({ ...r, title: `${r.title}, as thick as drilled`, cure: null }));
};

/** The plate was drilled by sheets of another state of the job than this. */
const otherSheets = (job: Job): readonly Requirement[] => {
  const own = fingerprintOf(job);
  return job.drilledFrom === undefined || job.drilledFrom === own
    ? []
    : [
        notKnown(
          'drilled-from',
          'sheets that it was drilled by',
          `the plate was drilled by sheets of ${job.drilledFrom}, and the job is ${own} by now`,
          'compare the two states: `fayplate compare JOB --with EARLIER`',
        ),
      ];
};

/**
 * The one answer about a whole job, from what every room asks. Throws a `Refusal` where no plate can be drawn at all.
 */
export const verdictOn = (study: Study): Verdict => {
  const { job } = study;
  const { plate, mated } = study.plate();
  const proof = study.proof();
  const speech = speechFor(job.units);
  const assembled = assembledWith(job, plate, mated);
  // What a dial told of the machine as it stands goes before what the drawing let it be.
  const told = [
    ...(assembled?.offset == null ? [] : ['shaft-offset', 'shaft-direction', 'shaft-run-out', 'drilled-offset']),
    ...(assembled?.tilt == null ? [] : ['shaft-tilt', 'parallel']),
  ];
  const untold = (all: readonly Requirement[]): readonly Requirement[] => all.filter((r) => !told.includes(r.id));
  return verdictOf(
    [
      ...platedFaces(job).flatMap((f) => ofReadings(f, study.located(f))),
      ...stackRequirements(job, study.stack(), plate.thickness, speech),
      ...untold(plate.requirements),
      ...gasketRequirements({ job, plate, mated, benches: study.benches(), speech }),
      ...blankRequirements(job, plate, speech),
      ...movesRequirements(study.moves(), speech),
      ...otherSheets(job),
      ...midwayRequirements(study),
      ...trialAsks(study),
      ...(proof === null ? [] : untold(proofRequirements(study.named(), plate, mated, proof, speech))),
      ...(job.drilledSizes == null ? [] : sizeRequirements(study.named(), plate, mated, speech)),
      ...asThick(study),
      ...assembledRequirements(assembled, plate, speech),
    ],
    soundWords(study, proof),
  );
};

/** The verdict of a job that may not have come as far as a plate; null where it asks for none. */
export const verdictSoFar = (study: Study): Verdict | null => {
  if (study.job.plate === null) return null;
  try {
    return study.verdict();
  } catch (error) {
    if (!(error instanceof Refusal) || error instanceof Faulty) throw error;
    if (error instanceof Unmet)
      return verdictOf(
        [...platedFaces(study.job).flatMap((f) => ofReadings(f, study.located(f))), ...error.requirements],
        '',
      );
    return verdictOf([notKnown('no-plate', 'plate', error.message.replace(/\.$/, ''), null)], '');
  }
};
