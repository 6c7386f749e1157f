import { pointLength } from '@fayplate/handbook';
import {
  type Plate,
  type PlateBore,
  type PlateHole,
  type Side,
  type Spine,
  boreRadius,
  boreSpine,
} from '@fayplate/plate';
import { type Ring, capsuleRing } from './ring.js';

/**
 * A piece of void or of raised metal between two heights: all within a radius of a spine, the radius running evenly
 * from `lower` to `upper`.
 */
export interface Piece {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly spine: Spine;
  readonly lower: number;
  readonly upper: number;
}

export const ringOf = (p: Piece, z: number): Ring => {
  const t = (z - p.from) / (p.to - p.from);
  const radius = p.lower === p.upper ? p.lower : p.lower + (p.upper - p.lower) * t;
  return capsuleRing(p.name, { spine: p.spine, radius: Math.max(0, radius) });
};

/** Lowest and highest metal, mm: spigots stand beyond the faces. */
export const reach = (plate: Plate): readonly [number, number] => {
  const tall = (side: Side): number =>
    Math.max(0, ...plate.bores.filter((b) => b.kind === 'spigot' && b.side === side).map((b) => b.depth ?? 0));
  return [-tall('A'), plate.thickness + tall('B')];
};

export const raised = (plate: Plate): readonly Piece[] =>
  plate.bores
    .filter((b) => b.kind === 'spigot')
    .map((b) =>
      b.side === 'A'
        ? straight(b.id, b, b.diameter, -(b.depth ?? 0), 0)
        : straight(b.id, b, b.diameter, plate.thickness, plate.thickness + (b.depth ?? 0)),
    );

/**
 * All voids but notches, which are part of the outline: bores, recesses and pockets, holes with their drill points,
 * counterbores and countersinks. A thread is the cylinder of its tapping hole.
 */
export const voids = (plate: Plate): readonly Piece[] => {
  const span = reach(plate);
  return [
    ...plate.bores
      .filter((b) => b.kind !== 'spigot' && b.box?.notch !== true)
      .map((b) => boreVoid(b, plate.thickness, span)),
    ...plate.holes.flatMap((h) => holeVoids(h, plate.thickness, span)),
  ];
};

const straight = (
  name: string,
  at: { readonly x: number; readonly y: number },
  diameter: number,
  from: number,
  to: number,
): Piece => {
  const p = { x: at.x, y: at.y };
  return { name, from, to, spine: [p, p], lower: diameter / 2, upper: diameter / 2 };
};

const boreVoid = (b: PlateBore, thickness: number, [low, high]: readonly [number, number]): Piece => {
  const r = boreRadius(b);
  const own = { name: b.id, spine: boreSpine(b), lower: r, upper: r };
  if (b.side === 'through' || b.depth === null) return { ...own, from: low, to: high };
  return b.side === 'A' ? { ...own, from: low, to: b.depth } : { ...own, from: thickness - b.depth, to: high };
};

type Span = readonly [number, number];

/** Depths count from where the hole's own metal begins: the floor of a recess, the top of a raised spigot. */
const holeVoids = (h: PlateHole, thickness: number, span: Span): readonly Piece[] => {
  const land: Span = h.land[1] > h.land[0] ? h.land : [0, thickness];
  return [...shank(h, land, span), ...sinkVoid(h, land, span)];
};

const shank = (h: PlateHole, [bottom, top]: Span, [low, high]: Span): readonly Piece[] => {
  const name = h.thread === null ? h.id : `${h.id} ${h.thread.name}`;
  const half = (h.slot?.length ?? 0) / 2;
  const dx = half * Math.cos(h.slot?.angle ?? 0);
  const dy = half * Math.sin(h.slot?.angle ?? 0);
  const spine: Spine = [
    { x: h.x - dx, y: h.y - dy },
    { x: h.x + dx, y: h.y + dy },
  ];
  const ends = half === 0 ? {} : { spine };
  if (h.depth === null) return [{ ...straight(name, h, h.diameter, low, high), ...ends }];
  const r = h.diameter / 2;
  const point = h.slot === null ? pointLength(h.diameter) : 0;
  const body =
    h.from === 'A'
      ? straight(name, h, h.diameter, low, bottom + h.depth)
      : straight(name, h, h.diameter, top - h.depth, high);
  const tip =
    h.from === 'A'
      ? { ...body, from: body.to, to: body.to + point, lower: r, upper: 0 }
      : { ...body, from: body.from - point, to: body.from, lower: 0, upper: r };
  return point === 0 ? [{ ...body, ...ends }] : [body, tip];
};

const sinkVoid = (h: PlateHole, [bottom, top]: Span, [low, high]: Span): readonly Piece[] => {
  if (h.sink === null) return [];
  const { side, depth, diameter, kind } = h.sink;
  const [from, to] = side === 'A' ? [low, bottom + depth] : [top - depth, high];
  if (kind !== 'countersunk') return [straight(h.id, h, diameter, from, to)];
  const [inner, outer] = side === 'A' ? [bottom + depth, bottom] : [top - depth, top];
  const wide = diameter / 2;
  const narrow = h.diameter / 2;
  return [
    {
      ...straight(h.id, h, diameter, Math.min(inner, outer), Math.max(inner, outer)),
      lower: side === 'A' ? wide : narrow,
      upper: side === 'A' ? narrow : wide,
    },
  ];
};
