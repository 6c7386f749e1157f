import { chiSquareTail, distance } from '@fayplate/core';
import { type Adjusted, adjust } from '../fit/adjust.js';
import { type Construction, draft, linear, positionOf } from '../fit/construction.js';
import { drawGroup } from '../groups/draw.js';
import { type Drawn, type Group, laidBy, priorDensityOf } from '../groups/group.js';
import { spread } from '../groups/near.js';
import { logGroup } from '../groups/prior.js';
import type { Informing, Measured } from '../measured.js';
import { lcm, logSum } from '../prior/length.js';
import { MOVED, directions, logPartition, logMoved } from '../prior/structure.js';
import type { UnitOdds } from '../types.js';
import { type FreeQuantities, type Settled, freeQuantities, settle } from './quantise.js';

/** A composition of groups, adjusted with every quantity free. */
export interface Drafted {
  readonly groups: readonly Group[];
  readonly construction: Construction;
  readonly drawn: readonly Drawn[];
  readonly adjusted: Adjusted;
  readonly quantities: FreeQuantities;
  /** The hole that was moved, by so many mm; null where each is at its place or left where it was measured. */
  readonly moved: (Moved & { readonly by: number }) | null;
  /**
   * Log (prior × marginal likelihood) with every quantity free at prior weight 1, over that of the same centres each
   * anywhere on the face.
   */
  readonly base: number;
}

/** … and its ways to settle its quantities, each with the log of its weight; `log`: of their sum. */
export interface Composition extends Drafted {
  readonly ways: readonly Settled[];
  readonly logs: readonly number[];
  readonly log: number;
}

/** One way to settle a composition, with its odds among all hypotheses. */
export interface Weighed {
  readonly composition: Composition;
  readonly way: Settled;
  readonly odds: number;
}

/** How the units of a hypothesis's round sizes share its weight; a grid's step is a round size too. */
export const unitsIn = ({ composition, way }: Weighed): UnitOdds => {
  const unit = composition.groups.find((g) => g.kind === 'grid')?.unit;
  const { in: inch, mm, mixed, none } = way.units;
  if (unit === undefined) return way.units;
  return unit === 'in'
    ? { in: inch + none, mm: 0, mixed: mixed + mm, none: 0 }
    : { in: 0, mm: mm + none, mixed: mixed + inch, none: 0 };
};

/** Draws groups together: one construction, with each direction after the first a quantity against it. */
export const construct = (
  measured: Measured,
  groups: readonly Group[],
  alsoFree: readonly number[] = [],
): { readonly construction: Construction; readonly drawn: readonly Drawn[] } => {
  const density = priorDensityOf(measured);
  const drafting = draft(measured.points, density.logPlane);
  const alone = groups.map((g) => drawGroup(g, drafting, density));
  const first = alone.find((d) => d.bearing !== null)?.bearing ?? null;
  const drawn = alone.map((d): Drawn => {
    if (first === null || d.bearing === null || d.bearing === first) return d;
    const step = (2 * Math.PI) / lcm(first.fold, d.bearing.fold);
    const direction = drafting.quantity({
      what: 'direction',
      value: linear(0, [first.parameter, -1], [d.bearing.parameter, 1]),
      families: [
        { weight: directions.aligned, step, offset: 0, unit: null },
        { weight: directions.straddling, step, offset: step / 2, unit: null },
      ],
      free: directions.free,
    });
    return { ...d, direction };
  });
  for (const i of alsoFree) drafting.point(i);
  return { construction: drafting.done(), drawn };
};

/** One hole of a regular layout that was moved or has worn off its place. */
interface Moved {
  readonly feature: number;
  /** The composition with the hole at its place: the same parameters in the same order. */
  readonly whole: readonly Group[];
}

/** Largest move that is still one of that hole: a share of the face's extent, or so many standard deviations of it. */
const FARTHEST = 0.03;
const PLAIN = 20;

/** Largest move of a hole that is known with this standard deviation in one direction, mm. */
export const farthestMove = (measured: Measured, sigma: number): number =>
  Math.max(FARTHEST * measured.extent, PLAIN * sigma);

