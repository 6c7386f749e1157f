import { type Box, type Speech, say, sayNumber } from '@fayplate/core';
import { type Lettering, type Shape, arrow, line, pens, text } from '@fayplate/drawing';
import { type Plate, type PlateBore, type PlateHole, boreLimits, depthLimitsOf, withPitch } from '@fayplate/plate';
import type { Profile } from './section-profile.js';
import type { Scale } from './sheet.js';

const places = (speech: Speech): number => (speech.unit === 'in' ? 3 : 2);

/** Size of a hole and what is sunk into it, a line each, short enough to stand under its name in a section. */
export const holeSizes = (h: PlateHole, speech: Speech): readonly string[] => {
  const deep = (mm: number): string => sayNumber(mm, speech, places(speech));
  const size =
    h.thread === null ? (h.drill ?? `⌀${say(h.diameter, speech)}`) : withPitch(h.thread.name, h.thread.pitch);
  const kind = { counterbored: 'cbore', countersunk: 'csk', spotfaced: 'spotface' } as const;
  return [
    `${size}${h.depth === null ? '' : ` × ${deep(h.depth)} deep`}`,
    ...(h.sink === null ? [] : [`${kind[h.sink.kind]} ⌀${deep(h.sink.diameter)} × ${deep(h.sink.depth)}`]),
  ];
};

const boreSize = (b: PlateBore, speech: Speech): string => {
  const across = boreLimits(b).map((d) => sayNumber(d, speech));
  const deep = (depthLimitsOf(b) ?? []).map((d) => sayNumber(d, speech, places(speech)));
  return (
    `${b.id}  ` +
    `⌀${across.join(' to ')}` +
    (deep.length === 0 ? ' through' : `, ${deep.join(' to ')} ` + (b.kind === 'spigot' ? 'high' : 'deep'))
  );
};

interface Sized {
  readonly words: string;
  readonly from: number;
  readonly to: number;
  readonly above: boolean;
  /** Where its edge meets the face, z from side A. */
  readonly edge: number;
}

/** An upright line with gaps where it would run through words. */
const upright = (x: number, from: number, to: number, words: readonly Box[]): readonly Shape[] => {
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  const met = words
    .filter((b) => b.left < x && x < b.right && b.top > low && b.bottom < high)
    .toSorted((a, b) => a.bottom - b.bottom);
  const ends = [low, ...met.flatMap((b) => [b.bottom, b.top]), high];
  return ends.flatMap((y, i) => {
    const next = ends[i + 1];
    return i % 2 === 1 || next === undefined || next <= y ? [] : [line('note', { x, y }, { x, y: next }, pens.hair)];
  });
};

/**
 * Diameters and depths of the bores, recesses and spigots that the section cuts through their axis, as dimensions with
 * their limits: of side B above the plate, of side A and through it below, the narrowest nearest (ISO 129-1, from
 * memory). `above` and `below`: where the dimensions begin, z from side A; `words`: what stands above already.
 */
export const boreDimensions = (
  plate: Plate,
  profile: Profile,
  speech: Speech,
  { capital, small, gap }: Scale,
  room: { readonly above: number; readonly below: number; readonly words: readonly Box[] },
  lettering: Lettering,
): readonly Shape[] => {
  const sized = profile.bores.flatMap(({ id, from, to }): readonly Sized[] => {
    const b = plate.bores.find((x) => x.id === id);
    if (b === undefined) return [];
    const proud = b.kind === 'spigot' ? (b.depth ?? 0) : 0;
    const onB = b.side === 'B';
    return [{ words: boreSize(b, speech), from, to, above: onB, edge: onB ? plate.thickness + proud : -proud }];
  });
  const drawn = (onB: boolean): readonly Shape[] => {
    const own = sized.filter((s) => s.above === onB).toSorted((a, b) => a.to - a.from - (b.to - b.from));
    const out = onB ? 1 : -1;
    const clear = Math.max(...own.map((s) => s.to)) + gap;
    return own.flatMap(({ words, from, to, edge }, i) => {
      const z = (onB ? room.above : room.below) + out * 2.1 * capital * (i + (onB ? 0.4 : 1));
      const middle = { x: (from + to) / 2, y: z };
      const fits = lettering.width(words, small, 'regular') < to - from - 2 * capital;
      return [
        ...[from, to].flatMap((x) => upright(x, edge + out * 0.25 * gap, z + out * 0.4 * capital, room.words)),
        ...arrow('note', middle, { x: from, y: z }, pens.hair, capital),
        ...arrow('note', middle, { x: to, y: z }, pens.hair, capital),
        // Words that find no room between the arrows stand beside, clear of every extension line.
        ...(fits
          ? [text('note', { x: middle.x, y: z + 0.35 * small }, words, { capital: small, anchor: 'middle' })]
          : [
              line('note', { x: to, y: z }, { x: clear, y: z }, pens.hair),
              text('note', { x: clear + 0.4 * small, y: z - small / 2 }, words, { capital: small }),
            ]),
      ];
    });
  };
  return [...drawn(true), ...drawn(false)];
};
