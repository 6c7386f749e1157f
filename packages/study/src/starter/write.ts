import { type Face, type Job, readJob } from '@fayplate/job';
import { type CheckedPlan, type PlannedReading, planChecked } from '@fayplate/survey';
import { Refusal } from '../refusal.js';
import type { PartAnswers, StarterAnswers } from './answers.js';

/** The letter that the names of a part's fasteners begin with. */
export const letterOf = (part: PartAnswers, other: PartAnswers): string => {
  const first = (part.name[0] ?? 'P').toUpperCase();
  return first === (other.name[0] ?? '').toUpperCase() && part !== other && part.name > other.name
    ? `${first}${(part.name[1] ?? 'x').toLowerCase()}`
    : first;
};

/** The names that the fasteners of a part get, in the order of their clocks. */
export const idsOf = (part: PartAnswers, letter: string): readonly string[] =>
  part.clocks.map((_, i) => `${letter}${i + 1}`);

/** A name as a YAML key or value that can be taken for nothing else. */
const key = (name: string): string =>
  /^[A-Za-z][A-Za-z0-9_]*$/.test(name) && !/^(?:null|true|false|yes|no|on|off|y|n)$/i.test(name)
    ? name
    : JSON.stringify(name);

/** Comments stand in one column, as in the example of the format. */
const beside = (text: string, comment: string): string => `${text.padEnd(34)} # ${comment}`;

const quoted = (clock: string): string => (clock.includes(':') ? `"${clock}"` : clock);

const NO_PLAN: CheckedPlan = { draw: [], cut: [] };

const lineOf = ({ reading, instrument, again }: PlannedReading): string => {
  const line = `      # - ${reading} =  by ${instrument ?? 'caliper'}`;
  return again === true ? beside(line, 'once more, the jaws set afresh') : line;
};

const readingLines = ({ draw, cut }: CheckedPlan): readonly string[] => [
  ...draw.map(lineOf),
  ...(draw.length === 0 ? [] : ['      # Enough to draw: every feature is fixed. A misreading would not show yet.']),
  ...cut.map(lineOf),
  ...(cut.length === 0 ? [] : ['      # Enough to cut metal: a misreading shows, and which reading it is.']),
];

const faceLines = (part: PartAnswers, letter: string, readings: CheckedPlan): readonly string[] => {
  const ids = idsOf(part, letter);
  const across = (part.across ?? []).map((clock) => ids[part.clocks.indexOf(clock)] ?? '');
  const up = across.length > 0 ? -1 : part.clocks.indexOf('12');
  const thread = part.thread === undefined || part.thread === null ? '' : `, thread: ${part.thread}`;
  return [
    `  ${key(part.name)}:`,
    beside(
      `    viewed: ${part.viewed ?? 'from outside'}`,
      part.viewed === 'from behind'
        ? 'looking at the face through the part; or: from outside'
        : 'looking straight at the face from off the part; or: from behind',
    ),
    ...(part.middle === 'none' ? [] : [beside(`    centre: ${part.middle}`, 'its centre is (0, 0)')]),
    ...(up < 0 ? [] : [beside(`    up: ${ids[up] ?? ''}`, "this one is at 12 o'clock")]),
    ...(across.length === 0
      ? []
      : [
          beside(`    across: [${across.join(', ')}]`, 'the x axis runs from the first, at (0, 0), through the second'),
        ]),
    ...(part.alike === true && ids.length > 1
      ? [beside(`    alike: [${ids.join(', ')}]`, 'all of one size: three diameters read give those of all')]
      : []),
    '    features:                      # add a thread (3/8-16 UNC, M10) or a diameter with its ± where you know it',
    ...(part.middle === 'none' ? [] : [`      ${part.middle}: { kind: ${part.middle} }`]),
    ...part.clocks.map(
      (clock, i) => `      ${ids[i] ?? ''}: { kind: ${part.fasteners}, clock: ${quoted(clock)}${thread} }`,
    ),
    '    readings:                      # take the # off a line ' +
      'and write what you read; the order fixes the shape soonest',
    ...readingLines(readings),
  ];
};

/** What else a shop reads with, at the ± that is usual (common practice): take the # off what is used. */
const others = {
  in: ['rule: ± 1/64 in', 'protractor: ± 0.5 deg', 'square: ± 0.2 deg'],
  mm: ['rule: ± 0.5 mm', 'protractor: ± 0.5 deg', 'square: ± 0.2 deg'],
} as const;

const isNamed = ({ instruments = [] }: StarterAnswers, line: string): boolean =>
  instruments.some((own) => own.split(':')[0] === line.split(':')[0]);

const skeleton = (a: StarterAnswers, readings: readonly CheckedPlan[]): string => {
  const [first, second] = a.parts;
  const letters = [letterOf(first, second), letterOf(second, first)];
  return [
    `job: ${JSON.stringify(a.job)}`,
    beside(`units: ${a.units}`, 'what a bare number means; a written unit always wins'),
    '',
    'instruments:                       # ± is the band that holds 95 readings in 100',
    `  caliper: ${a.caliper}`,
    ...(a.instruments ?? []).map((line) => `  ${line}`),
    ...others[a.units].filter((line) => !isNamed(a, line)).map((line) => `  # ${line}`),
    '',
    'faces:',
    ...faceLines(first, letters[0] ?? 'A', readings[0] ?? NO_PLAN),
    '',
    ...faceLines(second, letters[1] ?? 'B', readings[1] ?? NO_PLAN),
    '',
    '# When every feature is fixed (fayplate check), say what is to be made:',
    '#',
    '# plate:',
    beside(`#   between: [${key(first.name)}, ${key(second.name)}]`, 'the first lies on side A, the second on side B'),
    '#   material: aluminium',
    '#   thickness: 20 mm               # or: from stack, with a stack section for the chain along the shaft',
    beside('#   fasten:', 'clearance: fasteners pass the plate; tapped: bolts through the part screw into it'),
    ...(a.parts.some((p) => p.fasteners === 'hole')
      ? [beside('#', 'for a part whose own holes are threaded: { as: clearance, cap screw: counterbored }')]
      : []),
    ...a.parts.map(
      (p) =>
        `#     ${key(p.name)}: { as: ` +
        (p.fasteners === 'stud'
          ? 'clearance, fit: normal, nut: counterbored'
          : 'tapped, thread: M10, engagement: 1.5 d') +
        ' }',
    ),
    '#   outline: { shape: follow, margin: 12 mm }',
    '',
  ].join('\n');
};

/**
 * The readings to take of a face in the reading language without their values: those that fix its shape, then those
 * that show a misreading and which it is, some of them twice.
 */
export const readingsToTake = (face: Face, instruments: Job['instruments']): readonly PlannedReading[] => {
  const { draw, cut } = planChecked({ face, instruments });
  return [...draw, ...cut];
};

/**
 * A commented job with no reading taken yet, and for each face the lines to take, in the order that fixes the shape
 * soonest.
 */
export const starterJob = (answers: StarterAnswers): string => {
  const bare = readJob(skeleton(answers, []));
  if (!bare.ok) {
    const [fault] = bare.faults;
    throw new Refusal(`a job cannot start with "${fault?.found ?? ''}": write ${fault?.expected ?? ''}`);
  }
  const { faces, instruments } = bare.job;
  const readings = faces.map((face) => planChecked({ face, instruments }));
  return `# A Fayplate job.\n${skeleton(answers, readings)}`;
};
