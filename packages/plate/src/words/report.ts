import { workReport, workToWrite } from '../work/words.js';
import { type Block, type Report, type Speech, formatDegrees, say, sayAll, sayMeasure } from '@fayplate/core';
import { alignmentReport } from '../alignment/report.js';
import { goesOnReport } from '../assembly/report.js';
import type { Plate } from '../types.js';
import { sayUnknown } from '../checks/unknown.js';
import { checkWords, verdict } from './checks.js';
import { boltWords, boreTable, centreWords, centresToDecide, holeTable } from './holes.js';
import { outlineSize, places, sayDegrees } from './say.js';

const turningWords = (plate: Plate, speech: Speech): readonly Block[] => {
  const { clockings, turning } = plate;
  if (clockings === null) return [];
  const list = (spans: Plate['turning']['spans']): string =>
    spans.map((s) => `${formatDegrees(s.from, 3)}° to ${formatDegrees(s.to, 3)}°`).join(', ');
  const at = turning.best === null ? '' : `${formatDegrees(turning.best.angle, 3)}°`;
  const by = turning.best === null ? '' : say(Math.abs(turning.best.margin), speech, places(speech));
  const best =
    turning.best === null
      ? ''
      : turning.best.margin < 0
        ? ` It comes closest at ${at}, ${by} short.`
        : ` Widest margin at ${at}: ${by} above the limits.`;
  const [only, ...more] = clockings;
  const whole =
    only !== undefined &&
    more.length === 0 &&
    only.from <= turning.range.from + 1e-9 &&
    only.to >= turning.range.to - 1e-9;
  const still = plate.ok ? '' : ' No angle mends the checks that fail above.';
  const text =
    clockings.length > 0
      ? `${whole ? `At every angle from ${list(clockings)}` : `With ${plate.faces[1]} turned ${list(clockings)}`} ` +
        `(clockwise as drawn) everything that depends on the angle holds.${best}${still}`
      : `At no angle between ${sayDegrees(turning.range.from)} and ${sayDegrees(turning.range.to)} does everything ` +
        `that depends on it hold.${best}`;
  return [
    { kind: 'heading', level: 2, text: 'Clocking' },
    { kind: 'paragraph', text },
  ];
};

/** Room about screws and dowels of a joint between two pieces, mm, for the circle that is proposed. */
const JOINT_ROOM = 12;

/** Where the patterns collide at every angle: what two pieces would be, as the job file has it. */
const twoPieces = (plate: Plate, speech: Speech): Report => {
  const { width, height } = plate.outline.blank;
  const collide = plate.checks.some((c) => !c.ok && c.id === 'web-between-cuts');
  // How it is written is for who has the file before him.
  if (speech.atBench === true || !collide || plate.turning.spans.length > 0) return [];
  const size = (mm: number): string => say(mm, { ...speech, fraction: null }, speech.unit === 'in' ? 2 : 0);
  const circle = size(Math.min(width, height) + JOINT_ROOM);
  const dowel = speech.unit === 'in' ? '5/16 in' : '8 mm';
  return [
    {
      kind: 'paragraph',
      text:
        'No angle keeps the two patterns apart in one plate. Two pieces, a ring and a plate, screwed and dowelled ' +
        `together, can: make the plate thicker and larger, and write in its section \`pieces: { first: ` +
        `${size(plate.thickness / 2)}, screws: { thread: ${speech.unit === 'in' ? '5/16-18 UNC' : 'M8'}, circle: ` +
        `${circle}, clock: [1, 4, 7, 10] }, dowels: { diameter: ${dowel}, circle: ${circle}, clock: [2, 8] } }\`.`,
    },
  ];
};

/** The finished outline; the table says what blank it is cut from. */
const outlineWords = (plate: Plate, speech: Speech): string => {
  const { thickness } = plate.outline.blank;
  const raised =
    thickness > plate.thickness + 1e-9
      ? `, ${say(thickness, speech, places(speech))} thick over the raised spigot`
      : '';
  return `outline ${outlineSize(plate.outline.blank, speech)}${raised}`;
};

/** Pounds in a job in inches. Source: 1 lb = 0.45359237 kg, exactly. */
const massWords = (kg: number, speech: Speech): string =>
  speech.unit === 'in' ? `${(kg / 0.45359237).toFixed(2)} lb` : `${kg.toFixed(2)} kg`;

/** What one grown person should lift at the most, kg: ISO 11228-1, from memory. */
const ONE_PERSON = 25;

