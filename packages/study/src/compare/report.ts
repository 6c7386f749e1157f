import { type Report, type Speech, formatClock, say, sayAll, sayNumber, sayTimes } from '@fayplate/core';
import type { InputChanges } from './inputs.js';
import { type PlateChanges, SEEN } from './moved.js';
import type { SheetState } from './sheets.js';
import type { StillGood } from './still-good.js';

/** One plate, or one piece of a plate of two, in both states. */
interface PlateComparison {
  /** Null: the plate is of one piece. */
  readonly piece: string | null;
  readonly changes: PlateChanges;
  readonly sheets: readonly SheetState[];
  readonly drilled: StillGood;
}

/** Two states of a job, and what of the one no longer holds in the other. */
export interface Comparison {
  readonly marks: readonly [before: string, now: string];
  readonly inputs: InputChanges;
  /**
   * The plate, or each of its pieces; empty where either state has no plate, or `split` says why they cannot be set
   * beside each other.
   */
  readonly plates: readonly PlateComparison[];
  /** Of how many pieces the plate was and is, where the one is not the other. */
  readonly split: readonly [before: number, now: number] | null;
  /** Sheets of the parts, which ask for no plate. */
  readonly sheets: readonly SheetState[];
}

const allSheets = (c: Comparison): readonly SheetState[] => [...c.plates.flatMap((p) => p.sheets), ...c.sheets];

const verdict = (c: Comparison, speech: Speech): string => {
  if (c.marks[0] === c.marks[1]) return 'Both mean the same: nothing has moved, and every sheet still holds.';
  if (c.split !== null)
    return (
      `The plate was of ${c.split[0]} ${c.split[0] === 1 ? 'piece' : 'pieces'} and is of ${c.split[1]}: none of its ` +
      'sheets holds, and a plate that is drilled is not good any more.'
    );
  if (c.plates.length === 0) return 'The two differ, and one of them has no plate yet.';
  const [far] = c.plates
    .flatMap(({ piece, changes: { moved } }) => moved.slice(0, 1).map((m) => ({ piece, ...m })))
    .toSorted((a, b) => b.by - a.by);
  const places = speech.unit === 'in' ? 4 : 3;
  const of = far?.piece == null ? '' : ` of ${far.piece}`;
  const moved =
    far === undefined || far.by <= SEEN
      ? 'No hole has moved'
      : `${far.id}${of} has moved farthest, by ${say(far.by, { ...speech, fraction: null }, places)}`;
  const all = allSheets(c);
  const stale = all.filter((s) => s.stale !== null).length;
  const sheets = stale === 0 ? 'every sheet still holds' : `${stale} of ${all.length} kinds of sheet are stale`;
  const bad = c.plates.filter((p) => !p.drilled.good).flatMap((p) => p.piece ?? []);
  const what = c.plates.length === 1 ? 'a plate that is drilled' : sayAll(bad.length === 0 ? ['both pieces'] : bad);
  const drilled = c.plates.every((p) => p.drilled.good)
    ? c.plates.length === 1
      ? 'a plate that is drilled is still good'
      : 'pieces that are drilled are still good'
    : `${what}${c.plates.length === 1 ? '' : ', where drilled,'} ${bad.length > 1 ? 'are' : 'is'} not good any more`;
  return `${moved}; ${sheets}; ${drilled}.`;
};

const sheetTable = (sheets: readonly SheetState[], caption: string): Report =>
  sheets.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption,
          columns: [
            { title: 'Sheet', align: 'left' },
            { title: '', align: 'left' },
            { title: 'Why', align: 'left' },
          ],
          rows: sheets.map((s) => [s.what, s.stale === null ? 'holds' : 'stale', s.stale ?? '']),
        },
      ];

/**
 * The comparison in words: what was changed, what moved by how much, which sheets are stale, and whether a drilled
 * plate is still good.
 */
export const compareReport = (c: Comparison, speech: Speech): Report => {
  const own = { ...speech, fraction: null };
  const n = (v: number): string => sayNumber(v, own);
  const [only] = c.plates;
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
    ...(c.plates.length === 1 && only !== undefined
      ? [
          ...plateBlocks(only.changes, speech, n),
          ...sheetTable([...only.sheets, ...c.sheets], 'What is printed or written'),
          ...drilledBlocks(only),
        ]
      : [
          ...c.plates.flatMap((p): Report => [
            { kind: 'heading', level: 2, text: `Piece: ${p.piece ?? ''}` },
            ...plateBlocks(p.changes, speech, n),
            ...sheetTable(p.sheets, `What is printed or written of ${p.piece ?? ''}`),
            ...drilledBlocks(p),
          ]),
          ...sheetTable(c.sheets, c.plates.length === 0 ? 'What is printed' : 'Sheets of the parts'),
        ]),
  ];
};

/** Nothing that is printed or drilled is void. */
export const isHeld = (c: Comparison): boolean =>
  c.split === null && allSheets(c).every((s) => s.stale === null) && c.plates.every((p) => p.drilled.good);

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

const drilledBlocks = ({ piece, drilled: d }: PlateComparison): Report => [
  {
    kind: 'paragraph',
    text: `${d.by === 'as measured' ? `The ${piece ?? 'plate'} as its readings have it` : `A ${piece ?? 'plate'} drilled to the earlier sheets`} ${d.good ? 'is still good' : 'is not good'}: ${[
      ...d.goesOn,
    ]
      .map(([face, g]) => `it goes on ${face} ${sayTimes(g.probability)}`)
      .join(', ')}.`,
  },
  ...list(d.fails.map((f) => `Against it: ${f}.`)),
];

const plateJson = ({ changes, sheets, drilled }: PlateComparison) => ({
  plate: {
    moved: changes.moved,
    come: changes.come,
    gone: changes.gone,
    renumbered: changes.renumbered,
    thickness: changes.thickness,
    outline: changes.outline,
  },
  sheets,
  drilled: {
    good: drilled.good,
    by: drilled.by,
    goes_on: Object.fromEntries(drilled.goesOn),
    fails: drilled.fails,
  },
});

/** The same for programs: mm. */
export const compareJson = (c: Comparison): object => {
  const [only] = c.plates;
  const one = c.plates.length === 1 && only !== undefined ? plateJson(only) : null;
  return {
    before: c.marks[0],
    now: c.marks[1],
    same: c.marks[0] === c.marks[1],
    changed: c.inputs.says,
    more: c.inputs.more,
    plate: one?.plate ?? null,
    sheets: [...(one?.sheets ?? []), ...c.sheets],
    drilled: one?.drilled ?? null,
    ...(c.plates.length < 2 ? {} : { pieces: Object.fromEntries(c.plates.map((p) => [p.piece ?? '', plateJson(p)])) }),
  };
};
