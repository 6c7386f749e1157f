import type { Point } from '@fayplate/core';
import type { PrinterProfile } from './profile.js';

/** A reading of a steel rule against a printed scale: half of its millimetre, common practice. */
export const RULE_PLUS_MINUS = 0.25;
/** The eye laying one half of a mark on the other, per join, mm: common practice. */
export const JOIN_PLUS_MINUS = 0.2;

export interface Remaining {
  /** ±, mm. */
  readonly off: number;
  readonly hole: string | null;
  /** Distance of that hole from the middle of the pattern, mm. */
  readonly reach: number;
}

/**
 * How far the farthest hole can still lie from its true place, measured from the middle of the holes: the ± of the scale along
 * and up, of the skew where it was measured, and of the joins crossed, taken together as the root of their squares.
 * Without a profile the ± is that of checking the sheet's own rulers (`ruler` mm long) with a rule.
 */
export const remainingError = (
  holes: readonly { readonly id: string; readonly at: Point }[],
  profile: PrinterProfile | null,
  rulers: { readonly wide: number; readonly high: number },
  joins: { readonly across: number; readonly up: number },
): Remaining => {
  const xs = holes.map((h) => h.at.x);
  const ys = holes.map((h) => h.at.y);
  const middle = { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2 };
  const pm = profile?.plusMinus ?? {
    wide: RULE_PLUS_MINUS / rulers.wide,
    high: RULE_PLUS_MINUS / rulers.high,
    skew: null,
  };
  // Half of the joins at most lie between the middle and a hole.
  const crossed = Math.ceil(joins.across / 2) + Math.ceil(joins.up / 2);
  const offs = holes.map((h) => {
    const dx = h.at.x - middle.x;
    const dy = h.at.y - middle.y;
    return {
      hole: h.id,
      reach: Math.hypot(dx, dy),
      off: Math.hypot(dx * pm.wide, dy * pm.high, dy * (pm.skew ?? 0), JOIN_PLUS_MINUS * Math.sqrt(crossed)),
    };
  });
  return offs.reduce<Remaining>((worst, o) => (o.off > worst.off ? o : worst), { off: 0, hole: null, reach: 0 });
};
