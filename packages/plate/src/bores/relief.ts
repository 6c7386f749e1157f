import { type Desk, type Placed, partOf } from '../desk.js';
import { type Register, mostOut } from './registers.js';
import { withinBore } from './shape.js';

/** Clear room round and above what stands out of a part, mm. Source: common practice. */
export const CLEAR = 1;

/**
 * The shaft itself, where a feature of its own stands for it: what passes the plate's bore. A spigot that the shaft
 * only runs in is none: one that a register takes, that ends within the plate, or beside which the shaft's own size is
 * given.
 */
export const isShaft = (desk: Desk, p: Placed, registers: readonly Register[]): boolean => {
  const { face, feature } = p;
  if (face.shaft !== feature.id || feature.kind === 'bore') return false;
  if (registers.some((r) => (r.kind === 'recess' || r.kind === 'spigot') && r.feature === p.name)) return false;
  if (feature.id !== face.centre) return true;
  return face.shaftSizes === null && (feature.stands === null || feature.stands >= desk.thickness);
};

/** Whether it stands out of its face by what it is, or by what the job says of it, whatever it was called. */
const standsByKind = ({ feature }: Placed): boolean =>
  feature.kind === 'boss' ||
  feature.kind === 'spigot' ||
  (feature.kind === 'bore' && (feature.height !== null || feature.stands !== null)) ||
  (feature.kind === 'hole' && feature.height !== null);

/** What stands out of a part's face and no register takes, with or without a known size; the shaft has its bore. */
export const standingOut = (desk: Desk, registers: readonly Register[]): readonly Placed[] =>
  desk.placed.filter(
    (p) =>
      standsByKind(p) &&
      !p.feature.vacant &&
      !isShaft(desk, p, registers) &&
      !registers.some((r) => r.kind !== 'relief' && r.feature === p.name),
  );

/** Those of known size. */
export const standing = (desk: Desk, registers: readonly Register[]): readonly Placed[] =>
  standingOut(desk, registers).filter((p) => p.diameter !== null);

/** Whether an opening that is already there clears it, all round and deep enough. */
const cleared = (p: Placed, by: Register, desk: Desk): boolean => {
  if (by.kind === 'spigot' || (by.side !== 'through' && by.side !== p.side)) return false;
  const depth = by.depth ?? desk.thickness;
  return (
    withinBore(p.at, by) - (p.diameter ?? 0) / 2 >= Math.min(CLEAR, 0.5) && depth >= (mostOut(p) ?? desk.thickness)
  );
};

/**
 * Pockets for what stands out, a millimetre larger all round and deeper; through where the height is not known or
 * nothing would be left.
 */
export const reliefs = (desk: Desk, openings: readonly Register[]): readonly Register[] =>
  standing(desk, openings).flatMap((p): Register[] => {
    // One that is set by indicator has the room that the job gives it.
    if (openings.some((o) => (o.kind === 'relief' && o.feature === p.name) || cleared(p, o, desk))) return [];
    const height = mostOut(p);
    const depth = height === null || height + CLEAR >= desk.thickness ? null : height + CLEAR;
    return [
      {
        kind: 'relief',
        feature: p.name,
        part: partOf(p),
        x: p.at.x,
        y: p.at.y,
        diameter: (p.diameter ?? 0) + 2 * CLEAR,
        limits: null,
        side: depth === null ? 'through' : p.side,
        depth,
      },
    ];
  });
