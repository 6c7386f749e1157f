import {
  type Block,
  type Report,
  type Speech,
  exactFraction,
  formatDegrees,
  say,
  sayAll,
  sayNumber,
} from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { readingOf } from '../limits.js';
import type { Plate, StackResult } from '../types.js';
import { stockWords } from '../words/holes.js';
import { capital, nameOfPlate, places } from '../words/say.js';
import { apartWords, enterWords } from './words.js';
import { sayWork } from '../work/words.js';
import type { Assembly, StudLength, Tightening } from './types.js';

type List = readonly string[];

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

const studSteps = (plate: Plate, speech: Speech): readonly List[] => {
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
              `${s.face}${s.least === null ? '' : `; its nut needs ${length(s.least)}`}${s.most === null ? '' : `, the other part leaves ${length(s.most)}`}.`
            : s.asks === 'conflict'
              ? `No length does: its nut needs ${length(s.least ?? 0)}, the other part leaves ${length(s.most ?? 0)}.`
              : `${asIs}: ` +
                `${length(s.stands ?? 0)}${s.least === null ? '' : `, at least ${length(s.least)}`}${s.most === null ? '' : `, at most ${length(s.most)}`}.`;
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
const isOther = ({ joint }: Plate, face: string): boolean => joint?.takes === true && face === joint.face;

/** The steps in their order: the plate onto the first part, what is measured there, then the second part. */
const steps = (plate: Plate, job: Job, speech: Speech): Block => {
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

/** A wrench or key as it is marked: `9/16 in`, `16 mm`, whatever the job is written in. */
const toolSize = (mm: number): string => {
  const inches = exactFraction(mm, 32);
  return inches === null ? `${Number(mm.toFixed(1))} mm` : `${inches} in`;
};

/**
 * A standard by its name and number alone, and whether it was read: the document for programs has all of it. '' for
 * other words.
 */
const inShort = (source: string): string => {
  const words = source.split(' ');
  const i = words.findIndex((w) => w === 'ISO' || w === 'ASME' || w === 'BS' || w === 'DIN');
  if (i < 0) return '';
  const name = `${words[i] ?? ''} ${(words[i + 1] ?? '').split(/[,:]/)[0] ?? ''}`;
  return source.endsWith('from memory') ? `${name} (from memory)` : name;
};

/** Room that nobody need think of: so many times what the tool takes. */
const PLENTY = 3;

const toolTable = (plate: Plate, speech: Speech): Report => {
  const tightening = plate.assembly.tightening.filter((t) => !isOther(plate, t.face));
  const rows = tightening.flatMap((t): readonly List[] => {
    const { tool } = t;
    if (tool === null) return [];
    const n = (mm: number): string => sayNumber(mm, { ...speech, fraction: null }, places(speech));
    return [
      [
        `${t.holes[0] ?? ''}${t.holes.length > 1 ? ` … (${t.holes.length})` : ''}`,
        `${t.thread ?? ''} ${t.fastener}`.trim(),
        `${tool.kind === 'key' ? 'key' : 'wrench, socket'} ${toolSize(tool.size)}`,
        n(tool.outside),
        tool.room !== null && tool.room < PLENTY * tool.outside
          ? n(tool.room)
          : t.side === null
            ? `not known: look behind ${t.face}`
            : 'free',
      ],
    ];
  });
  const sources = [...new Set(tightening.flatMap((t) => t.tool?.source.split('; ').map(inShort) ?? []))].filter(
    (s) => s !== '',
  );
  return rows.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption: `Wrenches and sockets, ${speech.unit}`,
          columns: [
            { title: 'Holes', align: 'left' },
            { title: 'Fastener', align: 'left' },
            { title: 'Across flats', align: 'left' },
            { title: 'Needs, diameter', align: 'point' },
            { title: 'Has', align: 'left' },
          ],
          rows,
        },
        { kind: 'paragraph', text: `Sizes from ${sayAll(sources)}.` },
      ];
};

