import { distance } from '@fayplate/core';
import { adjust, type Adjusted } from '../fit/adjust.js';
import { type Construction, draft, linear, positionOf } from '../fit/construction.js';
import type { Whitening } from '../fit/whiten.js';
import { drawGroup } from '../groups/draw.js';
import { logGroup } from '../groups/find.js';
import { type Drawn, type Group, roomOf } from '../groups/group.js';
import type { Measured } from '../measured/points.js';
import { lcm, logSum } from '../prior/logs.js';
import { logStray } from '../prior/stray.js';
import { directions, logPartition } from '../prior/structure.js';
import { type Settled, settle } from './quantise.js';

/** A composition of groups, adjusted with every quantity free, and its ways to settle them. */
export interface Composition {
  readonly groups: readonly Group[];
  readonly construction: Construction;
  readonly drawn: readonly Drawn[];
  readonly adjusted: Adjusted;
  readonly ways: readonly Settled[];
  /** Of each way: log (prior × marginal likelihood), over that of the same centres each anywhere on the face. */
  readonly logs: readonly number[];
  readonly log: number;
  /** A member left out of its place, if the composition is an earlier one with a stray. */
  readonly stray: number | null;
}

/** Draws groups together: one construction, with each direction after the first a quantity against it. */
export const construct = (measured: Measured, groups: readonly Group[], alsoFree: readonly number[] = []): { readonly construction: Construction; readonly drawn: readonly Drawn[] } => {
  const room = roomOf(measured);
  const drafting = draft(measured.points, room.logPlane);
  const drawn = groups.map((g) => drawGroup(g, drafting, room));
  const [first, ...others] = drawn.flatMap((d) => (d.bearing === null ? [] : [d.bearing]));
  for (const bearing of others) {
    if (first === undefined) break;
    const step = (2 * Math.PI) / lcm(first.fold, bearing.fold);
    drafting.quantity({
      what: 'direction',
      value: linear(0, [first.parameter, -1], [bearing.parameter, 1]),
      families: [
        { weight: directions.aligned, step, offset: 0, unit: null },
        { weight: directions.straddling, step, offset: step / 2, unit: null },
      ],
      free: directions.free,
    });
  }
  for (const i of alsoFree) drafting.point(i);
  return { construction: drafting.done(), drawn };
};

/** A feature that may have been meant for a place of `whole` but drilled off it. */
export interface Stray {
  readonly feature: number;
  /** The composition in which it is at its place; same parameters in the same order. */
  readonly whole: Construction;
}

/** Weighs one composition; null where it cannot be adjusted. */
export const weigh = (measured: Measured, groups: readonly Group[], whitening: (indices: readonly number[]) => Whitening, stray: Stray | null = null): Composition | null => {
  const { construction, drawn } = construct(measured, groups);
  const laid = [...construction.places.keys()];
  const adjusted = adjust(construction, measured.points, whitening(laid));
  if (adjusted === null || !adjusted.converged) return null;
  const { logPlane } = roomOf(measured);
  const partition = logPartition(groups.map((g) => g.members), measured.fasteners, measured.sorts);
  const prior = partition + groups.reduce((s, g) => s + logGroup(g, measured), 0);
  const single = stray === null ? 0 : strayGain(measured, stray, adjusted, logPlane);
  const base = prior + adjusted.logEvidence - laid.length * logPlane + single;
  const ways = settle(construction, adjusted);
  const logs = ways.map((w) => base + w.logRatio);
  return { groups, construction, drawn, adjusted, ways, logs, log: logSum(logs), stray: stray?.feature ?? null };
};

/** What it adds that a feature left single lies near the place that it strayed from, rather than anywhere. */
const strayGain = (measured: Measured, stray: Stray, adjusted: Adjusted, logPlane: number): number => {
  const place = stray.whole.places.get(stray.feature);
  const seen = measured.points[stray.feature];
  if (place === undefined || seen === undefined) return 0;
  const away = distance(positionOf(place, adjusted.parameters), seen);
  return logSum([Math.log(0.5), Math.log(0.5) + logStray(away) - logPlane]);
};
