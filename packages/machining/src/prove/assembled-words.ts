import {
  type Block,
  type Report,
  type Requirement,
  type Speech,
  formatClock,
  formatDegrees,
  heading,
  norm,
  notKnown,
  say,
  sayMeasure,
  toDegrees,
} from '@fayplate/core';
import type { Plate } from '@fayplate/plate';
import type { Assembled } from '../types.js';
import { canShift } from './assembled.js';

const places = (speech: Speech): number => (speech.unit === 'in' ? 4 : 3);
const clock = (angle: number): string => `${formatClock(angle)} o’clock`;
const degrees = (radians: number): string => `${formatDegrees(radians, 3)}°`;

/** Which way to shift the part, and whether its bolts let it. */
const shiftWords = (a: Assembled, plate: Plate, speech: Speech): readonly string[] => {
  const { offset, play, part } = a;
  if (offset === null) return [];
  if (offset.shift === null)
    return [
      `Which way to shift ${part} was not read: add where the dial is high, such as “high toward ` +
        `${plate.holes[0]?.id ?? '3 o’clock'}”.`,
    ];
  const bolts = plate.holes.filter((h) => h.part?.face === part).map((h) => h.id);
  const way = `${say(norm(offset.shift), speech, places(speech))} toward ${clock(heading(offset.shift))}`;
  const shift = `Slacken ${bolts.join(', ')} and shift ${part} ${way}, seen from side B.`;
  if (play === null) return [shift];
  const most = say(play.most, speech, places(speech));
  if (canShift(a) === true) return [`${shift} It can be shifted up to ${most} before it comes up against ${play.by}.`];
  return [
    play.locates
      ? `${part} would have to be shifted ${way}, but ${play.by} holds it to within ${most}: set it by indicator ` +
        `without that register or those dowels, or make the plate again with ${play.by} moved by as much.`
      : `${part} would have to be shifted ${way}, but ${play.by} stops it after ${most}: open its bolt holes, or ` +
        'make the plate again with them moved by as much.',
  ];
};

/** What to lay under which bolt. */
const shimWords = ({ tilt, part }: Assembled, speech: Speech): readonly string[] => {
  if (tilt === null) return [];
  if (tilt.high === null)
    return [`Where to shim ${part} was not read: add where the dial on the face is high, such as “high toward H1”.`];
  const under = tilt.shims
    .filter((s) => s.thick >= 0.0005)
    .toSorted((p, q) => q.thick - p.thick)
    .map((s) => `${say(s.thick, speech, places(speech))} at ${s.hole}${s.feature === null ? '' : ` (${s.feature})`}`);
  return under.length === 0
    ? []
    : [
        `Shim ${part} toward ${clock(tilt.high)}: ` +
          `${under.join(', ')}${under.length < tilt.shims.length ? ', nothing at the others' : ''}.`,
      ];
};

const offsetWords = ({ offset }: Assembled, speech: Speech): readonly string[] =>
  offset === null
    ? []
    : [
        `The axes of ${offset.reading.swept} and ${offset.reading.about} lie ` +
          `${sayMeasure(offset.by, offset.plusMinus, speech, places(speech))} apart: half of the dial’s travel. At ` +
          `most ${say(offset.limit, speech, places(speech))} is allowed.`,
      ];

const tiltWords = ({ tilt }: Assembled): readonly string[] =>
  tilt === null
    ? []
    : [
        `They lean ${degrees(tilt.by)} ± ${degrees(tilt.plusMinus)} from each ` +
          'other' +
          (tilt.limit === null
            ? '; what the coupling takes is not said (`alignment: { tilt: … }`)'
            : `. At most ${degrees(tilt.limit)} is allowed`) +
          '.',
      ];

/**
 * What the dial says once the machine stands, and what to shift or shim, by how much, at which bolt. Nothing where
 * nothing was read.
 */
