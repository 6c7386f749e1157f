import {
  type Block,
  type Report,
  type Requirement,
  type Speech,
  notKnown,
  say,
  sayAll,
  sayMeasure,
  sayNumber,
} from '@fayplate/core';
import type { InSpace, MovedSpan, Moves } from '../types.js';
import { moveOf } from './moves.js';

const decimals = (speech: Speech): number => (speech.unit === 'in' ? 3 : 2);

const table = ({ places }: Moves, speech: Speech): Block => {
  const mm = (v: number): string => sayNumber(v, speech, decimals(speech));
  const one = (name: string, was: number | null, is: number, within: number): readonly string[] => [
    name,
    was === null ? '' : mm(was),
    mm(is),
    was === null ? '' : mm(is - was),
    mm(within),
  ];
  return {
    kind: 'table',
    caption:
      `Where each comes to lie, ${speech.unit}: right and up as drawn from side B, out along the shaft from the ` +
      `first part's face`,
    columns: [
      { title: 'Place', align: 'left', runsOn: true },
      { title: '', align: 'left' },
      { title: 'Was', align: 'point' },
      { title: 'Is', align: 'point' },
      { title: 'Moves', align: 'point' },
      { title: '±', align: 'point' },
    ],
    rows: places.flatMap((p) => {
      const within = moveOf(p)?.within ?? p.is.within;
      const [right = [], ...rest] = (['x', 'y', 'z'] as const).map((axis) => {
        const name = axis === 'x' ? 'right' : axis === 'y' ? 'up' : 'out';
        return one(name, p.was?.[axis] ?? null, p.is[axis], p.stays ? p.is.within[axis] : within[axis]);
      });
      return [[`${p.face}.${p.place}`, ...right], ...rest.map((r) => ['', ...r])];
    }),
  };
};

/** Directions of a move in words: what is less than its ± is left out. */
const wayWords = (m: InSpace, speech: Speech): string => {
  const ways = [
    ['x', 'to the right', 'to the left'],
    ['y', 'up', 'down'],
    ['z', 'farther out', 'nearer'],
  ] as const;
  const said = ways.flatMap(([axis, more, less]) =>
    Math.abs(m[axis]) <= Math.max(m.within[axis], 0.005)
      ? []
      : [`${sayMeasure(Math.abs(m[axis]), m.within[axis], speech, decimals(speech))} ${m[axis] > 0 ? more : less}`],
  );
  return said.length === 0 ? 'stays where it was, to within its ±' : `comes ${sayAll(said)}`;
};

const placeWords = ({ places }: Moves, speech: Speech): readonly string[] =>
  places.flatMap((p) => {
    const move = moveOf(p);
    return p.stays
      ? []
      : [
          move === null
            ? `${p.face}.${p.place}: where it was is not said (\`old:\`), so nothing says how far it moves.`
            : `${p.face}.${p.place} ${wayWords(move, speech)}.`,
        ];
  });

const limitWords = ({ least, most }: MovedSpan, speech: Speech): string => {
  const mm = (v: number): string => say(v, speech, decimals(speech));
  if (least !== null && most !== null) return `${mm(least)} to ${mm(most)} will do`;
  return least !== null ? `at least ${mm(least)} is needed` : most !== null ? `at most ${mm(most)} is allowed` : '';
};

/** How far outside its limits a length lies at the worst of its ±, mm; below zero it lies inside. */
const over = ({ is, least, most }: MovedSpan, within: number): number =>
  Math.max(
    least === null ? -Infinity : least - (is.value - within),
    most === null ? -Infinity : is.value + within - most,
  );

const spanWords = (s: MovedSpan, speech: Speech): string => {
  const comes = `comes to ${sayMeasure(s.is.value, s.is.plusMinus, speech, decimals(speech))}`;
  const limit = limitWords(s, speech);
  const change =
    s.was === null || Math.abs(s.is.value - s.was.value) < 0.005
      ? ''
      : `, from ${say(s.was.value, speech, decimals(speech))}: ${s.is.value < s.was.value ? 'shorten' : 'lengthen'} ` +
        `it by ${say(Math.abs(s.is.value - s.was.value), speech, decimals(speech))}`;
  return `${s.name} ${comes}${change}${limit === '' ? '' : `; ${limit}`}.`;
};

/**
 * What else moves: a table of places, and in words what to move, shorten or lengthen. Nothing where the job names no
 * places.
 */
export const movesReport = (m: Moves | null, speech: Speech): Report => {
  if (m === null) return [];
  const own: Speech = { ...speech, fraction: null };
  const items = [...m.spans.map((s) => spanWords(s, own)), ...placeWords(m, own)];
  return [
    { kind: 'heading', level: 2, text: 'What else moves' },
    table(m, own),
    ...(items.length === 0 ? [] : [{ kind: 'list' as const, items }]),
  ];
};

/** Lengths that have a limit, as requirements of the job: a limit holds where it holds at the worst of the ±. */
export const movesRequirements = (m: Moves | null, speech: Speech): readonly Requirement[] => {
  const own: Speech = { ...speech, fraction: null };
  const mm = (v: number): string => say(v, own, decimals(own));
  return (m?.spans ?? []).flatMap((s): readonly Requirement[] => {
    if (s.least === null && s.most === null) return [];
    const [drawn, worst] = [over(s, 0), over(s, s.is.plusMinus)];
    const asked = limitWords(s, own);
    if (drawn <= 0 && worst > 1e-9)
      return [
        notKnown(
          'moved-length',
          s.name,
          `${s.name} comes to ` +
            `${sayMeasure(s.is.value, s.is.plusMinus, own, decimals(own))}, and ${asked}: its ± reaches over`,
          `measure ${s.between.map((e) => `${e.face}.${e.place}`).join(' and ')} more closely`,
        ),
      ];
    const short = s.least !== null && s.is.value < s.least;
    const limit = short || s.most === null ? s.least : s.most;
    return [
      {
        id: 'moved-length-limit',
        title: s.name,
        state: drawn > 0 ? 'fails' : 'holds',
        value: s.is.value,
        limit,
        margin: -worst,
        unit: 'mm',
        source: 'stated in the job',
        because:
          drawn > 0
            ? `${s.name} comes to ${mm(s.is.value)}, and ${asked}: ${mm(drawn)} too ${short ? 'short' : 'long'}`
            : `${s.name} comes to ${mm(s.is.value)}, and ${asked}`,
        cure:
          drawn > 0
            ? `move ${s.between[1].face}.${s.between[1].place}, ${short ? 'fit a longer' : 'fit a shorter'} ` +
              `${s.name}, or change the plate`
            : null,
      },
    ];
  });
};

/** `moves` of the plate for programs, mm: places as drawn from side B, z from the first part's face. */
export const movesJson = (m: Moves): object => {
  const point = ({ x, y, z, within }: InSpace): object => ({ x, y, z, plus_minus: [within.x, within.y, within.z] });
  return {
    places: m.places.map((p) => {
      const move = moveOf(p);
      return {
        face: p.face,
        name: p.place,
        was: p.was === null ? null : point(p.was),
        is: point(p.is),
        moves: move === null ? null : point(move),
      };
    }),
    lengths: m.spans.map((s) => ({
      name: s.name,
      was: s.was?.value ?? null,
      is: s.is.value,
      plus_minus: s.is.plusMinus,
      least: s.least,
      most: s.most,
    })),
  };
};
