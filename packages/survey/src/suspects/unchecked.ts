import { oncePer } from '@fayplate/core';
import type { Reading } from '@fayplate/job';
import type { Adjustment } from '../adjust/adjustment.js';
import type { Placed } from '../frame/placed.js';
import { sizeOf } from '../frame/located.js';
import type { Observation } from '../network/observation.js';
import { observe } from '../network/observe.js';
import type { FeatureSlots } from '../network/unknowns.js';
import { type Rough, canBeRead, candidatesFor, toolsOf } from '../next/candidates.js';
import type { UncheckedReading } from '../types.js';
import { detectableError } from './standardized.js';

/**
 * Where less than this share of an error shows in a reading's own residual, a misreading would hardly show: 18 times
 * its ± and more.
 */
const HARDLY = 0.05;
/**
 * A further reading is worth naming as a check where it lifts that share to this; else the reading is to be taken
 * again.
 */
const CHECKS = 0.3;
/** Readings looked into, and features that partners are thought of among. */
const MOST = { readings: 40, partners: 20 } as const;

/** Columns of the inverse of the normal equations, each solved once. */
type Column = (unknown: number) => Float64Array;

const columnsOf = ({ network, solve }: Adjustment): Column =>
  oncePer((unknown: number) => solve(new Float64Array(network.unknowns.count).fill(1, unknown, unknown + 1)));

const slopesOf = ({ values }: Adjustment, o: Observation): Float64Array => {
  const slopes = new Float64Array(o.unknowns.length);
  o.model(values, slopes);
  return slopes;
};

/** The reading not taken yet that checks one best, and the share of its error that would then show. */
const bestCheck = (
  adjustment: Adjustment,
  column: Column,
  o: Observation,
  redundancy: number,
  own: readonly FeatureSlots[],
  candidates: readonly Reading[],
): string | null => {
  if (candidates.length === 0) return null;
  const { zeros } = adjustment.network.unknowns;
  const lead = new Set([...own.flatMap((f) => [f.x, f.y, f.radius ?? f.x]), ...zeros.values()]);
  const slopes = slopesOf(adjustment, o);
  const solved = new Float64Array(adjustment.network.unknowns.count);
  for (const [k, u] of o.unknowns.entries())
    for (const [i, c] of column(u).entries()) solved[i] = (solved[i] as number) + (slopes[k] as number) * c;
  /** Of two unknowns of one other feature the adjustment has it at hand. */
  const cofactor = (u: number, v: number): number => {
    const known = [u, v].find((w) => lead.has(w));
    return known === undefined ? adjustment.cofactor(u, v) : (column(known)[known === u ? v : u] as number);
  };
  let best: { readonly text: string; readonly share: number } | null = null;
  for (const reading of candidates) {
    const [q] = observe(reading, adjustment.network.unknowns);
    if (q === undefined) continue;
    const g = slopesOf(adjustment, q);
    let [shared, all] = [0, 0];
    for (const [k, u] of q.unknowns.entries()) {
      shared += (g[k] as number) * (solved[u] as number);
      for (const [l, v] of q.unknowns.entries()) all += (g[k] as number) * (g[l] as number) * cofactor(u, v);
    }
    const share = redundancy + shared ** 2 / ((q.sigma ** 2 + all) * o.sigma ** 2);
    if (share >= CHECKS && (best === null || share > best.share + 0.01)) best = { text: reading.text, share };
  }
  return best?.text ?? null;
};

/**
 * Readings that hardly anything checks, with the least error of each that would show and the reading that would check
 * it: another on the same features where there is one, else the same again. (Internal reliability: Baarda 1968.)
 * Square, line and flush carry no number to misread.
 */
export const uncheckedReadings = (adjustment: Adjustment, placed: readonly Placed[]): readonly UncheckedReading[] => {
  const { network, redundancy } = adjustment;
  const { face, instruments } = network;
  const tools = toolsOf(face, instruments);
  const rough = placed.flatMap((p): readonly Rough[] => {
    const feature = face.features.find((f) => f.id === p.slots.id);
    if (feature === undefined || !canBeRead(feature)) return [];
    return [{ feature, at: p.point, radius: sizeOf(adjustment, p.slots).radius }];
  });
  const unchecked = network.observations.flatMap((o, i) => {
    const r = redundancy[i] as number;
    // Of a run-out the travel alone is a number read; the other part says in which direction.
    const part = o.kind === 'runout' && !o.id.endsWith('.along');
    const silent = part || o.kind === 'square' || o.kind === 'line' || o.kind === 'flush' || o.kind === 'zero';
    return r < HARDLY && !silent ? [{ o, r }] : [];
  });
  const column = columnsOf(adjustment);
  return unchecked.map(({ o, r }, n): UncheckedReading => {
    const id = o.reading?.features ?? [o.id.replace(/^diameter /, '')];
    const own = rough.filter((p) => id.includes(p.feature.id));
    const slots = placed.flatMap((p) => (id.includes(p.slots.id) ? [p.slots] : []));
    const candidates =
      n >= MOST.readings
        ? []
        : own.flatMap((a) => [
            ...candidatesFor(face, a, null, tools),
            ...rough.slice(0, MOST.partners).flatMap((b) => (a === b ? [] : candidatesFor(face, a, b, tools))),
          ]);
    const again = o.kind === 'diameter' ? `dia ${id[0] ?? ''}` : (o.text.split('=')[0] ?? '').trim();
    return {
      reading: o.id,
      text: again,
      measures: o.measures,
      detectable: detectableError(o.sigma, r),
      check: bestCheck(adjustment, column, o, r, slots, candidates) ?? again,
    };
  });
};