export const assembledReport = (a: Assembled | null, plate: Plate, speech: Speech): Report => {
  if (a === null) return [];
  const own: Speech = { ...speech, fraction: null };
  const todo = [
    ...(a.tilt === null || a.tilt.ok === true ? [] : shimWords(a, own)),
    ...(a.offset === null || a.offset.ok ? [] : shiftWords(a, plate, own)),
  ];
  const list: Block = { kind: 'list', items: [...offsetWords(a, own), ...tiltWords(a)] };
  return [
    { kind: 'heading', level: 2, text: 'After assembly' },
    list,
    ...(todo.length === 0
      ? []
      : [
          { kind: 'paragraph' as const, text: 'To put it right, with the machine locked out:' },
          { kind: 'list' as const, items: todo },
          {
            kind: 'paragraph' as const,
            text:
              'Sweep it again afterwards, and add the new readings below the old: the last of each counts. A shim ' +
              'moves the axis as well.',
          },
        ]),
  ];
};

/** The first step, as what a requirement asks for. */
const firstStep = ([words]: readonly string[]): string | null => {
  const first = words?.split(/\. |\.$/, 1)[0];
  return first === undefined ? null : first.charAt(0).toLowerCase() + first.slice(1);
};

/** What was measured after assembly, as requirements of the job. */
export const assembledRequirements = (a: Assembled | null, plate: Plate, speech: Speech): readonly Requirement[] => {
  if (a === null) return [];
  const own: Speech = { ...speech, fraction: null };
  const source = 'the run-out read after assembly';
  const { offset, tilt } = a;
  return [
    ...(offset === null
      ? []
      : [
          {
            id: 'assembled-offset',
            title: 'shafts in line as assembled',
            state: offset.ok ? ('holds' as const) : ('fails' as const),
            value: offset.by,
            limit: offset.limit,
            margin: offset.limit - offset.by,
            unit: 'mm' as const,
            source,
            because:
              `as assembled the shafts run ${say(offset.by, own, places(own))} out of line, where at most ` +
              `${say(offset.limit, own, places(own))} is allowed`,
            cure: offset.ok ? null : firstStep(shiftWords(a, plate, own)),
          },
        ]),
    ...(tilt === null || tilt.limit === null || tilt.ok === null
      ? []
      : [
          {
            id: 'assembled-tilt',
            title: 'shafts parallel as assembled',
            state: tilt.ok ? ('holds' as const) : ('fails' as const),
            value: toDegrees(tilt.by),
            limit: toDegrees(tilt.limit),
            margin: toDegrees(tilt.limit - tilt.by),
            unit: 'deg' as const,
            source,
            because:
              `as assembled the shafts lean ${degrees(tilt.by)} from each other, where at most ` +
              `${degrees(tilt.limit)} is allowed`,
            cure: tilt.ok ? null : firstStep(shimWords(a, own)),
          },
        ]),
    ...(tilt !== null && tilt.limit === null
      ? [
          notKnown(
            'parallel',
            'tilt that the coupling bears',
            `the shafts lean ${degrees(tilt.by)} from each other, and what the coupling takes is not said`,
            'write `alignment: { tilt: … }` in the plate section',
            'ask its maker, or state what it takes',
          ),
        ]
      : []),
  ];
};

/** `assembled` of `prove --json`: mm and degrees, plate frame; null where nothing was read. */
export const assembledJson = (a: Assembled | null): object | null =>
  a === null
    ? null
    : {
        moves: a.part,
        offset:
          a.offset === null
            ? null
            : {
                value: a.offset.by,
                plus_minus: a.offset.plusMinus,
                limit: a.offset.limit,
                ok: a.offset.ok,
                shift: a.offset.shift === null ? null : [a.offset.shift.x, a.offset.shift.y],
                can_shift: canShift(a),
              },
        tilt:
          a.tilt === null
            ? null
            : {
                value: toDegrees(a.tilt.by),
                plus_minus: toDegrees(a.tilt.plusMinus),
                limit: a.tilt.limit === null ? null : toDegrees(a.tilt.limit),
                ok: a.tilt.ok,
                toward: a.tilt.high === null ? null : toDegrees(a.tilt.high),
                shims: a.tilt.shims,
              },
      };