/** Cautions that stand at the end, each where the plate gives reason for it. */
export const plateCautions = (plate: Plate, speech: Speech): readonly Block[] => [
  ...((plate.outline.mass ?? 0) > ONE_PERSON
    ? [
        {
          kind: 'caution',
          text:
            `The plate weighs more than one person should lift, ${massWords(ONE_PERSON, speech)}, and its blank more ` +
            'still: have help or a hoist, and hold it so that it cannot tip or fall while nothing fastens it.',
        } as const,
      ]
    : []),
  ...(plate.holes.some((h) => h.as === 'lifting')
    ? [
        {
          kind: 'caution',
          text:
            'Lift by eye bolts that are rated for the load and the angle, screwed home to the collar, and let nobody ' +
            'stand below. Whether their thread holds in this plate is not checked here.',
        } as const,
      ]
    : []),
  {
    kind: 'caution',
    text:
      'Grade and tightening torque of the fasteners are not chosen here. Where lives depend on the joint, have it ' +
      'designed and checked by a licensed engineer under your local codes.',
  },
];

/** A part's own verdict told as a plain sentence: the plate has one verdict only. */
const asParagraphs = (report: Report): readonly Block[] =>
  report.map((b): Block => (b.kind === 'verdict' ? { kind: 'paragraph', text: `${b.text}.` } : b));

const together = (plate: Plate, speech: Speech): readonly Block[] =>
  plate.goesOn.size === 0
    ? []
    : [
        { kind: 'heading', level: 2, text: 'Does it go on?' },
        ...[...plate.goesOn].flatMap(([face, g]) => asParagraphs(goesOnReport(face, g, speech))),
      ];

const inLine = (plate: Plate, speech: Speech): readonly Block[] =>
  plate.alignment === null || !plate.alignment.turns
    ? []
    : [
        { kind: 'heading', level: 2, text: 'Shafts in line' },
        ...asParagraphs(alignmentReport(plate.alignment, speech)),
      ];

/** What the outline rests on, where it was fitted to what was touched along a rim. */
const restWords = (plate: Plate, speech: Speech): Report => {
  const rests = plate.outline.rests ?? [];
  if (rests.length === 0) return [];
  const touched = rests.reduce((sum, r) => sum + r.points, 0);
  const many = (n: number, what: string): readonly string[] => (n === 0 ? [] : [`${n} ${what}${n === 1 ? '' : 's'}`]);
  const along = (['arc', 'line'] as const).flatMap((a) => many(rests.filter((r) => r.along === a).length, a));
  const farthest = Math.max(...rests.map((r) => r.departure));
  return [
    {
      kind: 'paragraph',
      text:
        `The outline is fitted to ${touched} places touched along ${sayAll(along)}; the farthest is ` +
        `${say(farthest, speech, places(speech))} off. Three places on an arc leave no spare one to show a slip.`,
    },
  ];
};

/** The thickness, with the ± that the job gives it. */
const thicknessWords = ({ thickness, thicknessWithin }: Plate, speech: Speech): string =>
  thicknessWithin === undefined
    ? say(thickness, speech, places(speech))
    : sayMeasure(thickness, thicknessWithin, speech, places(speech));

/** Thickness, metal, outline and weight, which part lies on which side, and which centres are cut. */
export const sizeWords = (plate: Plate, speech: Speech): string =>
  (
    `${thicknessWords(plate, speech)} thick${plate.material === null ? '' : `, ${plate.material.name}`}; ` +
    outlineWords(plate, speech) +
    (plate.outline.mass === null ? '' : `; ${massWords(plate.outline.mass, speech)} finished`) +
    '. ' +
    `Side A lies on ${plate.faces[0]}, side B on ${plate.faces[1]}. ${centreWords(plate, speech)}`
  ).trim();

/**
 * Verdict first (`answer`: the one about the whole job, where there is one), then checks (`every`: also those that hold
 * with more to spare than others of their kind), holes, bores, clocking, chance and alignment, what is not known, and
 * the cautions.
 */
export const plateReport = (
  plate: Plate,
  speech: Speech,
  every = false,
  answer: readonly Block[] = [verdict(plate, speech)],
): Report => [
  { kind: 'heading', level: 1, text: `Plate between ${plate.faces[0]} and ${plate.faces[1]}` },
  ...answer,
  {
    kind: 'paragraph',
    text: sizeWords(plate, speech),
  },
  ...restWords(plate, speech),
  ...[centresToDecide(plate, speech)].flatMap((text): Report => (text === null ? [] : [{ kind: 'paragraph', text }])),
  ...checkWords(plate, speech, every),
  ...workToWrite(plate, speech),
  ...twoPieces(plate, speech),
  { kind: 'heading', level: 2, text: 'Holes' },
  holeTable(plate, speech),
  ...boltWords(plate, speech),
  ...boreTable(plate, speech),
  ...turningWords(plate, speech),
  ...together(plate, speech),
  ...workReport(plate.work ?? [], speech),
  ...inLine(plate, speech),
  ...(plate.unknowns.length === 0
    ? []
    : [
        { kind: 'heading', level: 2, text: 'Not checked' } as const,
        {
          kind: 'list',
          items: plate.requirements.filter((r) => r.state === 'not known').map((r) => sayUnknown(r, speech)),
        } as const,
      ]),
  ...plateCautions(plate, speech),
];
