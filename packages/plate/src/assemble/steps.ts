import { sayAll, type Speech, say, type Block } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { readingOf } from '../limits.js';
import type { Plate } from '../types.js';
import { stockWords } from '../words/holes.js';
import { nameOfPlate, places, capital } from '../words/say.js';
import { sayWork } from '../work/words.js';
import type { Tightening, StudLength } from './types.js';
import { enterWords } from './words.js';

export type List = readonly string[];

const manyNames = (ids: List): string => (ids.length === 1 ? (ids[0] ?? '') : sayAll(ids));

/** The fasteners of a step, as many as there are: `7 nuts 3/8-16 UNC`. */
const fastenerWords = (t: Tightening, plate: Plate): string => {
  const bought = plate.bolts.find((b) => b.holes.some((id) => t.holes.includes(id)));
  const long = bought?.stock == null ? '' : ` × ${stockWords(bought)}`;
  const washer = plate.holes.find((h) => h.id === t.holes[0])?.fastening?.head?.washer === undefined ? '' : ', washers';
  const kind = `${t.fastener}${t.holes.length === 1 ? '' : 's'}`;
  return `${t.holes.length} ${kind}${t.thread === null ? '' : ` ${t.thread}`}${long}${washer}`;
};

const coveredWords = (t: Tightening, second: string, dowelled: boolean): string => {
  const when = dowelled
    ? 'tighten them fully when it is dowelled, while you still reach them'
    : 'tighten them fully now';
  return t.covered === 'yes'
    ? `Out of reach once ${second} is on: ${when}.`
    : t.covered === 'not known'
      ? `They may be out of reach once ${second} is on: ${when}.`
      : '';
};

/** The steps of fastening one part: its fasteners, crosswise. */
const fastenSteps = (plate: Plate, job: Job, face: string): readonly List[] =>
  plate.assembly.tightening
    .filter((t) => t.face === face)
    .map((t) => [
      `Fasten ${face}: ${fastenerWords(t, plate)}`,
      [
        t.side === null ? `From behind ${face}.` : `On side ${t.side}.`,
        job.plate?.locate.get(face)?.as === 'new dowels' ? 'Just tight for now, and when it runs true, tight.' : '',
        t.holes.length === 1 ? `${t.holes[0] ?? ''}.` : `In three rounds, crosswise: ${t.holes.join(' ')}.`,
        coveredWords(t, plate.assembly.order[1], job.plate?.locate.get(face)?.as === 'new dowels'),
      ]
        .filter((w) => w !== '')
        .join(' '),
    ]);

const gasketStep = (plate: Plate, face: string, speech: Speech): readonly List[] =>
  plate.assembly.seals
    .filter((s) => s.face === face)
    .map((s) => [
      `Gasket on ${face}`,
      `Between ${face} and ` +
        `${nameOfPlate(plate)}${s.thickness === null ? '' : `, ${say(s.thickness, speech, places(speech))} thick`}: ` +
        'once, dry or as its maker says.',
    ]);

/**
 * How a part is set true that the job asks to be: where to read, what to reach, how far it goes, and the dowels last.
 */
const setWords = (plate: Plate, job: Job, face: string, ids: readonly string[], speech: Speech): List | null => {
  const reading = job.plate === null ? null : readingOf(job.plate, face);
  if (reading === null) return null;
  const other = plate.faces.find((f) => f !== face) ?? '';
  const l = (mm: number): string => say(mm, { ...speech, fraction: null }, speech.unit === 'in' ? 4 : 2);
  const [least] = plate.checks
    .filter((c) => c.id === 'set-room' && c.of[0] === face)
    .toSorted((a, b) => a.value - b.value);
  const shaft = job.faces.find((f) => f.name === face)?.shaft;
  return [
    `Set ${face} true, then dowel it`,
    [
      `Indicator on the shaft of ${other}, its point on ` +
        `${shaft == null ? `the shaft of ${face}` : `${face}.${shaft}`}; turn it once round.`,
      `Tap ${face} toward the lower reading until the whole movement (FIM) is at most ${l(reading)}: twice the offset.`,
      least === undefined || least.value < 0
        ? ''
        : `It can be shifted ${l(least.value)} every way; ${least.of[1] ?? ''} stops it first.`,
      'Tighten its fasteners and read again.',
      `Last drill and ream ${ids.length === 0 ? 'the new dowel holes' : sayAll(ids)} through both, drive the ` +
        'dowels, and read once more.',
    ]
      .filter((w) => w !== '')
      .join(' '),
  ];
};

const dowelStep = (plate: Plate, job: Job, face: string, speech: Speech): readonly List[] => {
  const spec = job.plate?.locate.get(face);
  if (spec?.as !== 'new dowels') return [];
  const ids = plate.holes
    .filter((h) => h.feature === null && (h.as === 'dowel' || h.as === 'slot') && h.source.includes(` ${face},`))
    .map((h) => h.id);
  const own = setWords(plate, job, face, ids, speech);
  if (own !== null) return [own];
  // What is put on last is what can still be moved.
  const moved = face === plate.assembly.order[0] ? nameOfPlate(plate) : face;
  return [
    [
      `Set ${moved} true, then dowel it`,
      `Tap ${moved} over until the indicator is still; tighten its fasteners; drill and ream ` +
        `${ids.length === 0 ? 'the new dowel holes' : sayAll(ids)} through both and drive the dowels.`,
    ],
  ];
};

