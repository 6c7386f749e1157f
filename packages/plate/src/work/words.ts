import { type Report, type Requirement, type Speech, minusSign, say, sayAll, sayNumber } from '@fayplate/core';
import type { WorkKind } from '@fayplate/job';
import { unknown } from '../checks/unknown.js';
import type { Plate, Step } from '../types.js';
import { places, short } from '../words/say.js';
import type { MetalLeft, PartOperation } from '../types.js';

const feature = (o: PartOperation): string => sayAll(o.places.map((p) => p.feature));

/** An operation in a clause: `P1 and P3 of pump cut back to 18.0 mm`. */
export const sayWork = (o: PartOperation, speech: Speech): string => {
  const to = o.to === 0 ? 'flush with the face' : `to ${short(o.to, speech)}`;
  switch (o.kind) {
    case 'shorten':
      return `cutting ${feature(o)} of ${o.face} back ${to}`;
    case 'fit':
      return `fitting longer studs at ${feature(o)} of ${o.face}, ${short(o.to, speech)} out of the face`;
    case 'open':
      return `opening ${feature(o)} of ${o.face} ${to}`;
    case 'deepen':
      return `tapping ${feature(o)} of ${o.face} ${short(o.to, speech)} deep`;
    case 'relieve':
      return `taking ${feature(o)} of ${o.face} down ${to}`;
    case 'shorten shaft':
      return `cutting the shaft of ${o.face} back ${to} out of the face`;
  }
};

/** How the part is held and the size measured; common practice throughout. */
const settings: Readonly<Record<WorkKind, string>> = {
  shorten:
    'Run a nut down first. Saw, then file square to a line; bevel the end, and run the nut off to clean the ' +
    'thread. Measure from the face with a depth gauge.',
  fit:
    'Two nuts locked together draw the old stud. Clean the thread, measure its depth; the new stud bottoms on its ' +
    'run-out, not on the floor.',
  open:
    'Clamp the part flat on its face, spindle square to it. Pick the old hole up with a cone or an indicator, so ' +
    'that its centre stays; drill in steps, the last 0.5 mm or less.',
  deepen:
    'Drill on in the old hole to its depth and the tap’s lead, with a stop; bottoming tap after the second tap. ' +
    'Blow the chips out.',
  relieve:
    'Clamp the part with the face level by indicator; mill or file to a line from the face. Measure with a depth ' +
    'gauge at three places.',
  'shorten shaft':
    'Shaft out where it comes out; between centres or in a steady. Part off, face, bevel the end. Measure its ' +
    'reach from the face that the plate lies on.',
};

const cautions: Readonly<Record<WorkKind, string>> = {
  shorten: 'Keep filings out of the part: grease and a rag round the studs.',
  fit: 'A stud that shears in the casting is drilled out: warm it and use penetrating oil first.',
  open: 'A drill grabs in an old hole: clamp the part, feed slowly, no gloves.',
  deepen: 'Stop before the floor: behind it may be a water or oil space.',
  relieve: 'Look first for a passage or a thin wall behind it.',
  'shorten shaft':
    'See that no key seat, thread or centre that is needed lies in ' +
    'what comes off; mind the bearing when it is sawn in place.',
};

/** `12.00 mm of stud past the seat of its nut, 11.90 mm is asked`. */
const leftWords = ({ of, value, limit }: MetalLeft, speech: Speech): string => {
  const n = (mm: number): string => say(mm, { ...speech, fraction: null }, places(speech));
  return `${n(value)}, ${of}${limit === null || limit === 0 ? '' : `; ${n(limit)} is asked`}`;
};

/**
 * The work on the parts for a sheet: what, where, size, metal left, state; then how each kind is set up, and its
 * caution.
 */
