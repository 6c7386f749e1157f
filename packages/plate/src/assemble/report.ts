import { type Report, type Speech, exactFraction, formatDegrees, say, sayAll, sayNumber } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { Plate, StackResult } from '../types.js';
import { places } from '../words/say.js';
import { apartWords } from './words.js';
import type { Assembly } from './types.js';
import { type List, isOther, steps, studSteps } from './steps.js';

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

/** Room that needs no word: so many times what the tool takes. */
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
              (first === plate.joint?.face ? plate.joint.beyond : first) +
              (register === undefined
                ? `, reading on the shaft of ${second}`
                : `, reading round ${register.id}, before ${second} goes on`),
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
              `(${formatDegrees(tilt.worst, 3)}°)` +
              (tilt.limit === null ? '' : `; the coupling takes ${l(tilt.limit * across)}`),
          ],
        ]),
    ...(stack?.limits ?? []).map((c) => [
      `${c.name}, by feeler, depth gauge or clay`,
      'about ' +
        l(c.nominal) +
        (c.least === null ? '' : `, at least ${l(c.least)}`) +
        (c.most === null ? '' : `, at most ${l(c.most)}`),
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
