import { type Speech, distance, formatClock, sayNumber, sayAll } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import { sayAbout } from '../prior/length.js';
import { MOST_DIVISIONS } from '../prior/places.js';
import type { Candidate, LaidArray, LaidCircle, LaidOffset, LaidPair, Turned } from '../types.js';

const plain: Readonly<Record<FeatureKind, readonly [string, string]>> = {
  hole: ['hole', 'holes'],
  stud: ['stud', 'studs'],
  dowel: ['dowel', 'dowels'],
  bore: ['bore', 'bores'],
  spigot: ['spigot', 'spigots'],
  edge: ['edge', 'edges'],
  boss: ['boss', 'bosses'],
};

/** `7 studs`, `1 dowel`; several sorts together: `6 studs and 2 dowels`. */
export const sayFasteners = (kinds: readonly FeatureKind[]): string => {
  const counts = new Map<FeatureKind, number>();
  for (const k of kinds) counts.set(k, (counts.get(k) ?? 0) + 1);
  const parts = [...counts].map(([k, n]) => `${n} ${plain[k][n === 1 ? 0 : 1]}`);
  return sayAll(parts);
};

type Parts = Pick<Candidate, 'circles' | 'arrays' | 'grid' | 'mirror' | 'opposite' | 'asMeasured' | 'moved'>;

export const sayTurned = (turned: Turned | null, divided: boolean): string => {
  if (turned === null) return '';
  if (turned === 'free') return ', turned freely';
  return turned === 'in line'
    ? ', in line with the first'
    : divided
      ? ", midway between the first's divisions"
      : ', midway to the first';
};

export const sayWhere = (about: string | null): string => (about === null ? 'about its own centre' : `about ${about}`);

const sayCircle = (c: LaidCircle, kindOf: (id: string) => FeatureKind, speech: Speech): string => {
  const who = sayFasteners(c.features.map(kindOf));
  const size = c.size === null ? `circle of ${sayAbout(c.diameter, speech)}` : `${c.size} circle`;
  const article = c.size !== null && /^(?:8|11\b|18\b)/.test(c.size) ? 'an' : 'a';
  const on = `on ${article} ${size} ${sayWhere(c.about)}${sayTurned(c.turned, true)}`;
  if (c.divisions === null)
    return `${who} ${on}, ${c.features.length > MOST_DIVISIONS ? 'divided as measured' : 'not equally divided'}`;
  if (c.divisions === c.features.length)
    return c.divisions === 2 ? `${who} opposite each other ${on}` : `${who} equally divided ${on}`;
  return `${who} of ${c.divisions} equal divisions ${on}`;
};

/** Where a pattern's middle lies from what it is set off from; null where neither distance is a round figure. */
const sayOffset = ({ from, by, size }: LaidOffset, rows: string, speech: Speech): string | null => {
  const [u, v] = [0, 1].map((k) => size[k as 0 | 1] ?? sayAbout(Math.abs(by[k as 0 | 1]), speech));
  const none = by.map((b, k) => size[k as 0 | 1] !== null && Math.abs(b) < 1e-9);
  if (size[0] === null && size[1] === null) return null;
  if (none[0] === true) return `its middle ${v ?? ''} from ${from}, square to ${rows}`;
  if (none[1] === true) return `its middle ${u ?? ''} from ${from}, along ${rows}`;
  return `its middle ${u ?? ''} along and ${v ?? ''} across ${rows} from ${from}`;
};

const sayArray = (
  a: LaidArray,
  moved: Candidate['moved'],
  kindOf: (id: string) => FeatureKind,
  speech: Speech,
): string => {
  const who = sayFasteners(a.features.map(kindOf));
  const size = (k: 0 | 1): string => a.size[k] ?? sayAbout(a.pitch[k] ?? 0, speech);
  const where = `${(a.offset === null ? null : sayOffset(a.offset, a.rows === 1 ? 'the row' : 'its rows', speech)) ?? sayWhere(a.about)}${sayTurned(a.turned, false)}`;
  const places = a.columns * a.rows;
  // The place of the one that has moved is not vacant.
  const vacant = places - a.features.length - (moved === null ? 0 : 1);
  const taken = vacant === 0 ? '' : ` with ${vacant} of ${places} places vacant`;
  if (a.rows === 1) return `${who} in a row, ${size(0)} apart${taken}, ${where}`;
  const square = a.size[0] === a.size[1] && Math.abs((a.pitch[0] ?? 0) - (a.pitch[1] ?? 0)) < 1e-9;
  if (a.columns === 2 && a.rows === 2)
    return (
      `${who} at the corners of a ` +
      (square ? `${size(0)} square` : `rectangle ${size(0)} × ${size(1)}`) +
      taken +
      (where.startsWith('about') ? '' : ',') +
      ` ${where}`
    );
  return (
    `${who} in ${a.columns} columns and ${a.rows} rows, ` +
    `${square ? `${size(0)} apart` : `${size(0)} and ${size(1)} apart`}${taken}, ${where}`
  );
};

