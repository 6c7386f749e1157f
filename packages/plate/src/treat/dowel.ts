import { distance, heading, subtract, covarianceOfPoints } from '@fayplate/core';
import { dowelLimits, inchDowels, isoFit, metricDowels } from '@fayplate/handbook';
import type { Desk, Placed } from '../desk.js';
import { usualDrilling } from '../limits.js';
import type { Made, Treated } from './made.js';
import { passPlain } from './thread.js';

/** A measured pin is taken for the listed size within this, mm. */
const NEAR = 0.05;

/** The listed dowel that a measured diameter is, else the diameter itself, mm. */
export const nominalDowel = (diameter: number): number =>
  [...metricDowels.rows, ...inchDowels.rows.map((d) => d * 25.4)]
    .toSorted((a, b) => Math.abs(a - diameter) - Math.abs(b - diameter))
    .find((d) => Math.abs(d - diameter) <= NEAR) ?? diameter;

/** A reamed hole, H7, for a dowel of this diameter. */
export const reamed = (diameter: number): Made => {
  const nominal = nominalDowel(diameter);
  const limits = isoFit('H7', nominal);
  const pin = dowelLimits(nominal);
  const most = pin?.most ?? diameter;
  return {
    as: 'dowel',
    diameter: nominal,
    limits: limits === null ? null : [limits.least, limits.most],
    from: 'B',
    depth: null,
    thread: null,
    sink: null,
    slot: null,
    fastening: { kind: 'dowel', thread: null, nominal, largest: most, head: null },
    fastener: most,
    drill: null,
    source: limits === null ? 'reamed to the dowel' : `H7: ${limits.source}`,
  };
};

/** ± of the distance between two placed features, mm, k = 2. */
export const spacingPlusMinus = (desk: Desk, a: Placed, b: Placed): number => {
  const pattern = desk.mated[a.side === 'A' ? 0 : 1].pattern;
  const i = pattern.ids.indexOf(a.feature.id);
  const j = pattern.ids.indexOf(b.feature.id);
  const d = distance(a.at, b.at);
  if (i < 0 || j < 0 || d === 0) return 0;
  const u = [(b.at.x - a.at.x) / d, (b.at.y - a.at.y) / d];
  const slope = [-(u[0] ?? 0), -(u[1] ?? 0), u[0] ?? 0, u[1] ?? 0];
  let variance = 0;
  for (const [r, row] of covarianceOfPoints(pattern.covariance, [i, j]).entries())
    for (const [c, v] of row.entries()) variance += (slope[r] ?? 0) * v * (slope[c] ?? 0);
  return 2 * Math.sqrt(Math.max(0, variance));
};

/**
 * Room that a slot gives along the line between the dowels, mm in all: twice what the spacing is unsure by, at least a
 * millimetre. Source: common practice.
 */
const slotLength = (desk: Desk, a: Placed, b: Placed): number =>
  Math.max(1, Math.ceil(4 * (spacingPlusMinus(desk, a, b) + (desk.spec.drilling ?? usualDrilling))) / 2);

/**
 * One of the face's own dowels: reamed, the second as a slot along the line from the first where asked; one that
 * locates nothing is cleared.
 */
export const ownDowel = (desk: Desk, p: Placed): Treated => {
  const spec = desk.spec.locate.get(p.face.name);
  const clock = spec?.as === 'register' && spec.clock !== undefined && 'feature' in spec.clock ? spec.clock : null;
  const named = spec?.as === 'own dowels' ? spec.features : clock === null ? [] : [clock.feature];
  const rank = named.indexOf(p.feature.id);
  if (p.diameter === null)
    return { ok: false, fault: `the dowel ${p.name} has no diameter: give one, so that its hole can be sized` };
  if (rank < 0) {
    const hole = passPlain(p.diameter, 'normal');
    const made: Made = {
      ...reamed(p.diameter),
      as: 'clearance',
      diameter: hole.diameter,
      limits: [hole.diameter, hole.most],
      drill: hole.drill,
      source: hole.source,
    };
    return { ok: true, made: { ...made, from: p.side }, remarks: [], seatSource: null, tappedPart: false };
  }
  const made = { ...reamed(p.diameter), from: p.side };
  // Where a register centres the part, its one dowel has a slot toward the register's centre.
  const from = clock === null ? named[0] : p.face.centre;
  const first = desk.placed.find((q) => q.face === p.face && q.feature.id === from);
  const slotted = clock === null ? rank === 1 && spec?.as === 'own dowels' && spec.second === 'slot' : clock.slot;
  if (slotted && first !== undefined) {
    return {
      ok: true,
      made: {
        ...made,
        as: 'slot',
        slot: { length: slotLength(desk, first, p), angle: heading(subtract(p.at, first.at)) },
      },
      remarks: [],
      seatSource: null,
      tappedPart: false,
    };
  }
  return { ok: true, made, remarks: [], seatSource: null, tappedPart: false };
};
