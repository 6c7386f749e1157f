import { distance } from '@fayplate/core';
import type { Plate, PlateBore, PlateHole } from '@fayplate/plate';

/** A hole or bore that both states have, and how it differs; mm, plate frame. */
interface Moved {
  readonly id: string;
  readonly feature: string | null;
  readonly dx: number;
  readonly dy: number;
  readonly by: number;
  /** Diameter before and now. */
  readonly diameter: readonly [number, number];
  /** Its treatment, thread, depth or sinking is another. */
  readonly made: boolean;
}

/** What of the plate is another. */
export interface PlateChanges {
  readonly moved: readonly Moved[];
  readonly come: readonly string[];
  readonly gone: readonly string[];
  /** Cuts that have another number: `H4 is H5 now`. */
  readonly renumbered: readonly string[];
  readonly thickness: readonly [number, number] | null;
  readonly outline: boolean;
}

/** Less than this no sheet shows and no drill tells, mm: what a read-out steps by. */
export const SEEN = 0.005;

type Cut = PlateHole | PlateBore;

const nameOf = (c: Cut): string => c.feature ?? ('cut' in c && c.cut !== undefined ? c.cut.name : c.id);

const madeOf = (c: Cut): string =>
  'as' in c
    ? JSON.stringify([
        c.as,
        c.thread?.name ?? '',
        c.thread?.depth ?? '',
        c.depth,
        c.from,
        c.sink?.kind ?? '',
        c.sink?.side ?? '',
      ])
    : JSON.stringify([c.kind, c.side]);

const deepOf = (c: Cut): readonly number[] =>
  'as' in c ? [c.depth ?? 0, c.sink?.depth ?? 0, c.sink?.diameter ?? 0, c.slot?.length ?? 0] : [c.depth ?? 0];

/** Holes and bores told from each other by what they are for: their numbers may be others. */
const cutsBy = (p: Plate): ReadonlyMap<string, Cut> =>
  new Map([...p.holes, ...p.bores].map((c): [string, Cut] => [`${'as' in c ? 'hole' : c.kind} ${nameOf(c)}`, c]));

/** How the plate of one state differs from that of another. */
export const plateChanges = (before: Plate, now: Plate): PlateChanges => {
  const [a, b] = [cutsBy(before), cutsBy(now)];
  const moved = [...b].flatMap(([key, c]): readonly Moved[] => {
    const was = a.get(key);
    if (was === undefined) return [];
    const by = distance(was, c);
    const made = madeOf(was) !== madeOf(c) || deepOf(c).some((v, i) => Math.abs(v - (deepOf(was)[i] ?? 0)) > SEEN);
    return by <= SEEN && Math.abs(c.diameter - was.diameter) <= SEEN && !made
      ? []
      : [
          {
            id: c.id,
            feature: c.feature,
            dx: c.x - was.x,
            dy: c.y - was.y,
            by,
            diameter: [was.diameter, c.diameter],
            made,
          },
        ];
  });
  return {
    moved: moved.toSorted((x, y) => y.by - x.by),
    come: [...b].filter(([key]) => !a.has(key)).map(([, c]) => `${c.id} (${nameOf(c)})`),
    gone: [...a].filter(([key]) => !b.has(key)).map(([, c]) => `${c.id} (${nameOf(c)})`),
    renumbered: [...b].flatMap(([key, c]) => {
      const was = a.get(key);
      return was === undefined || was.id === c.id ? [] : [`${was.id} is ${c.id} now`];
    }),
    thickness: Math.abs(before.thickness - now.thickness) <= SEEN ? null : [before.thickness, now.thickness],
    outline: before.outline.shape !== now.outline.shape || Math.abs(before.outline.area - now.outline.area) > 1,
  };
};