/** `12 to 6 o'clock`: a line by the hours that it runs through. */
export const sayLine = (axis: number): string => `${formatClock(axis)} to ${formatClock(axis + Math.PI)} o'clock`;

const sayPair = ({ from, along, apart, size }: LaidPair, speech: Speech): string =>
  `, ${size.apart ?? sayAbout(apart, speech)} apart and ${size.along ?? sayAbout(along, speech)} along it from ${from}`;

const sayMirror = (parts: Parts, kindOf: (id: string) => FeatureKind, speech: Speech): readonly string[] => {
  const { mirror, circles } = parts;
  if (mirror === null || !mirror.said) return [];
  const onCircle = circles.some(
    (c) => c.features.length === mirror.features.length && c.features.every((id) => mirror.features.includes(id)),
  );
  return [
    `${onCircle ? 'these' : sayFasteners(mirror.features.map(kindOf))} symmetrical about the line from ` +
      `${sayLine(mirror.axis)}${mirror.pair === null ? '' : sayPair(mirror.pair, speech)}`,
  ];
};

/** The features that no group lays out: as measured, and the one among them that has moved off its place. */
const sayRest = (asMeasured: readonly string[], moved: Candidate['moved'], speech: Speech): readonly string[] => {
  const others = asMeasured.filter((id) => id !== moved?.feature);
  return [
    ...(moved === null ? [] : [`${moved.feature} moved or worn ${sayAbout(moved.by, speech)} off its place`]),
    ...(others.length === 0 ? [] : [`${sayAll(others)} as measured`]),
  ];
};

/** What a candidate says in one line; sizes that are no round figure in the unit of `speech`. */
export const sayLayout = (parts: Parts, kindOf: (id: string) => FeatureKind, speech: Speech): string => {
  const { grid, opposite, asMeasured, moved } = parts;
  const said = [
    ...parts.circles.map((c) => sayCircle(c, kindOf, speech)),
    ...parts.arrays.map((a) => sayArray(a, moved, kindOf, speech)),
    ...(grid === null
      ? []
      : [
          `${sayFasteners(grid.features.map(kindOf))} at whole multiples of ${grid.says} from ` +
            `${grid.from}${sayTurned(grid.turned, false)}`,
        ]),
    ...(opposite === null ? [] : [`${sayFasteners(opposite.map(kindOf))} in opposite pairs`]),
    ...sayMirror(parts, kindOf, speech),
    ...sayRest(asMeasured, moved, speech),
  ];
  return said.join('; ');
};

/** A coordinate, free of the last digits' noise, so that a half rounds alike on both sides of an axis. */
export const sayPlace = (mm: number, speech: Speech): string =>
  sayNumber(Math.round(mm * 1e7) / 1e7, { ...speech, fraction: null });

/** The feature that two candidates put farthest apart. */
const farthest = (a: Candidate, b: Candidate): string | null => {
  const [most] = [...a.features]
    .map(([id, f]) => ({ id, apart: distance(f, b.features.get(id) ?? f) }))
    .sort((p, q) => q.apart - p.apart);
  return most === undefined || most.apart < 1e-6 ? null : most.id;
};

/**
 * Candidates in words; where two would read alike (other steps of one grid), each with the place of the feature that
 * they put farthest apart.
 */
export const sayApart = (
  candidates: readonly Candidate[],
  kindOf: (id: string) => FeatureKind,
  speech: Speech,
): readonly string[] => {
  const words = candidates.map((c) => sayLayout(c, kindOf, speech));
  return candidates.map((c, k) => {
    const alike = candidates.find((_, j) => j !== k && words[j] === words[k]);
    const id = alike === undefined ? null : farthest(c, alike);
    const at = id === null ? undefined : c.features.get(id);
    return at === undefined
      ? (words[k] ?? '')
      : `${words[k] ?? ''} (${id ?? ''} at ${sayPlace(at.x, speech)}, ${sayPlace(at.y, speech)})`;
  });
};
