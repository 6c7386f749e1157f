import {
  type Block,
  type Requirement,
  type Speech,
  type Verdict,
  forReader,
  notKnown,
  sayAll,
  sayAnswer,
  say,
  speechFor,
  verdictOf,
} from '@fayplate/core';
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
import { suspectsOn } from './doubts.js';
import type { MachineFormat } from './formats.js';
import { type Options, asideFlag } from './options.js';
import type { Notice } from './printing.js';
import { Faulty, Refusal, Unmet } from './refusal.js';
import { notAtHand } from './at-hand.js';
import { midwayRequirements } from './midway.js';
import { platedFaces } from './located.js';
import type { Study } from './types.js';
import { trialAsks } from './trial.js';

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

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The verdict as the block that every medium shows first. */
export const verdictBlock = (v: Verdict, speech: Pick<Speech, 'atBench'> = {}): Block => ({
  kind: 'verdict',
  ok: v.answer === 'yes',
  answer: v.answer,
  text: capital(forReader(v.because, v.becauseAtBench, speech)),
});

/** The verdict, and before it what of the readings is not settled where something is made from them. */
export const verdictBlocks = (
  v: Verdict,
  unsettled: string | null = null,
  speech: Pick<Speech, 'atBench'> = {},
): readonly Block[] => [
  verdictBlock(v, speech),
  ...(unsettled === null
    ? []
    : [{ kind: 'paragraph' as const, text: `${unsettled}. Everything below depends on it.` }]),
];

/**
 * What a person is told where there is no answer: the verdict, where no plate can be drawn though the file is sound.
 */
export const refusalWords = (refused: Refusal): string => {
  if (!(refused instanceof Unmet)) return refused.message;
  const { answer, because } = verdictOf(refused.requirements, '');
  return `${sayAnswer(answer)}: ${capital(because)}`;
};

/**
 * The whole job's verdict at the end of a command that answers a question of its own; nothing where the job has no
 * plate yet.
 */
export const wholeJob = (v: Verdict | null): readonly Block[] =>
  v === null ? [] : [{ kind: 'heading', level: 2, text: 'The whole job' }, verdictBlock(v)];

/** A room's own judgement as a plain sentence: a job has one verdict only. */
export const asParagraph = (b: Block): Block => (b.kind === 'verdict' ? { kind: 'paragraph', text: b.text } : b);

export const noticeOf = (v: Verdict, unsettled: string | null): Notice => ({ line: verdictLine(v), across: unsettled });

/**
 * Why a file that a machine is run by is not made: its readings are not settled, and nobody asked for it all the same;
 * else null.
 */
export const withheld = (format: MachineFormat, notice: Notice | undefined, options: Options): string | null =>
  format.flag === 'csv' || notice?.across == null || options.unsettled === true
    ? null
    : `${notice.across}. No ${format.flag === 'cnc' ? 'program' : 'solid'} is made from it; settle it first, or ask ` +
      'for it with --unsettled: it then begins with a stop';

/** The verdict in one line, for the head of a sheet, a table or a program: what goes to the bench. */
export const verdictLine = (v: Verdict): string => `${sayAnswer(v.answer)}: ${v.becauseAtBench}`;

/**
 * `verdict` of a command's document: the answer, what it rests on, and every requirement that fails or is not known.
 */
export const verdictJson = (v: Verdict | null) =>
  v === null
    ? null
    : {
        answer: v.answer,
        because: v.because,
        first: v.first?.id ?? null,
        requirements: v.requirements,
      };
