import { type Speech, exactFraction, formatLength } from '@fayplate/core';
import { soldWords } from '@fayplate/plate';
import {
  type PlateBore,
  type PlateHole,
  type Side,
  type Sink,
  boreKind,
  boreLimits,
  depthLimitsOf,
  straightWords,
  withPitch,
} from '@fayplate/plate';

/** What a template needs of a hole. */
export type PunchedHole = Pick<
  PlateHole,
  | 'id'
  | 'done'
  | 'feature'
  | 'cut'
  | 'x'
  | 'y'
  | 'as'
  | 'diameter'
  | 'from'
  | 'depth'
  | 'thread'
  | 'sink'
  | 'slot'
  | 'drill'
>;

/**
 * A size as it is said on a drawing, no finer than it is made: `10.3`, `0.406`, `13/32` where it is that fraction
 * exactly.
 */
export const sizeWords = (mm: number, speech: Speech): string => {
  const fraction = speech.unit === 'in' ? exactFraction(mm) : null;
  if (fraction !== null) return fraction;
  const text = formatLength(mm, speech.unit, speech.unit === 'in' ? 4 : 3);
  return trimmed(text);
};

const trimmed = (text: string): string =>
  text.includes('.') ? text.replace(/(?<!0)0+$/, '').replace(/\.$/, '') : text;

/** The plate's thickness, no finer than a file or a face mill holds it. */
export const thickWords = (mm: number, speech: Speech): string =>
  `${(speech.unit === 'in' ? exactFraction(mm) : null) ?? trimmed(formatLength(mm, speech.unit, speech.unit === 'in' ? 3 : 2))} ` +
  speech.unit;

const sinkWords: Readonly<Record<Sink['kind'], string>> = {
  counterbored: 'counterbore',
  spotfaced: 'spotface',
  countersunk: 'countersink',
};

export const depthWords = (hole: Pick<PlateHole, 'depth'>, speech: Speech): string =>
  hole.depth === null ? 'through' : `${sizeWords(hole.depth, speech)} deep`;

/** `drill 13/32`, `8 mm reamer`, `tap M10 after drill 8.5 mm`. */
export const cutWords = (hole: PunchedHole, speech: Speech): string => {
  const size = `⌀${sizeWords(hole.diameter, speech)}`;
  const drill = hole.drill === null ? size : hole.drill;
  if (hole.done === true) return `drilled already ${size}`;
  if (hole.thread !== null) return `drill ${drill}, tap ${withPitch(hole.thread.name, hole.thread.pitch)}`;
  if (hole.as === 'dowel')
    return `${soldWords(hole.diameter, speech)} reamer${hole.feature === null ? ', at assembly' : ''}`;
  if (hole.slot !== null) return `slot ${size}, centres ${sizeWords(hole.slot.length, speech)} apart`;
  return hole.drill === null
    ? `drill ${size}`
    : `drill ${hole.drill}${sameWords(hole.drill, hole.diameter, speech) ? '' : ` (${size})`}`;
};

const sameWords = (drill: string, diameter: number, speech: Speech): boolean =>
  drill.replace(/\s?(?:mm|in)$/, '') === sizeWords(diameter, speech);

/** `counterbore ⌀22 × 9`, with the side it is sunk from. */
export const sinkLine = (sink: Sink, speech: Speech): string =>
  `${sinkWords[sink.kind]} ⌀${sizeWords(sink.diameter, speech)} × ${sizeWords(sink.depth, speech)}, side ${sink.side}`;

const shortSink: Readonly<Record<Sink['kind'], string>> = {
  counterbored: "c'bore",
  spotfaced: "s'face",
  countersunk: "c'sink",
};

/** Beside a hole: short, and with a side only where it is not the one that is seen. */
const sinkBeside = (sink: Sink, side: Side, speech: Speech): string =>
  `${shortSink[sink.kind]} ⌀${sizeWords(sink.diameter, speech)} × ` +
  `${sizeWords(sink.depth, speech)}${sink.side === side ? '' : ', far side'}`;

/**
 * Lettering beside a hole: its name and feature, the cut, how deep, what is sunk; in fewer lines or more, so that it
 * may stand wide or tall.
 */
export const holeSettings = (
  hole: PunchedHole,
  side: Side,
  speech: Speech,
  ringed = false,
): readonly [readonly string[], ...(readonly string[])[]] => {
  const own = hole.feature ?? hole.cut?.name ?? null;
  const name = own === null ? hole.id : `${hole.id}  ${own}`;
  const deep = depthWords(hole, speech);
  const depth = hole.depth !== null && hole.from !== side ? [`${deep}, from side ${hole.from}: not here`] : [deep];
  const sunk = [
    ...(hole.sink === null ? [] : [sinkBeside(hole.sink, side, speech)]),
    ...(ringed ? ['by read-out'] : []),
  ];
  return [
    [name, `${cutWords(hole, speech)}, ${depth.join('')}`, ...sunk],
    [name, cutWords(hole, speech), ...depth, ...sunk],
    [name, ...cutWords(hole, speech).split(', '), ...depth, ...sunk],
  ];
};

export const boreKinds: Readonly<Record<PlateBore['kind'], string>> = {
  bore: 'bore',
  recess: 'recess',
  spigot: 'raised spigot',
  relief: 'relief',
};

/** `5.502–5.5036`: least and greatest, as a drawing has them. */
export const limitWords = ([least, most]: readonly [number, number], speech: Speech): string =>
  `${sizeWords(least, { ...speech })}–${sizeWords(most, { ...speech })}`;

/** What a bore is, its size and how deep it goes, to be said in one line or in three. */
export const boreParts = (bore: PlateBore, speech: Speech): readonly [name: string, size: string, deep: string] => {
  const kind = bore.cut === undefined ? boreKinds[bore.kind] : `${boreKind(bore)} (${bore.cut.name})`;
  const size = straightWords(bore, (mm) => sizeWords(mm, speech)) ?? `⌀${limitWords(boreLimits(bore), speech)}`;
  const deep = bore.depth === null ? '?' : limitWords(depthLimitsOf(bore) ?? [bore.depth, bore.depth], speech);
  return [
    `${bore.id}  ${kind}`,
    size,
    bore.side === 'through' ? 'through' : `${bore.box === undefined ? `× ${deep}` : `${deep} deep`}, side ${bore.side}`,
  ];
};
