import { oncePer } from '@fayplate/core';
import { type Network, isExact } from '../network/network.js';
import type { Observation } from '../network/observation.js';
import type { Slip } from '../guess/written.js';

/** How often a reading is misread or mistyped (a judgement). */
const SLIP_RATE = 0.01;
/** How often a diameter that is given as exact is wrong: it is mostly looked up, and seldom read (a judgement). */
const EXACT_RATE = 0.0004;

/** How often an observation is wrong, by its kind: a reading, or a diameter given as exact (see `opened`). */
export const slipRate = (o: Observation): number => (isExact(o) ? EXACT_RATE : SLIP_RATE);
/**
 * Slips of any size from the least that an instrument shows to the greatest that a face allows: as likely in each
 * factor of ten.
 */
const DECADES = Math.log(1e4);
/** Of all slips those that are no common slip of a scale, a digit, a unit, a kind or a feature (a judgement). */
const UNKNOWN = 0.7;

/**
 * How much likelier an error `e`, known to a standard uncertainty of `s`, is as a slip than by nothing at all: the
 * density of a slip there (of unknown size, or one of the common ones) times the width that the other readings leave.
 * Free of unit.
 */
export const slipEvidence = (e: number, s: number, common: readonly Slip[]): number => {
  const unknown = 1 / (2 * DECADES * Math.max(Math.abs(e), s));
  const all = common.reduce((sum, c) => sum + c.weight, 0);
  const known = common.reduce(
    (sum, c) =>
      sum + (all > 0 ? c.weight / all : 0) * (Math.exp(-0.5 * (c.left / s) ** 2) / (s * Math.sqrt(2 * Math.PI))),
    0,
  );
  return (UNKNOWN * unknown + (1 - UNKNOWN) * known) * s * Math.sqrt(2 * Math.PI);
};

/**
 * Features of one kind on a face are mostly of one size: so many of them, and to this share of it (common practice).
 */
const ALIKE = { share: 0.8, spread: 0.01 } as const;

/** Diameters of the features of each kind, by their own readings, mm. */
const sizesByKind = oncePer(({ face, observations }: Network): ReadonlyMap<string, ReadonlyMap<string, number>> => {
  const own = new Map<string, number>();
  for (const o of observations) {
    const id =
      o.kind === 'diameter' ? o.id.replace(/^diameter /, '') : o.kind === 'dia' ? o.reading?.features[0] : null;
    if (id !== null && id !== undefined && !own.has(id)) own.set(id, o.value);
  }
  const byKind = new Map<string, Map<string, number>>();
  for (const f of face.features) {
    const size = own.get(f.id);
    if (size === undefined) continue;
    const known = byKind.get(f.kind);
    if (known === undefined) byKind.set(f.kind, new Map([[f.id, size]]));
    else known.set(f.id, size);
  }
  return byKind;
}, new WeakMap<Network, ReadonlyMap<string, ReadonlyMap<string, number>>>());

/** Diameters that other features of the same kind have by their own readings, mm. */
const siblingsOf = (network: Network, id: string): readonly number[] => {
  const kind = network.face.features.find((f) => f.id === id)?.kind ?? '';
  return [...(sizesByKind(network).get(kind) ?? [])].flatMap(([other, size]) => (other === id ? [] : [size]));
};

/**
 * How much likelier a diameter would be if it were off by `e`, beside its kind on the face: a slip that brings it away
 * from all others explains more than one that would have brought it there. Log of odds; 0 for other readings, and where
 * it has no others beside it.
 */
export const likenessGain = (network: Network, o: Observation, e: number): number => {
  const id = o.kind === 'dia' ? o.reading?.features[0] : /^diameter (.+)$/.exec(o.id)?.[1];
  const siblings = id === undefined || (o.kind !== 'dia' && o.kind !== 'diameter') ? [] : siblingsOf(network, id);
  if (siblings.length === 0) return 0;
  const likely = (d: number): number =>
    siblings.reduce((sum, m) => {
      const spread = Math.hypot(ALIKE.spread * m, o.sigma);
      return sum + Math.exp(-0.5 * ((d - m) / spread) ** 2) / (spread * Math.sqrt(2 * Math.PI));
    }, 0) *
      (ALIKE.share / siblings.length) +
    (1 - ALIKE.share) / Math.max(...siblings);
  return Math.log(likely(o.value - e) / likely(o.value));
};
