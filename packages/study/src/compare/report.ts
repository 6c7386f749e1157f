import { type Report, type Speech, formatClock, say, sayNumber } from '@fayplate/core';
import type { InputChanges } from './inputs.js';
import type { PlateChanges } from './moved.js';
import type { SheetState } from './sheets.js';
import type { StillGood } from './still-good.js';

/** Two states of a job, and what of the one no longer holds in the other. */
export interface Comparison {
  readonly marks: readonly [before: string, now: string];
  readonly inputs: InputChanges;
  /** Null where either state has no plate. */
  readonly plate: PlateChanges | null;
  readonly sheets: readonly SheetState[];
  /** Null where either state has no plate. */
  readonly drilled: StillGood | null;
}

const verdict = (c: Comparison, speech: Speech): string => {
  if (c.marks[0] === c.marks[1]) return 'Both mean the same: nothing has moved, and every sheet still holds.';
  if (c.plate === null) return 'The two differ, and one of them has no plate yet.';
  const [far] = c.plate.moved;
  const places = speech.unit === 'in' ? 4 : 3;
  const moved =
    far === undefined || far.by <= 0.005
      ? 'No hole has moved'
      : `${far.id} has moved farthest, by ${say(far.by, { ...speech, fraction: null }, places)}`;
  const stale = c.sheets.filter((s) => s.stale !== null).length;
  const sheets = stale === 0 ? 'every sheet still holds' : `${stale} of ${c.sheets.length} kinds of sheet are stale`;
  const drilled =
    c.drilled === null
      ? ''
      : c.drilled.good
        ? '; a plate that is drilled is still good'
        : '; a plate that is drilled is not good any more';
  return `${moved}; ${sheets}${drilled}.`;
};

/** The comparison in words: what was changed, what moved by how much, which sheets are stale, and whether a drilled plate is still good. */
export const compareReport = (c: Comparison, speech: Speech): Report => {
  const own = { ...speech, fraction: null };
  const n = (v: number): string => sayNumber(v, own);
  return [
    { kind: 'heading', level: 1, text: `${c.marks[0]} → ${c.marks[1]}` },
    { kind: 'verdict', ok: isHeld(c), text: verdict(c, speech) },
    ...(c.inputs.says.length === 0
      ? []
      : [
          { kind: 'heading' as const, level: 2 as const, text: 'What was changed' },
          { kind: 'list' as const, items: c.inputs.says },
          ...(c.inputs.more === 0 ? [] : [{ kind: 'paragraph' as const, text: `And ${c.inputs.more} more.` }]),
        ]),
    ...(c.plate === null ? [] : plateBlocks(c.plate, speech, n)),
    ...(c.sheets.length === 0
      ? []
      : [
          {
            kind: 'table' as const,
            caption: 'What is printed or written',
            columns: [
              { title: 'Sheet', align: 'left' as const },
              { title: '', align: 'left' as const },
              { title: 'Why', align: 'left' as const },
            ],
            rows: c.sheets.map((s) => [s.what, s.stale === null ? 'holds' : 'stale', s.stale ?? '']),
          },
        ]),
    ...(c.drilled === null ? [] : drilledBlocks(c.drilled)),
  ];
};

/** Nothing that is printed or drilled is void. */
export const isHeld = (c: Comparison): boolean =>
  c.sheets.every((s) => s.stale === null) && (c.drilled === null || c.drilled.good);

const plateBlocks = (p: PlateChanges, speech: Speech, n: (v: number) => string): Report => [
  ...(p.moved.length === 0
    ? []
    : [
        {
          kind: 'table' as const,
          caption: `What moved, ${speech.unit}, seen from side B`,
          columns: [
            { title: 'Cut', align: 'left' as const },
            { title: 'For', align: 'left' as const },
            { title: 'X by', align: 'point' as const },
            { title: 'Y by', align: 'point' as const },
            { title: 'In all', align: 'point' as const },
            { title: 'Towards', align: 'left' as const },
            { title: 'Diameter', align: 'left' as const },
          ],
          rows: p.moved.map((m) => [
            m.id,
            m.feature ?? '',
            n(m.dx),
            n(m.dy),
            n(m.by),
            m.by > 0.005 ? formatClock(Math.atan2(m.dy, m.dx)) : '',
            Math.abs(m.diameter[1] - m.diameter[0]) > 0.005
              ? `${n(m.diameter[0])} → ${n(m.diameter[1])}`
              : m.made
                ? 'made otherwise'
                : '',
          ]),
        },
      ]),
  ...list([
    ...(p.come.length === 0 ? [] : [`New: ${p.come.join(', ')}.`]),
    ...(p.gone.length === 0 ? [] : [`Gone: ${p.gone.join(', ')}.`]),
    ...(p.renumbered.length === 0 ? [] : [`Numbers: ${p.renumbered.join(', ')}.`]),
    ...(p.thickness === null
      ? []
      : [`The plate was ${n(p.thickness[0])} thick and is ${n(p.thickness[1])} ${speech.unit}.`]),
    ...(p.outline ? ['The outline is another.'] : []),
  ]),
];

const list = (items: readonly string[]): Report => (items.length === 0 ? [] : [{ kind: 'list', items }]);

const drilledBlocks = (d: StillGood): Report => [
  {
    kind: 'paragraph',
    text: `${d.by === 'as measured' ? 'The plate as its readings have it' : 'A plate drilled to the earlier sheets'} ${d.good ? 'is still good' : 'is not good'}: ${[
      ...d.goesOn,
    ]
      .map(([face, g]) => `it goes on ${face} ${(100 * g.probability).toFixed(1)} times in 100`)
      .join(', ')}.`,
  },
  ...list(d.fails.map((f) => `Against it: ${f}.`)),
];

/** The same for programs: mm. */
export const compareJson = (c: Comparison): object => ({
  before: c.marks[0],
  now: c.marks[1],
  same: c.marks[0] === c.marks[1],
  changed: c.inputs.says,
  more: c.inputs.more,
  plate:
    c.plate === null
      ? null
      : {
          moved: c.plate.moved.map((m) => ({ ...m, diameter: m.diameter })),
          come: c.plate.come,
          gone: c.plate.gone,
          renumbered: c.plate.renumbered,
          thickness: c.plate.thickness,
          outline: c.plate.outline,
        },
  sheets: c.sheets,
  drilled:
    c.drilled === null
      ? null
      : {
          good: c.drilled.good,
          by: c.drilled.by,
          goes_on: Object.fromEntries(c.drilled.goesOn),
          fails: c.drilled.fails,
        },
});