/** Draws and adjusts one composition; null where it cannot be adjusted. */
export const draftOf = (
  measured: Measured,
  groups: readonly Group[],
  inform: Informing,
  moved: Moved | null = null,
): Drafted | null => {
  const { construction, drawn } = construct(measured, groups);
  const laid = [...construction.places.keys()];
  const adjusted = adjust(construction, measured.points, inform(laid));
  if (adjusted === null || !adjusted.converged) return null;
  const { logPlane } = priorDensityOf(measured);
  const by = moved === null ? null : moveOf(measured, moved, adjusted.parameters);
  const prior =
    moved === null || by === null
      ? Math.log(1 - MOVED) + logStructure(measured, groups)
      : logStructure(measured, moved.whole) + logMoveBy(measured, moved, by) - logPlane;
  const base = prior + adjusted.logEvidence - laid.length * logPlane;
  return {
    groups,
    construction,
    drawn,
    adjusted,
    quantities: freeQuantities(construction, adjusted),
    moved: moved === null || by === null ? null : { ...moved, by },
    base,
  };
};

/** Log prior of who is laid out by which groups, and of each group. */
const logStructure = (measured: Measured, groups: readonly Group[]): number =>
  logPartition(
    groups.map((g) => laidBy(g, measured)),
    measured.fasteners,
    measured.sorts,
  ) + groups.reduce((s, g) => s + logGroup(g, measured), 0);

/** How far a moved hole is from its place in the adjusted composition, mm; null where that has no place for it. */
const moveOf = (measured: Measured, { feature, whole }: Moved, parameters: readonly number[]): number | null => {
  const place = construct(measured, whole).construction.places.get(feature);
  const seen = measured.points[feature];
  return place === undefined || seen === undefined ? null : distance(positionOf(place, parameters), seen);
};

/** Log of the chance that just this hole was moved, times the density of where it is. */
const logMoveBy = (measured: Measured, { feature, whole }: Moved, by: number): number => {
  const sigma = spread(measured, feature) / Math.SQRT2;
  const count = whole.reduce((s, g) => s + g.members.length, 0);
  return Math.log(MOVED / count) + logMoved(by, sigma, farthestMove(measured, sigma));
};

/** The most that a composition can come to. */
export const mostOf = (d: Drafted): number => d.base + d.quantities.most;

export const weigh = (d: Drafted): Composition => {
  const ways = settle(d.construction, d.quantities);
  const logs = ways.map((w) => d.base + w.logRatio);
  return { ...d, ways, logs, log: logSum(logs) };
};

const FITS = 0.01;

/**
 * Whether one group fixes every fastener's place against the others and fits: then nothing is left for rough work to
 * explain.
 */
export const isPlain = (c: Drafted | undefined, measured: Measured): boolean => {
  const [group, other] = c?.groups ?? [];
  if (
    c === undefined ||
    group === undefined ||
    other !== undefined ||
    laidBy(group, measured).length < measured.fasteners.length
  )
    return false;
  if (group.kind !== 'divided' && group.kind !== 'array' && group.kind !== 'grid') return false;
  const dof = 2 * c.construction.places.size - c.adjusted.parameters.length;
  return chiSquareTail(c.adjusted.chi2, dof) >= FITS;
};

/**
 * Equal divisions that beat the same circle undivided by this much leave no room for a weaker rule of the same holes,
 * nats.
 */
const DECIDED = 12;

/**
 * Whether equal divisions of one circle so plainly make the whole face that symmetries and compositions of several
 * groups need not be looked at.
 */
export const isDecided = (first: Drafted | undefined, alone: readonly Drafted[], measured: Measured): boolean => {
  if (first === undefined || !isPlain(first, measured) || first.groups[0]?.kind !== 'divided') return false;
  const rings = alone.filter(
    (d) => d.groups[0]?.kind === 'circle' && d.groups[0].members.length === measured.fasteners.length,
  );
  return rings.length > 0 && rings.every((d) => first.base - d.base > DECIDED);
};
