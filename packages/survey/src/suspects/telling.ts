import type { Reading } from '@fayplate/job';
import type { Adjustment } from '../adjust/adjustment.js';
import { placeAll } from '../frame/placed.js';
import { sizeOf } from '../frame/located.js';
import type { Observation } from '../network/observation.js';
import { observe } from '../network/observe.js';
import { type Rough, canBeRead, candidatesFor, toolsOf } from '../next/candidates.js';
import type { TellingReading } from '../types.js';
import type { Explained } from './hypothesis.js';

/** Features whose further readings are thought of: those of the readings in doubt, and so many others. */
const OTHERS = 16;
/** What a reading foreseen from the rest may be off by, in its own standard uncertainties. */
const FORESEEN = 1.5;
/** A reading is worth taking where it leaves less than this of the doubt. */
const WORTH = 0.9;

/**
 * How much of the doubt is left after a reading foreseen so by each explanation: the odds of pairs that it cannot tell
 * apart.
 */
const doubtLeft = (odds: readonly number[], foreseen: readonly number[], sigma: number): number => {
  let left = 0;
  for (const [i, p] of odds.entries())
    for (const [j, q] of odds.entries()) {
      const apart = ((foreseen[i] ?? 0) - (foreseen[j] ?? 0)) / (FORESEEN * sigma);
      if (i !== j) left += p * q * Math.exp((-apart * apart) / 8);
    }
  return left;
};

/** Readings not taken yet that reach the features in doubt. */
const further = (base: Adjustment, hypotheses: Explained['hypotheses']): readonly Reading[] => {
  const { network } = base;
  const { face, instruments } = network;
  const tools = toolsOf(face, instruments);
  const doubted = new Set(
    hypotheses.flatMap((h) => h.wrong.flatMap((i) => network.observations[i]?.reading?.features ?? [])),
  );
  const rough = placeAll(base).placed.flatMap((p): readonly Rough[] => {
    const feature = face.features.find((f) => f.id === p.slots.id);
    if (feature === undefined || !canBeRead(feature)) return [];
    return [{ feature, at: p.point, radius: sizeOf(base, p.slots).radius }];
  });
  const near = rough.filter((r) => doubted.has(r.feature.id));
  const all = [...near, ...rough.filter((r) => !doubted.has(r.feature.id)).slice(0, OTHERS)];
  return near
    .slice(0, OTHERS)
    .flatMap((a, i) => [
      ...candidatesFor(face, a, null, tools),
      ...all.slice(i + 1).flatMap((b) => candidatesFor(face, a, b, tools)),
    ]);
};

/**
 * The one reading, taken again or for the first time, that leaves least doubt among explanations; null where none tells
 * them apart.
 */
export const tellingReading = (base: Adjustment, hypotheses: Explained['hypotheses']): TellingReading | null => {
  if (hypotheses.length < 2) return null;
  const { network } = base;
  const sum = hypotheses.reduce((s, h) => s + h.odds, 0);
  const odds = hypotheses.map((h) => h.odds / sum);
  const before = doubtLeft(
    odds,
    odds.map(() => 0),
    1,
  );
  const weighed = (o: Observation, foreseen: readonly number[], again: string | null) => ({
    reading: again === null ? o.text : (o.text.split('=')[0] ?? '').trim(),
    again,
    instrument: o.reading?.instrument ?? null,
    measures: o.measures,
    plusMinus: 2 * o.sigma,
    foreseen,
    left: doubtLeft(odds, foreseen, o.sigma),
  });
  const anew = [...new Set(hypotheses.flatMap((h) => h.wrong))].flatMap((i) => {
    const o = network.observations[i];
    if (o === undefined || o.reading === null) return [];
    // A reading that is not wrong reads the same again.
    const foreseen = hypotheses.map((h) => (h.wrong.includes(i) ? o.model(h.rest.values) : o.value));
    return [weighed(o, foreseen, o.id)];
  });
  const more = further(base, hypotheses).flatMap((r) => {
    const [o] = observe(r, network.unknowns);
    if (o === undefined) return [];
    return [
      weighed(
        o,
        hypotheses.map((h) => o.model(h.rest.values)),
        null,
      ),
    ];
  });
  const best = [...anew, ...more].reduce<ReturnType<typeof weighed> | null>(
    (a, b) => (a === null || b.left < a.left - 1e-3 * before ? b : a),
    null,
  );
  if (best === null || best.left > WORTH * before) return null;
  const { reading, again, instrument, measures, foreseen, plusMinus } = best;
  return { reading, again, instrument, measures, foreseen, plusMinus };
};
