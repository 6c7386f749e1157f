import { distance } from '@fayplate/core';
import { type Desk, type Placed, partOf } from '../desk.js';
import { type Register, standsOut } from './registers.js';

/** Clear room round and above what stands out of a part, mm. Source: common practice. */
export const CLEAR = 1;

/** What stands out of a part's face and no register takes: bosses, and spigots that locate nothing. */
export const standing = (desk: Desk, registers: readonly Register[]): readonly Placed[] =>
  desk.placed.filter(
    (p) =>
      (p.feature.kind === 'boss' || p.feature.kind === 'spigot') &&
      !p.feature.vacant &&
      p.diameter !== null &&
      !registers.some((r) => r.kind !== 'relief' && r.feature === p.name),
  );

/** Whether an opening that is already there clears it, all round and deep enough. */
const cleared = (p: Placed, by: Register, desk: Desk): boolean => {
  if (by.kind === 'spigot' || (by.side !== 'through' && by.side !== p.side)) return false;
  const depth = by.depth ?? desk.thickness;
  return (
    distance(p.at, by) + (p.diameter ?? 0) / 2 <= by.diameter / 2 - Math.min(CLEAR, 0.5) &&
    depth >= (standsOut(p) ?? desk.thickness)
  );
};

/** Pockets for what stands out, a millimetre larger all round and deeper; through where the height is not known or nothing would be left. */
export const reliefs = (desk: Desk, openings: readonly Register[]): readonly Register[] =>
  standing(desk, openings).flatMap((p): Register[] => {
    if (openings.some((o) => cleared(p, o, desk))) return [];
    const height = standsOut(p);
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
