import { type Speech, forReader } from './speech.js';

/**
 * Whether the joint can work: `yes`, `no`, or `not yet` where something that could scrap the metal or stop the shaft is
 * not known.
 */
export type Answer = 'yes' | 'not yet' | 'no';

/** One thing that must be so for the joint to work, with the evidence. */
export interface Requirement {
  /** A stable name for programs; of one that is not known, a key of `unknownClass`. */
  readonly id: string;
  readonly title: string;
  readonly state: 'holds' | 'fails' | 'not known';
  /** What was found and what is asked, in `unit`; null where there is no number. */
  readonly value: number | null;
  readonly limit: number | null;
  /** How far inside the limit; negative where it fails, null where there is no number. */
  readonly margin: number | null;
  /** 'mm' unless said: '1' is a count, 'd' diameters, 'deg' degrees, '%' a chance in 100. */
  readonly unit: 'mm' | '1' | 'd' | 'deg' | '%';
  readonly source: string | null;
  /** What is so, is wrong or is not known: a plain sentence without its capital and its full stop. */
  readonly because: string;
  /**
   * The reading, the word or the change that settles it; null where there is none. Words of the job file stand in it
   * between backticks.
   */
  readonly cure: string | null;
  /** The same without a word of the job file, for who has no file before him; left out where `cure` names none. */
  readonly cureAtBench?: string;
}

/** What settles a requirement, for this reader. */
export const cureFor = (r: Requirement, speech: Pick<Speech, 'atBench'>): string | null =>
  r.cure === null ? null : forReader(r.cure, r.cureAtBench ?? r.cure, speech);

/** What it costs not to know a thing: `scrap` could waste the metal or stop the shaft, `note` is only worth saying. */
export type UnknownClass = 'scrap' | 'note';

/** Everything that can be not known, and what that costs. A `scrap` is always Not yet; a `note` never is. */
export const unknownClass = {
  // Readings
  'not-at-hand': 'scrap',
  'reading-suspect': 'scrap',
  'readings-contradict': 'scrap',
  'feature-not-fixed': 'scrap',
  'mirror-image': 'scrap',
  arrangement: 'scrap',
  'reading-unchecked': 'note',
  // Where the parts lie
  'no-plate': 'scrap',
  axis: 'scrap',
  origin: 'note',
  turn: 'scrap',
  'turn-chosen': 'note',
  'rim-inside': 'scrap',
  'rim-chords': 'note',
  // The shaft
  bore: 'scrap',
  'shaft-size': 'note',
  'shaft-run-out': 'note',
  'shaft-offset': 'scrap',
  'second-setting': 'note',
  parallel: 'note',
  'set-at-assembly': 'note',
  unlocated: 'note',
  // The stack
  'stack-link': 'scrap',
  // What else moves
  'moved-length': 'scrap',
  // Registers, studs, threads and heads
  'register-size': 'scrap',
  'register-depth': 'scrap',
  'stud-length': 'scrap',
  'dowel-length': 'scrap',
  'end-under-part': 'scrap',
  'head-under-part': 'scrap',
  'assembly-order': 'scrap',
  'fastener-size': 'scrap',
  'fastener-thread': 'note',
  'hardware-size': 'note',
  'old-hardware': 'note',
  'stud-out': 'scrap',
  flange: 'note',
  'thread-depth': 'note',
  'gasket-thickness': 'note',
  'cone-seats': 'note',
  // What stands in the way
  'standing-size': 'scrap',
  'standing-height': 'scrap',
  'standing-under-part': 'scrap',
  'jacking-metal': 'note',
  'not-on-plate': 'scrap',
  // Gaskets and the drilled plate
  'gasket-cover': 'scrap',
  'not-drilled': 'note',
  'work-to-do': 'note',
  'trial-gaps': 'scrap',
  'drilled-from': 'note',
  'not-measured': 'scrap',
  'drilled-fit': 'note',
} as const satisfies Readonly<Record<string, UnknownClass>>;

/** What is not known, by a word that stays. */
export type UnknownId = keyof typeof unknownClass;

/** Something that is not known: what, and what to read or write so that it is. */
export const notKnown = (
  id: UnknownId,
  title: string,
  because: string,
  cure: string | null,
  cureAtBench?: string,
): Requirement => ({
  id,
  title,
  state: 'not known',
  value: null,
  limit: null,
  margin: null,
  unit: 'mm',
  source: null,
  because,
  cure,
  ...(cureAtBench === undefined ? {} : { cureAtBench }),
});

/** The class of something that is not known; what no table has is taken for the worse. */
export const classOf = (r: Requirement): UnknownClass =>
  Object.hasOwn(unknownClass, r.id) ? unknownClass[r.id as UnknownId] : 'scrap';

/** Whether a requirement keeps the answer from Yes. */
export const keepsFromYes = (r: Requirement): boolean =>
  r.state === 'fails' || (r.state === 'not known' && classOf(r) === 'scrap');

/** The one answer about the whole job, and what it rests on. */
export interface Verdict {
  readonly answer: Answer;
  /** What the answer rests on, in a sentence without Yes or No before it. */
  readonly because: string;
  /** The same for who has no job file before him. */
  readonly becauseAtBench: string;
  /** The requirement that decides; null where all hold. */
  readonly first: Requirement | null;
  readonly requirements: readonly Requirement[];
}

const sentence = (r: Requirement, speech: Pick<Speech, 'atBench'>): string => {
  const cure = cureFor(r, speech);
  return cure === null ? r.because : `${r.because}; ${cure}`;
};

/**
 * Readings that contradict each other, or are a seller's figures: whatever else was found rests on them, so no No is
 * sure while they stand.
 */
const undermines = (r: Requirement): boolean =>
  r.id === 'not-at-hand' || r.id === 'reading-suspect' || r.id === 'readings-contradict';

/**
 * One answer from one list: Not yet where readings contradict each other or a part is not at hand, No where anything
 * fails, else Not yet where a scrap is not known, else Yes. The first that decides is named, in the order of the list,
 * with how many more there are. `sound`: what is said where all hold.
 */
export const verdictOf = (requirements: readonly Requirement[], sound: string): Verdict => {
  const fails = requirements.filter((r) => r.state === 'fails');
  const open = requirements.filter((r) => r.state === 'not known' && classOf(r) === 'scrap');
  const unsettled = open.filter(undermines);
  const [deciding, answer]: readonly [readonly Requirement[], Answer] =
    unsettled.length > 0
      ? [[...unsettled, ...open.filter((r) => !undermines(r))], 'not yet']
      : fails.length > 0
        ? [fails, 'no']
        : open.length > 0
          ? [open, 'not yet']
          : [[], 'yes'];
  const [first] = deciding;
  if (first === undefined) return { answer, because: sound, becauseAtBench: sound, first: null, requirements };
  const n = deciding.length - 1;
  const more =
    n === 0
      ? ''
      : answer === 'no'
        ? ` ${n} more ${n === 1 ? 'requirement fails' : 'requirements fail'}.`
        : ` ${n} more ${n === 1 ? 'thing is' : 'things are'} not known.`;
  const said = (speech: Pick<Speech, 'atBench'>): string => `${sentence(first, speech)}.${more}`;
  return { answer, because: said({}), becauseAtBench: said({ atBench: true }), first, requirements };
};

/** The answer as it is said: `Yes`, `Not yet`, `No`. */
export const sayAnswer = (answer: Answer): string => (answer === 'yes' ? 'Yes' : answer === 'no' ? 'No' : 'Not yet');