export const workReport = (operations: readonly PartOperation[], speech: Speech): Report => {
  if (operations.length === 0) return [];
  const n = (mm: number): string => sayNumber(mm, { ...speech, fraction: null }, places(speech));
  const kinds = [...new Set(operations.filter((o) => !o.done).map((o) => o.kind))];
  const where = (o: PartOperation): string =>
    o.places.length === 0
      ? 'its end'
      : o.places
          .map((p) => `${p.feature} (${minusSign(n(p.x))}, ${minusSign(n(p.y))})${p.hole === null ? '' : ` ${p.hole}`}`)
          .join(', ');
  const size = (o: PartOperation): string => {
    const from = [...new Set(o.places.map((p) => p.from).filter((f) => f !== null))];
    const to = o.to === 0 ? 'flush' : `${n(o.to)} ${speech.unit}`;
    return from.length === 0 ? to : `${from.map(n).join(', ')} → ${to}`;
  };
  return [
    { kind: 'heading', level: 2, text: 'Work on the parts' },
    {
      kind: 'table',
      caption: `Places in ${speech.unit} on each part as it is viewed, from its centre`,
      columns: [
        { title: 'Part', align: 'left' },
        { title: 'What', align: 'left' },
        { title: 'Where', align: 'left' },
        { title: 'Size', align: 'left' },
        { title: 'Metal left', align: 'left' },
        { title: 'Done', align: 'left' },
      ],
      rows: operations.map((o) => [
        o.face,
        `${title[o.kind]}${o.why === null ? '' : `: ${o.why}`}`,
        where(o),
        size(o),
        o.left === null ? '' : leftWords(o.left, speech),
        o.done ? 'done' : 'to do',
      ]),
    },
    ...(kinds.length === 0 ? [] : [{ kind: 'list' as const, items: kinds.map((k) => `${title[k]}: ${settings[k]}`) }]),
    ...(kinds.length === 0
      ? []
      : [
          {
            kind: 'caution' as const,
            text: `${kinds.map((k) => cautions[k]).join(' ')} Eye protection on; clamp the part, never hold it by hand.`,
          },
        ]),
  ];
};

const title: Readonly<Record<WorkKind, string>> = {
  shorten: 'Shorten',
  fit: 'Fit longer studs',
  open: 'Open out',
  deepen: 'Tap deeper',
  relieve: 'Relieve',
  'shorten shaft': 'Shorten the shaft',
};

/** Names that YAML reads as they stand. */
const plainName = /^[A-Za-z][\w ]*$/;
const written = (name: string): string => (plainName.test(name) ? name : JSON.stringify(name));

/** The cures that are work on a part, as the job file has them, ready to be copied; empty where there are none. */
export const workToWrite = (plate: Plate, speech: Speech): Report => {
  // It is for who has the file before him.
  if (speech.atBench === true) return [];
  const lines = plate.checks
    .flatMap((c) => c.cures.flatMap((cure): readonly Step[] => (cure.kind === 'together' ? cure.steps : [cure])))
    .flatMap((step) => {
      // What asks for a change of the plate as well is not done by the work alone.
      if (step.kind !== 'treatment' || step.work === undefined || step.edits !== undefined) return [];
      const { kind, features, to } = step.work;
      const size = say(to, { ...speech, fraction: null }, places(speech));
      return [
        `${kind} ${step.face}: { face: ${written(step.face)}, ` +
          `${kind}: [${features.map(written).join(', ')}], to: ${size} }`,
      ];
    });
  return lines.length === 0
    ? []
    : [
        {
          kind: 'paragraph',
          text: 'Work on a part that would help goes under `work:` in the job, and stands on the machine sheet then:',
        },
        { kind: 'list', items: [...new Set(lines)] },
      ];
};

/** What the work asks of the verdict: metal left where a limit is known, and what is still to do. */
export const workRequirements = (operations: readonly PartOperation[], speech: Speech): readonly Requirement[] =>
  operations.flatMap((o) => {
    const { left } = o;
    const holds = left === null || left.limit === null || left.value >= left.limit - 1e-9;
    return [
      ...(left === null || left.limit === null
        ? []
        : [
            {
              id: 'work-metal',
              title: 'metal left by work on a part',
              state: holds ? ('holds' as const) : ('fails' as const),
              value: left.value,
              limit: left.limit,
              margin: left.value - left.limit,
              unit: 'mm' as const,
              source: left.source,
              because:
                `${sayWork(o, speech)}: that leaves ${short(left.value, speech)} of ` +
                (o.kind === 'shorten' ? left.of : `metal at ${left.of}`) +
                (holds ? '' : `, where ${short(left.limit, speech)} is wanted`),
              cure: holds
                ? null
                : o.kind === 'shorten'
                  ? 'cut less off, or fit longer studs'
                  : 'open it less, or leave it and take a smaller fastener',
            },
          ]),
      ...(o.done
        ? []
        : [
            unknown(
              'work-to-do',
              `${sayWork(o, speech)} is still to be done: write \`done: true\` when it is.`,
              'it stands on its sheet',
            ),
          ]),
    ];
  });
