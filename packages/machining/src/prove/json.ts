import { toDegrees } from '@fayplate/core';
import type { Proof } from '../types.js';

/**
 * The proof as `prove --json` gives it, without the document's head: mm and degrees, in the plate's frame as seen from
 * side B.
 */
export const proveJson = (p: Proof): object => ({
  state: p.state,
  holes: p.holes.map((h) => ({
    id: h.id,
    dx: h.dx,
    dy: h.dy,
    position: h.position,
    within: h.within,
    allowed: h.allowed,
    ok: h.ok,
  })),
  unmeasured: p.unmeasured,
  goes_on: Object.fromEntries(
    [...p.goesOn].map(([face, f]) => [
      face,
      {
        probability: f.probability,
        standard_error: f.standardError,
        slack: f.slack,
        shift: [f.shift.x, f.shift.y],
        turn: toDegrees(f.turn),
        tight: f.tight,
        ease: f.ease.map((o) => ({
          metal: o.metal,
          holes: o.eases.map((e) => ({
            hole: e.hole,
            feature: e.feature,
            by: e.by,
            towards: toDegrees(e.towards),
            in_part: e.inPart === true,
          })),
        })),
        left_out: f.leftOut,
      },
    ]),
  ),
  mistake: p.mistake === null ? null : { kind: p.mistake.kind, says: p.mistake.says, harmless: p.renumbered !== null },
  renumbered: p.renumbered === null ? null : Object.fromEntries(p.renumbered),
  hand: { settled: p.hand.settled, by: p.hand.by, sure: p.handSure },
  take: { readings: p.plan.readings, within: p.plan.within, hand: p.plan.hand, mouths: p.plan.mouths },
  suspects: (p.located?.suspects ?? []).map((s) => s.reading),
  notes: p.notes,
  ok: p.ok,
});