const studTable = (plate: Plate, speech: Speech): Report =>
  plate.assembly.studs.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption: 'Studs',
          columns: [
            { title: 'Stud', align: 'left' },
            { title: 'Length out of its face', align: 'left' },
          ],
          rows: studSteps(plate, speech),
        },
      ];

/** What is measured on the way, each with what it should be. */
const measures = (plate: Plate, stack: StackResult | null, speech: Speech): Report => {
  const [first, second] = plate.assembly.order;
  const l = (mm: number): string => say(mm, { ...speech, fraction: null }, places(speech));
  const { alignment } = plate;
  const offset = alignment?.turns === true ? alignment.offset : null;
  const tilt = alignment?.turns === true ? alignment.tilt : null;
  const across = Math.max(plate.outline.blank.width, plate.outline.blank.height);
  const register = plate.bores.find((b) => b.part?.face === second && (b.kind === 'recess' || b.kind === 'spigot'));
  const rows: readonly List[] = [
    ...(offset?.worst == null || isOther(plate, second)
      ? []
      : [
          [
            'Indicator on the shaft of ' +
              `${first === plate.joint?.face ? plate.joint.beyond : first}${register === undefined ? `, reading on the shaft of ${second}` : `, reading round ${register.id}, before ${second} goes on`}`,
            `full reading up to ${l(2 * offset.worst)} is as ` +
              `drawn${offset.limit === null ? '' : `; the coupling takes ${l(2 * offset.limit)}`} (twice the offset)`,
          ],
        ]),
    ...(tilt?.worst == null
      ? []
      : [
          [
            'Indicator on the face of the plate, near its edge',
            `full reading up to ${l(tilt.worst * across)} over ${l(across)} ` +
              `(${formatDegrees(tilt.worst, 3)}°)${tilt.limit === null ? '' : `; the coupling takes ${l(tilt.limit * across)}`}`,
          ],
        ]),
    ...(stack?.limits ?? []).map((c) => [
      `${c.name}, by feeler, depth gauge or clay`,
      'about ' +
        `${l(c.nominal)}${c.least === null ? '' : `, at least ${l(c.least)}`}${c.most === null ? '' : `, at most ${l(c.most)}`}`,
    ]),
  ];
  return rows.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption: 'Measure on the way',
          columns: [
            { title: 'With', align: 'left' },
            { title: 'Should be', align: 'left' },
          ],
          rows,
        },
      ];
};

const sealWords = (assembly: Assembly): Report => {
  const leaks = assembly.seals.filter((s) => s.through.length > 0);
  return leaks.length === 0
    ? []
    : [
        {
          kind: 'paragraph',
          text:
            `Where the joint holds fluid: ${sayAll([...new Set(leaks.flatMap((s) => s.through))])} go right through ` +
            'the plate; seal their threads.',
        },
      ];
};

const becauseWords = ({ order, because }: Assembly): string =>
  because === 'covered'
    ? `${order[0]} first: once ${order[1]} is on, its fasteners cannot be reached.`
    : because === 'may be covered'
      ? `${order[0]} first: ${order[1]} may cover its fasteners (its outline is not known).`
      : `Either part may come first; written here for ${order[0]} first.`;

/**
 * The assembly sheet: the steps, tools, studs, what is measured, how it comes apart, and the cautions, for one page.
 */
export const assemblyReport = (plate: Plate, job: Job, stack: StackResult | null, speech: Speech): Report => [
  { kind: 'paragraph', text: becauseWords(plate.assembly) },
  steps(plate, job, speech),
  ...sealWords(plate.assembly),
  ...studTable(plate, speech),
  ...toolTable(plate, speech),
  ...measures(plate, stack, speech),
  { kind: 'heading', level: 2, text: 'To take it apart' },
  { kind: 'list', items: apartWords(plate) },
  {
    kind: 'caution',
    text:
      'Lock the machine out first. Hold each part so that it cannot fall or swing until it is fastened. Never feel ' +
      'for a hole with a finger while parts move. Tightening torque is that of the fastener’s maker.',
  },
];
