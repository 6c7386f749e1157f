import { randomFrom } from '@fayplate/core';
import type { Reading } from '@fayplate/job';
import { adjust } from '../../src/adjust/adjust.js';
import type { Adjustment } from '../../src/adjust/adjustment.js';
import { systemOf } from '../../src/adjust/system.js';
import { networkOf } from '../../src/network/network.js';
import { CRITICAL, wOf } from '../../src/suspects/standardized.js';
import { snoop } from '../../src/suspects/snoop.js';
import type { Survey } from '../../src/index.js';
import { type Shop, ringShop } from '../shops.js';
import { simulate } from '../simulate.js';
import { reading, survey } from '../support.js';

/** Share of trials, and its standard error from the share that theory names. */
export interface Rate {
  readonly trials: number;
  readonly share: number;
}

/** Ten studs and their spigot, every pair of studs read: enough that most readings have redundancy above one half. */
const wellRead = (seed: number): Shop => {
  const shop = ringShop(10, randomFrom(seed));
  const ids = [...shop.truth.keys()].filter((id) => id !== 'S');
  const pairs = ids.flatMap((a, i) =>
    ids.slice(i + 1).map((b, k) => reading(`${(i + k) % 2 === 0 ? 'over' : 'between'} ${a} ${b}`, 0, 0.1)),
  );
  const readings = [...ids.map((id) => reading(`between ${id} S`, 0, 0.1)), ...pairs];
  return { ...shop, template: survey(shop.template.face.features, readings, { centre: 'S', up: 'P1' }) };
};

interface Trial {
  readonly survey: Survey;
  readonly start: Float64Array;
  readonly clean: Adjustment;
}

const trial = (seed: number): Trial => {
  const shop = wellRead(seed);
  const { survey, start } = simulate(shop.template, shop.truth, randomFrom(seed + 7));
  return { survey, start, clean: adjust(networkOf(survey), start) };
};

const spoilt = (s: Survey, errors: ReadonlyMap<string, number>): Survey => ({
  ...s,
  face: {
    ...s.face,
    readings: s.face.readings.map((r): Reading => ({ ...r, value: r.value + (errors.get(r.id) ?? 0) })),
  },
});

/** `count` readings with redundancy of one half or more, in an order drawn from the seed. */
const chosen = ({ survey, clean }: Trial, seed: number, count: number): readonly Reading[] => {
  const random = randomFrom(seed + 13);
  const sound = survey.face.readings.filter((_, i) => (clean.redundancy[i] ?? 0) >= 0.5);
  return sound
    .map((r) => ({ r, key: random.uniform() }))
    .sort((a, b) => a.key - b.key)
    .slice(0, count)
    .map((x) => x.r);
};

const suspectsOf = (s: Survey, start: Float64Array): readonly string[] => {
  const network = networkOf(s);
  const system = systemOf(network);
  return snoop(adjust(network, start, { system }), system).map((f) => network.observations[f.index]?.id ?? '');
};

/**
 * How often `planted` errors of `size` σ, of either sign, are exactly the suspects that snooping names (`exact`), or
 * among them (`named`).
 */
export const planted = (
  trials: number,
  seed: number,
  count: number,
  size: number,
): { readonly named: Rate; readonly exact: Rate } => {
  let named = 0;
  let exact = 0;
  for (let k = 0; k < trials; k++) {
    const t = trial(seed + k);
    const targets = chosen(t, seed + k, count);
    const errors = new Map(targets.map((r, i) => [r.id, ((i + k) % 2 === 0 ? 1 : -1) * size * (r.plusMinus / 2)]));
    const found = suspectsOf(spoilt(t.survey, errors), t.start);
    const all = targets.every((r) => found.includes(r.id));
    if (all) named++;
    if (all && found.length === targets.length) exact++;
  }
  return { named: { trials, share: named / trials }, exact: { trials, share: exact / trials } };
};

/** How often an error of `size` σ/√r in one reading lifts that reading's own |w| above the critical value. */
export const flagged = (trials: number, seed: number, size: number): Rate => {
  let hits = 0;
  for (let k = 0; k < trials; k++) {
    const t = trial(seed + k);
    const [target] = chosen(t, seed + k, 1);
    if (target === undefined) continue;
    const i = t.survey.face.readings.indexOf(target);
    const error = (size * (target.plusMinus / 2)) / Math.sqrt(t.clean.redundancy[i] ?? 1);
    const a = adjust(networkOf(spoilt(t.survey, new Map([[target.id, error]]))), t.start);
    if (Math.abs(wOf(a, i) ?? 0) > CRITICAL) hits++;
  }
  return { trials, share: hits / trials };
};

/** Alarms per checked observation in jobs without gross errors, and jobs with at least one alarm. */
export const alarms = (trials: number, seed: number): { readonly perReading: Rate; readonly perJob: Rate } => {
  let checked = 0;
  let raised = 0;
  let jobs = 0;
  for (let k = 0; k < trials; k++) {
    const { clean } = trial(seed + k);
    const ws = clean.network.observations.flatMap((_, i) => wOf(clean, i) ?? []);
    const over = ws.filter((w) => Math.abs(w) > CRITICAL).length;
    checked += ws.length;
    raised += over;
    if (over > 0) jobs++;
  }
  return { perReading: { trials: checked, share: raised / checked }, perJob: { trials, share: jobs / trials } };
};