const setStudStep = (plate: Plate, face: string): readonly List[] => {
  const ids = plate.holes.filter((h) => h.as === 'set stud' && h.part?.face === face).map((h) => h.id);
  return ids.length === 0
    ? []
    : [
        [
          `Set the studs into the plate`,
          `${sayAll(ids)}, with thread locking as its maker says, before the plate goes on.`,
        ],
      ];
};

export const studSteps = (plate: Plate, speech: Speech): readonly List[] => {
  const alike = new Map<string, string[]>();
  const length = (mm: number): string => say(mm, speech, places(speech));
  for (const s of plate.assembly.studs) {
    const asIs = isWorked(plate, s) ? 'After the work' : 'As it is';
    const words =
      s.asks === 'shorten'
        ? `Shorten to ${length(s.to ?? 0)} out of ${s.face}: with ${length(s.stands ?? 0)} its end meets the other ` +
          `part (at most ${length(s.most ?? 0)}).`
        : s.asks === 'replace'
          ? `Fit one that stands ${length(s.to ?? 0)} out of ${s.face}: ${length(s.stands ?? 0)} is too short for ` +
            `nut, washer and a thread to spare (at least ${length(s.least ?? 0)}).`
          : s.asks === 'measure'
            ? 'Measure how far it stands out of ' +
              s.face +
              (s.least === null ? '' : `; its nut needs ${length(s.least)}`) +
              (s.most === null ? '' : `, the other part leaves ${length(s.most)}`) +
              '.'
            : s.asks === 'conflict'
              ? `No length does: its nut needs ${length(s.least ?? 0)}, the other part leaves ${length(s.most ?? 0)}.`
              : `${asIs}: ` +
                length(s.stands ?? 0) +
                (s.least === null ? '' : `, at least ${length(s.least)}`) +
                (s.most === null ? '' : `, at most ${length(s.most)}`) +
                '.';
    alike.set(words, [...(alike.get(words) ?? []), `${s.feature} (${s.hole})`]);
  }
  return [...alike].map(([words, ids]) => [manyNames(ids), words]);
};

/** Whether its length is what work that is still to be done leaves. */
const isWorked = ({ work = [] }: Plate, s: StudLength): boolean =>
  work.some((o) => !o.done && o.face === s.face && o.places.some((p) => p.feature === s.feature));

const STEP_COLUMNS = [
  { title: 'Step', align: 'right' },
  { title: 'What', align: 'left' },
  { title: 'How', align: 'left' },
] as const;

/** What goes on last: a part with its fasteners, or the other piece of two, whose own sheets have them. */
const secondSteps = (plate: Plate, job: Job, speech: Speech): readonly List[] => {
  const [, second] = plate.assembly.order;
  const own = nameOfPlate(plate);
  if (isOther(plate, second))
    return [
      [
        `${capital(second)} onto ${own}`,
        'Its own sheets have its screws and dowels, and how it is set true on this one.',
      ],
    ];
  return [
    ...setStudStep(plate, second),
    ...gasketStep(plate, second, speech),
    [`${second} onto ${own}`, enterWords(plate, second, speech)],
    ...fastenSteps(plate, job, second),
    ...dowelStep(plate, job, second, speech),
  ];
};

/** The other piece of two, where this one takes its screws. */
export const isOther = ({ joint }: Plate, face: string): boolean => joint?.takes === true && face === joint.face;

/** The steps in their order: the plate onto the first part, what is measured there, then the second part. */
export const steps = (plate: Plate, job: Job, speech: Speech): Block => {
  const { assembly } = plate;
  const [first] = assembly.order;
  const own = nameOfPlate(plate);
  const toDo = (plate.work ?? []).filter((w) => !w.done);
  const rows: readonly List[] = [
    ...(toDo.length === 0
      ? []
      : [['Work on the parts', `First: ${toDo.map((w) => sayWork(w, speech)).join('; ')}. See the machine sheet.`]]),
    [
      'Try it dry',
      'Faces, bores and holes clean and free of burrs. Push the ' +
        'plate on by hand: if it needs a hammer, find out why first.',
    ],
    ...setStudStep(plate, first),
    ...gasketStep(plate, first, speech),
    [`${plate.joint === undefined ? 'Plate' : capital(own)} onto ${first}`, enterWords(plate, first, speech)],
    ...fastenSteps(plate, job, first),
    ...dowelStep(plate, job, first, speech),
    [
      'Measure',
      assembly.seals.some((s) => s.face === first)
        ? `The gap all round ${first} is even, by feeler.`
        : `A ${feeler(speech)} feeler goes in nowhere between ${own} and ${first}.`,
    ],
    ...secondSteps(plate, job, speech),
    ['Turn it by hand', 'A whole turn, before any power: it must turn freely, with no tight place.'],
  ];
  return {
    kind: 'table',
    caption: null,
    columns: STEP_COLUMNS,
    rows: rows.map((row, i) => [String(i + 1), ...row]),
  };
};

/** The feeler that tells whether two faces meet. Source: common practice. */
const feeler = (speech: Speech): string => (speech.unit === 'in' ? '0.002 in' : '0.05 mm');
