import type { Reading } from '@fayplate/job';
import type { Adjustment } from '../adjust/adjustment.js';
import type { Placed } from '../frame/placed.js';
import { sizeOf } from '../frame/sizes.js';
import type { Observation } from '../network/observation.js';
import { observe } from '../network/observe.js';
import { type Rough, canBeRead, candidatesFor } from '../next/candidates.js';
import { toolsOf } from '../next/tools.js';
import type { UncheckedReading } from '../types.js';
import { detectableError } from './critical.js';

/** Where less than this share of an error shows in a reading's own residual, a misreading would hardly show: 18 times its ± and more. */
const HARDLY = 0.05;
/** A further reading is worth naming as a check where it lifts that share to this; else the reading is to be taken again. */
const CHECKS = 0.3;
/** Readings looked into, and features that partners are thought of among. */
const MOST = { readings: 40, partners: 20 } as const;

const rowOf = ({ network, values }: Adjustment, o: Observation): Float64Array => {
  const row = new Float64Array(network.unknowns.count);
  const slopes = new Float64Array(o.unknowns.length);
  o.model(values, slopes);
  for (const [k, u] of o.unknowns.entries()) row[u] = (row[u] as number) + (slopes[k] as number);
  return row;
};

const inner = (a: Float64Array, b: Float64Array): number => a.reduce((sum, v, i) => sum + v * (b[i] as number), 0);

/** The reading not taken yet that checks one best, and the share of its error that would then show. */
const bestCheck = (
  adjustment: Adjustment,
  o: Observation,
  redundancy: number,
  candidates: readonly Reading[],
): string | null => {
  const row = rowOf(adjustment, o);
  const solved = adjustment.solve(row);
  let best: { readonly text: string; readonly share: number } | null = null;
  for (const reading of candidates) {
    const [q] = observe(reading, adjustment.network.unknowns);
    if (q === undefined) continue;
    const other = rowOf(adjustment, q);
    const [shared, own] = [inner(other, solved), inner(other, adjustment.solve(other))];
    const share = redundancy + shared ** 2 / ((q.sigma ** 2 + own) * o.sigma ** 2);
    if (share >= CHECKS && (best === null || share > best.share + 0.01)) best = { text: reading.text, share };
  }
  return best?.text ?? null;
};

/**
 * Readings that hardly anything checks, with the least error of each that would show and the reading that would check it: another on the same
 * features where there is one, else the same again. (Internal reliability: Baarda 1968.) Square, line and flush carry no number to misread.
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
  return unchecked.map(({ o, r }, n): UncheckedReading => {
    const id = o.reading?.features ?? [o.id.replace(/^diameter /, '')];
    const own = rough.filter((p) => id.includes(p.feature.id));
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
      check: bestCheck(adjustment, o, r, candidates) ?? again,
    };
  });
};
