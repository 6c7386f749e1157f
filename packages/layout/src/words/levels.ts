import { type Speech, sayAll, sayOdds } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import { sayAbout } from '../prior/length.js';
import type { Candidate, FaceLayout, LaidArray, LaidCircle, LevelName } from '../types.js';
import { sayFasteners, sayLine, sayTurned, sayWhere } from './candidate.js';

type KindOf = (id: string) => FeatureKind;

/** One part of a drawing without its size; `where`: said after it. */
const divided = (c: LaidCircle, kindOf: KindOf, where: string): string => {
  const who = sayFasteners(c.features.map(kindOf));
  if (c.divisions === null) return `${who} on one circle${where}`;
  return c.divisions === c.features.length
    ? `${who} equally divided${where}`
    : `${who} of ${c.divisions} equal divisions${where}`;
};

const patterned = (a: LaidArray, kindOf: KindOf, where: string): string => {
  const who = sayFasteners(a.features.map(kindOf));
  if (a.rows === 1) return `${who} equally spaced in a row${where}`;
  return a.columns === 2 && a.rows === 2
    ? `${who} at the corners of a rectangle${where}`
    : `${who} in ${a.columns} columns and ${a.rows} rows${where}`;
};

/** What a drawing says without its sizes, with or without what each part is about. */
const arrangement = (c: Candidate, kindOf: KindOf, centres: boolean): string => {
  const about = (of: string | null): string => (centres ? ` ${sayWhere(of)}` : '');
  return [
    ...c.circles.map((k) => divided(k, kindOf, about(k.about))),
    ...c.arrays.map((a) => patterned(a, kindOf, about(a.about))),
    ...(c.grid === null ? [] : [`${sayFasteners(c.grid.features.map(kindOf))} at whole multiples of ${c.grid.says}`]),
    ...(c.mirror?.said === true ? [`${sayFasteners(c.mirror.features.map(kindOf))} as mirror images`] : []),
    ...(c.opposite === null ? [] : [`${sayFasteners(c.opposite.map(kindOf))} in opposite pairs`]),
    ...(c.asMeasured.length === 0 ? [] : [`${sayAll(c.asMeasured)} as measured`]),
  ].join('; ');
};

const centresOf = (c: Candidate): string =>
  [
    ...new Set([
      ...[...c.circles, ...c.arrays].map((k) => sayWhere(k.about)),
      ...(c.grid === null ? [] : [`from ${c.grid.from}`]),
    ]),
  ].join('; ');

const symmetry = (c: Candidate): string =>
  [
    ...(c.mirror === null ? [] : [`symmetrical about the line from ${sayLine(c.mirror.axis)}`]),
    ...[...c.circles, ...c.arrays].flatMap((k) => (k.turned === null ? [] : [sayTurned(k.turned, 'divisions' in k)])),
    ...c.arrays.flatMap((a) => (isSquare(a) ? ['as far apart one way as the other'] : [])),
  ].join('; ');

const isSquare = ({ pitch }: LaidArray): boolean => pitch[1] !== null && Math.abs((pitch[0] ?? 0) - pitch[1]) < 1e-9;

/** Each size of a candidate: as its maker wrote it, or null with its value. */
const sizesOf = (c: Candidate): readonly { readonly size: string | null; readonly mm: number }[] => [
  ...c.circles.map((k) => ({ size: k.size, mm: k.diameter })),
  ...c.arrays.flatMap((a) =>
    a.pitch.flatMap((mm, k) => (mm === null || (k === 1 && isSquare(a)) ? [] : [{ size: a.size[k as 0 | 1], mm }])),
  ),
];

const sizes = (c: Candidate, speech: Speech): string =>
  sizesOf(c)
    .map(({ size, mm }) => size ?? `${sayAbout(mm, speech)}, no round size`)
    .join(' and ');

const systems = { in: 'inches', mm: 'millimetres', mixed: 'some in inches, some in millimetres', none: '' } as const;

/** What one level says of a candidate; `units`: the odds of the unit that its sizes are round in. */
export const sayLevel = (
  level: LevelName,
  c: Candidate,
  { units }: Pick<FaceLayout, 'units'>,
  kindOf: KindOf,
  speech: Speech,
): string => {
  switch (level) {
    case 'divisions':
      return arrangement(c, kindOf, false);
    case 'centre':
      return centresOf(c);
    case 'symmetry':
      return symmetry(c);
    case 'size':
      return sizes(c, speech);
    default: {
      const [likeliest] = (['in', 'mm', 'mixed', 'none'] as const).toSorted((a, b) => units[b] - units[a]);
      return systems[likeliest ?? 'none'];
    }
  }
};

/** What is sure of the sizes, what those that are not measure, and what they are likely to be. */
const saySizes = (taken: Candidate, speech: Speech): string => {
  const [likely] = taken.finer;
  const mine = sizesOf(taken);
  const open = mine.flatMap((m, k) => (m.size === null ? [k] : []));
  if (likely === undefined || open.length === 0) return '';
  const told = (c: Candidate): string => {
    const all = sizesOf(c);
    return sayAll(open.map((k) => all[k]?.size ?? 'no round size'));
  };
  const odds = taken.finer.reduce((s, c) => s + (told(c) === told(likely) ? c.odds : 0), 0);
  const held = mine.flatMap((m) => m.size ?? []);
  const measured = sayAll(open.map((k) => sayAbout(mine[k]?.mm ?? 0, speech)));
  const alone = mine.length === 1 && taken.circles.length === 1;
  return [
    held.length === 0 ? '' : `Of its sizes ${sayAll(held)} ${held.length === 1 ? 'is' : 'are'} sure.`,
    `${alone ? 'The circle measures' : 'It measures'} ${measured}; ${told(likely)} is likely (${sayOdds(odds)}).`,
  ]
    .filter((t) => t !== '')
    .join(' ');
};

/** The verdict on a layout of which only the coarser levels are sure: what is taken, and what is likely beyond it. */
export const sayTaken = (taken: Candidate, layout: FaceLayout, kindOf: KindOf, speech: Speech): string => {
  const sure = `${arrangement(taken, kindOf, taken.level !== 'divisions')} (sure: ${sayOdds(taken.odds)}).`;
  const next = layout.levels.find((l) => !l.taken && l.says !== '' && (l.level === 'centre' || l.level === 'symmetry'));
  const beyond = next === undefined ? '' : ` Not sure: ${next.says} (${sayOdds(next.odds)}).`;
  return `${sure}${beyond} ${saySizes(taken, speech)}`.trim();
};
