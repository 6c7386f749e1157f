import { standardTolerance } from '@fayplate/handbook';
import type { PlateBore } from '../types.js';

type Limits = readonly [least: number, most: number];

/** What a size may be off where nothing says, mm. Source: ISO 2768-1, class m, from memory. */
const general: readonly (readonly [to: number, off: number])[] = [
  [6, 0.1],
  [30, 0.2],
  [120, 0.3],
  [400, 0.5],
  [Infinity, 0.8],
];

const generalOff = (mm: number): number => general.find(([to]) => mm <= to)?.[1] ?? 0.8;

/**
 * Limits of a bore's diameter, mm: the plate's own; a register that has none goes on by H7 (a raised spigot by h7, ISO
 * 286-1), and what only clears has the general ones.
 */
export const boreLimits = (bore: PlateBore): Limits => {
  if (bore.limits !== null) return bore.limits;
  const d = bore.diameter;
  const grade = standardTolerance(7, d) ?? generalOff(d);
  if (bore.kind === 'recess') return [d, d + grade];
  if (bore.kind === 'spigot') return [d - grade, d];
  return bore.kind === 'relief' ? [d, d + 2 * generalOff(d)] : [d - generalOff(d), d + generalOff(d)];
};

/**
 * What goes into a recess must not meet its floor, so its depth is off one way only; a raised spigot's height the other
 * way; mm.
 */
export const depthLimitsOf = (bore: PlateBore): Limits | null => {
  if (bore.depth === null) return null;
  const off = 2 * generalOff(bore.depth);
  return bore.kind === 'spigot' ? [bore.depth - off, bore.depth] : [bore.depth, bore.depth + off];
};

/** Depth of what is sunk or ends blind, mm: never less than drawn. */
export const deeperOnly = (mm: number): Limits => [mm, mm + 2 * generalOff(mm)];
