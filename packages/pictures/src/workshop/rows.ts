import { type Motion, type Point, apply, edgesOf, distance, toDegrees } from '@fayplate/core';
import type { MachinistTable } from '@fayplate/machining';
import {
  type Plate,
  type PlateBore,
  type PlateHole,
  boreKind,
  boreLimits,
  deeperOnly,
  depthLimitsOf,
  straightWords,
  withPitch,
} from '@fayplate/plate';
import type { SheetTable } from './columns.js';
import { type Numbers, limits, numeral, size } from './dimension.js';

/** Class of thread that a tapped hole is asked for: 6H (ISO 965-1), 2B (ASME B1.1); none is given for other threads. */
const threadClass = (name: string): string => (name.startsWith('M') ? ' – 6H' : / UN[A-Z]*$/.test(name) ? '-2B' : '');

const sizeWords = (h: PlateHole, turned: number, n: Numbers): string => {
  if (h.thread !== null) return `${withPitch(h.thread.name, h.thread.pitch)}${threadClass(h.thread.name)}`;
  const slot =
    h.slot === null
      ? ''
      : ` × ${size(h.slot.length, n)} between centres at ${Number(toDegrees(h.slot.angle + turned).toFixed(1))}°`;
  return `${h.slot === null ? '⌀' : ''}${h.limits === null ? numeral(h.diameter, n) : limits(h.limits, n)}${slot}`;
};

const depthWords = (h: PlateHole, n: Numbers): string => {
  const deep = (mm: number): string => limits(deeperOnly(mm), n, n.unit === 'in' ? 3 : 2);
  return [
    h.depth === null
      ? 'through'
      : `${h.thread?.depth == null ? '' : `thread ${size(h.thread.depth, n)}, `}drill ${deep(h.depth)} from ${h.from}`,
    ...(h.sink === null
      ? []
      : [
          `${h.sink.kind === 'countersunk' ? 'csk' : h.sink.kind === 'spotfaced' ? 'spotface' : 'cbore'} ` +
            `⌀${size(h.sink.diameter, n)} × ${deep(h.sink.depth)} on ${h.sink.side}`,
        ]),
  ].join('; ');
};

/** Straight sides are asked for by their own sizes, and by the way that they run. */
const boreWords = (b: PlateBore, turned: number, n: Numbers): string => {
  const straight = straightWords(b, (mm) => size(mm, n));
  return straight === null
    ? `⌀${limits(boreLimits(b), n)}`
    : `${straight}, at ${Number(toDegrees((b.box?.angle ?? 0) + turned).toFixed(1))}°`;
};

const boreDepth = (b: PlateBore, n: Numbers): string => {
  const own = depthLimitsOf(b);
  return own === null
    ? 'through'
    : `${limits(own, n, n.unit === 'in' ? 3 : 2)} ${b.kind === 'spigot' ? 'high' : 'deep'} on ${b.side}`;
};

/**
 * Where the machine is set for a hole or bore, axes of the table as seen from side B, mm: the ends of a slot and the
 * corners of a pocket are places of their own, and none of them is its middle.
 */
const setPlace = (table: MachinistTable, cut: Point & { readonly id: string }): Point => {
  const middle = apply(table.motion, cut);
  const [row] = table.rows
    .filter((r) => r.hole === cut.id)
    .toSorted((a, b) => distance(a, middle) - distance(b, middle));
  return row === undefined ? middle : { x: row.side === 'A' ? -row.set.x : row.set.x, y: row.set.y };
};

/**
 * Every hole and bore: its place as the machine is set for it, its size with limits, how deep, and the zone of its
 * axis.
 */
export const holeRows = (
  plate: Plate,
  table: MachinistTable,
  zones: ReadonlyMap<string, number>,
  n: Numbers,
): SheetTable => {
  const zone = (id: string): string => {
    const t = zones.get(id);
    return t === undefined ? '' : `⌀${size(t, n)}`;
  };
  const at = (cut: Point & { readonly id: string }): readonly [string, string] => {
    const p = setPlace(table, cut);
    return [numeral(p.x, n), numeral(p.y, n)];
  };
  return {
    caption: `Holes and bores, ${n.unit}: from ${table.origin}, seen from side B, X right, Y up`,
    heads: ['', 'X', 'Y', 'Size', 'Depth', 'Position', 'For'],
    right: [false, true, true, false, false, false, false],
    rows: [
      ...plate.holes.map((h) => [
        h.id,
        ...at(h),
        sizeWords(h, table.motion.turn, n),
        depthWords(h, n),
        zone(h.id),
        h.feature ?? h.cut?.why ?? h.cut?.name ?? (h.as === 'dowel' ? 'dowel: leave it, reamed at assembly' : h.as),
      ]),
      ...plate.bores.map((b) => [
        b.id,
        ...at(b),
        boreWords(b, table.motion.turn, n),
        boreDepth(b, n),
        zone(b.id),
        (b.box === undefined ? (b.kind === 'spigot' ? 'raised spigot' : b.kind) : boreKind(b)) +
          (b.feature === null ? '' : `, ${b.feature}`) +
          (b.box === undefined ? '' : `, ${b.cut?.why ?? b.cut?.name ?? ''}`),
      ]),
    ],
  };
};

/** The outline as points with the radius of each arc; null where a dimension says it all (a disc). */
export const outlineRows = (plate: Plate, motion: Motion, n: Numbers): SheetTable | null => {
  if (plate.outline.shape === 'round') return null;
  const { path } = plate.outline;
  const place = (p: Point): readonly [string, string] => {
    const q = apply(motion, p);
    return [size(q.x, n), size(q.y, n)];
  };
  return {
    caption: 'Outline',
    heads: ['to', 'X', 'Y', 'R'],
    right: [true, true, true, true],
    rows: [
      ['1', ...place(path.start), ''],
      ...edgesOf(path).map(([, e], i) => [
        String(i + 2),
        ...place(e.to),
        e.kind === 'line' ? '' : `${e.ccw ? '' : '−'}${size(distance(e.to, e.centre), n)}`,
      ]),
    ],
  };
};
