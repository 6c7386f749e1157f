import { type Speech, say, sayNumber } from '@fayplate/core';
import {
  type Plate,
  type PlateHole,
  boreKind,
  boreLimits,
  depthLimitsOf,
  soldWords,
  straightWords,
  withPitch,
} from '@fayplate/plate';

/**
 * Names alone stand in a plate: where it is shrunk to half a page, larger than lettering elsewhere, so that they are
 * read at arm's length.
 */
export const NAMES = 1.25;

/** To the hundredth of a millimetre or the thousandth of an inch. */
const short = (mm: number, speech: Speech): string => say(mm, speech, speech.unit === 'in' ? 3 : 2);

export const boreNotes = (plate: Pick<Plate, 'bores'>, speech: Speech): readonly string[] =>
  plate.bores.map((b) => {
    const how =
      b.depth === null
        ? 'through'
        : `${(depthLimitsOf(b) ?? []).map((d) => sayNumber(d, speech, speech.unit === 'in' ? 3 : 2)).join(' to ')} ` +
          `${b.kind === 'spigot' ? 'high' : 'deep'} on side ${b.side}`;
    const size =
      straightWords(b, (mm) => sayNumber(mm, speech)) ??
      boreLimits(b)
        .map((d) => sayNumber(d, speech))
        .join(' to ');
    return (
      `${b.id}: ${boreKind(b)} ${size} ${speech.unit}, ` +
      how +
      (b.feature === null ? (b.cut === undefined ? '' : `, ${b.cut.why ?? b.cut.name}`) : `, for ${b.feature}`) +
      '.'
    );
  });

const holeWords = (h: PlateHole, speech: Speech): string =>
  [
    h.cut !== undefined
      ? `${h.slot === null ? 'hole' : 'slot'} ${h.drill ?? say(h.diameter, speech)}, ${h.cut.why ?? h.cut.name}`
      : h.thread === null
        ? `${h.drill ?? (h.as === 'dowel' || h.as === 'slot' ? soldWords(h.diameter, speech) : say(h.diameter, speech))} ` +
          h.as
        : `${withPitch(h.thread.name, h.thread.pitch)} ${h.as}`,
    ...(h.depth === null ? [] : [`${short(h.depth, speech)} deep from side ${h.from}`]),
    ...(h.sink === null
      ? []
      : [
          `${h.sink.kind} ${short(h.sink.diameter, speech)}, ` +
            `${short(h.sink.depth, speech)} deep on side ${h.sink.side}`,
        ]),
  ].join(', ');

/** More names than this in their order are said by the first and the last. */
const MOST_NAMED = 8;

const namesOf = (ids: readonly string[], all: readonly string[]): string => {
  const first = all.indexOf(ids[0] ?? '');
  return ids.length > MOST_NAMED && ids.every((id, i) => all[first + i] === id)
    ? `${ids[0] ?? ''} … ${ids.at(-1) ?? ''}`
    : ids.join(' ');
};

/** Holes that are alike are said once: `H1 H2 H3: 13/32 clearance`, `H1 … H36: 9 mm clearance`. */
export const holeNotes = (plate: Pick<Plate, 'holes'>, speech: Speech): readonly string[] => {
  const alike = new Map<string, string[]>();
  for (const h of plate.holes) {
    const words = holeWords(h, speech);
    alike.set(words, [...(alike.get(words) ?? []), h.id]);
  }
  const all = plate.holes.map((h) => h.id);
  return [...alike].map(([words, ids]) => `${namesOf(ids, all)}: ${words}.`);
};
