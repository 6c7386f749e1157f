import { type Block, DEGREE, type Speech, formatDegrees, say, sayNumber } from '@fayplate/core';
import type { DialSetting, Handwheel } from '../types.js';
import type { Dividing, Indexing } from '../byhand/dividing.js';
import type { Rotary } from '../byhand/rotary.js';
import type { Route } from '../byhand/routes.js';
import type { MachinistTable } from '../types.js';

/**
 * Without a read-out, in words; nothing where the job states neither screw nor dividing head and the parts allow no
 * route.
 */
export const byHandBlocks = (t: MachinistTable, own: Speech): readonly Block[] => {
  const { handwheel, dividing, rotary, routes } = t.byHand;
  const blocks = [
    ...(handwheel === null ? [] : handwheelBlocks(handwheel, own)),
    ...(dividing === null ? [] : dividingBlocks(dividing, own)),
    ...(rotary === undefined ? [] : rotaryBlocks(rotary, own)),
    ...routeBlocks(routes, own),
  ];
  return blocks.length === 0 ? [] : [{ kind: 'heading', level: 2, text: 'Without a read-out' }, ...blocks];
};

const fine = (own: Speech): number => (own.unit === 'in' ? 4 : 3);

const handwheelBlocks = (h: Handwheel, own: Speech): readonly Block[] => [
  {
    kind: 'paragraph',
    text:
      `Handwheels of ${say(h.pitch, own)} a turn and ${say(h.division, own)} a division, both dials at zero over the ` +
      `origin; dials count up towards +X and +Y. Whole divisions leave at most ${say(h.worst, own, fine(own) + 1)}; ` +
      'with backlash always taken up one way expect ± ' +
      `${say(own.unit === 'in' ? 0.127 : 0.1, own, own.unit === 'in' ? 3 : 1)} (common practice).`,
  },
  {
    kind: 'table',
    caption: 'Turns and divisions from zero, and what the dial shows there',
    columns: [
      { title: 'Side', align: 'left' },
      { title: 'Hole', align: 'left' },
      { title: 'X', align: 'right' },
      { title: 'Y', align: 'right' },
    ],
    rows: h.rows.map((r) => [r.side, r.hole, dialWords(r.x), dialWords(r.y)]),
  },
];

/**
 * How far to turn from zero, and what a dial that counts up then shows: `18 turns, dial 77`, `back 18 turns and 77,
 * dial 23`.
 */
export const dialWords = (d: DialSetting): string => {
  const turns = Math.abs(d.turns);
  const divisions = Math.abs(d.divisions);
  if (turns === 0 && divisions === 0) return 'zero';
  const whole = turns === 0 ? '' : `${turns} ${turns === 1 ? 'turn' : 'turns'}`;
  const back = d.turns < 0 || d.divisions < 0;
  if (!back) return `${whole === '' ? '' : `${whole}, `}dial ${d.dial}`;
  const part = divisions === 0 ? '' : String(divisions);
  return `back ${[whole, part].filter((w) => w !== '').join(' and ')}, dial ${d.dial}`;
};

const dividingBlocks = (d: Dividing, own: Speech): readonly Block[] => [
  {
    kind: 'paragraph',
    text:
      `Dividing head of ${d.ratio} to 1, set true to ${d.about}, in the ${d.circle} circle: every hole is counted ` +
      'from the first, so errors do not add up. ' +
      (d.worst < 1e-6
        ? 'Every index is exact.'
        : `The nearest hole of the circle leaves at most ${say(d.worst, own, fine(own))} on the work.`),
  },
  {
    kind: 'table',
    caption: 'Crank from the first hole, anticlockwise on the work as seen from side B',
    columns: [
      { title: 'Hole', align: 'left' },
      { title: `Radius, ${own.unit}`, align: 'point' },
      { title: 'Angle, °', align: 'point' },
      { title: 'Crank', align: 'left' },
      { title: `Off by, ${own.unit}`, align: 'point' },
    ],
    rows: d.holes.map((h) => [
      h.hole,
      sayNumber(h.radius, own),
      formatDegrees(h.angle, 3),
      crankWords(h.index),
      sayNumber(h.error, own),
    ]),
  },
];

/** `120° 30′`: whole minutes, and tenths of one where the table has them. */
const minutesWords = (angle: number): string => {
  const tenths = Math.round((angle / DEGREE) * 600);
  const minutes = (tenths % 600) / 10;
  return (
    `${Math.floor(tenths / 600)}° ` +
    `${Number.isInteger(minutes) ? String(minutes).padStart(2, '0') : minutes.toFixed(1).padStart(4, '0')}′`
  );
};

const rotaryBlocks = (r: Rotary, own: Speech): readonly Block[] => [
  {
    kind: 'paragraph',
    text:
      `Rotary table of ${minutesWords(r.step)} a division, set true to ${r.about}: every hole is turned from the ` +
      'first, so errors do not add up. ' +
      (r.worst < 1e-6
        ? 'Every setting is exact.'
        : `The nearest division leaves at most ${say(r.worst, own, fine(own))} on the work.`),
  },
  {
    kind: 'table',
    caption: 'Rotary table from the first hole, anticlockwise on the work as seen from side B',
    columns: [
      { title: 'Hole', align: 'left' },
      { title: `Radius, ${own.unit}`, align: 'point' },
      { title: 'Angle, °', align: 'point' },
      { title: 'Set', align: 'right' },
      { title: `Off by, ${own.unit}`, align: 'point' },
    ],
    rows: r.holes.map((h) => [
      h.hole,
      sayNumber(h.radius, own),
      formatDegrees(h.angle, 3),
      minutesWords(h.set),
      sayNumber(h.error, own),
    ]),
  },
];

const crankWords = (i: Indexing): string =>
  i.circle === null ? `${i.turns} turns` : `${i.turns} turns ${i.holes} in ${i.circle}`;

const routeBlocks = (routes: readonly Route[], own: Speech): readonly Block[] =>
  routes.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption: 'Other ways of placing the holes, and the ± of each (common practice)',
          columns: [
            { title: 'Way', align: 'left' },
            { title: `±, ${own.unit}`, align: 'point' },
            { title: 'Holes', align: 'left' },
            { title: 'How', align: 'left' },
            { title: 'Too coarse for', align: 'left' },
          ],
          rows: routes.map((r) => [
            r.name,
            sayNumber(r.plusMinus, own, own.unit === 'in' ? 3 : 2),
            r.holes.join(' '),
            r.says,
            r.tooCoarseFor.join(' '),
          ]),
        },
      ];
