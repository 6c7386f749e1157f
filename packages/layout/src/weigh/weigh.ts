import { chiSquareTail, distance } from '@fayplate/core';
import { type Adjusted, adjust } from '../fit/adjust.js';
import { type Construction, draft, linear, positionOf } from '../fit/construction.js';
import { drawGroup } from '../groups/draw.js';
import { type Drawn, type Group, laidBy, roomOf } from '../groups/group.js';
import { spread } from '../groups/near.js';
import { logGroup } from '../groups/prior.js';
import type { Informing, Measured } from '../measured.js';
import { lcm, logSum } from '../prior/logs.js';
import { STRAYED, directions, logPartition, logStray } from '../prior/structure.js';
import { type FreeQuantities, type Settled, freeQuantities, settle } from './quantise.js';

/** A composition of groups, adjusted with every quantity free. */
export interface Drafted {
  readonly groups: readonly Group[];
  readonly construction: Construction;
  readonly drawn: readonly Drawn[];
  readonly adjusted: Adjusted;
  readonly quantities: FreeQuantities;
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

/** Draws groups together: one construction, with each direction after the first a quantity against it. */
export const construct = (
  measured: Measured,
  groups: readonly Group[],
  alsoFree: readonly number[] = [],
): { readonly construction: Construction; readonly drawn: readonly Drawn[] } => {
  const room = roomOf(measured);
  const drafting = draft(measured.points, room.logPlane);
  const alone = groups.map((g) => drawGroup(g, drafting, room));
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

/** A feature that may have been meant for a place of `whole` but drilled off it. */
export interface Stray {
  readonly feature: number;
  /** The composition in which it is at its place; same parameters in the same order. */
  readonly whole: { readonly groups: readonly Group[]; readonly construction: Construction };
}

/** Draws and adjusts one composition; null where it cannot be adjusted. */
export const draftOf = (
  measured: Measured,
  groups: readonly Group[],
  inform: Informing,
  stray: Stray | null = null,
): Drafted | null => {
  const { construction, drawn } = construct(measured, groups);
  const laid = [...construction.places.keys()];
  const adjusted = adjust(construction, measured.points, inform(laid));
  if (adjusted === null || !adjusted.converged) return null;
  const { logPlane } = roomOf(measured);
  const alone = logPartition(
    groups.map((g) => laidBy(g, measured)),
    measured.fasteners,
    measured.sorts,
  );
  const partition = stray === null ? alone : logSum([alone, strayed(measured, stray, adjusted) - logPlane]);
  const prior = partition + groups.reduce((s, g) => s + logGroup(g, measured), 0);
  const base = prior + adjusted.logEvidence - laid.length * logPlane;
  return { groups, construction, drawn, adjusted, quantities: freeQuantities(construction, adjusted), base };
};

/** The most that a composition can come to. */
export const mostOf = (d: Drafted): number => d.base + d.quantities.most;

export const weigh = (d: Drafted): Composition => {
  const ways = settle(d.construction, d.quantities);
  const logs = ways.map((w) => d.base + w.logRatio);
  return { ...d, ways, logs, log: logSum(logs) };
};

/**
 * Log of: the prior of the partition in which the feature is at its place, that this one strayed from it, and the
 * density of where it is.
 */
const strayed = (measured: Measured, stray: Stray, adjusted: Adjusted): number => {
  const place = stray.whole.construction.places.get(stray.feature);
  const seen = measured.points[stray.feature];
  if (place === undefined || seen === undefined) return Number.NEGATIVE_INFINITY;
  const away = distance(positionOf(place, adjusted.parameters), seen);
  const members = stray.whole.groups.map((g) => g.members);
  const chance = Math.log(STRAYED / members.flat().length);
  return (
    logPartition(members, measured.fasteners, measured.sorts) +
    chance +
    logStray(away, spread(measured, stray.feature) / Math.SQRT2)
  );
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
