import { say, speechFor, sayTimes } from '@fayplate/core';
import type { Face, Feature, Job, Reading } from '@fayplate/job';
import { prove } from '@fayplate/machining';
import { type AlreadyCut, type Plate, tryPlate, usualDrilling } from '@fayplate/plate';
import { platedFaces } from '../located.js';
import type { Study } from '../types.js';

/** Whether a plate that was made to the sheets of an earlier state serves the present one. */
export interface StillGood {
  readonly good: boolean;
  /** `as measured`: by its own readings; `as drawn`: drilled to the earlier sheets, within the ± of drilling. */
  readonly by: 'as measured' | 'as drawn';
  readonly goesOn: ReadonlyMap<string, { readonly probability: number; readonly slack: number }>;
  /** What counts against it, in words. */
  readonly fails: readonly string[];
}

const plain = { thread: null, vacant: false, stands: null, deep: null, lean: null, height: null, clock: null } as const;

/**
 * The earlier plate as if it had been measured in one bench frame: each cut where it was drawn, within the ± of
 * drilling.
 */
const asDrilled = (before: Plate, names: ReadonlyMap<string, string>, drilling: number): Face => {
  const cuts = [...before.holes, ...before.bores].filter((c) => names.has(c.id));
  const read = cuts.map((c, i): Reading => ({
    id: String(i + 1),
    text: `at ${names.get(c.id) ?? ''}`,
    kind: 'at',
    features: [names.get(c.id) ?? ''],
    value: 0,
    point: { x: c.x, y: c.y },
    plusMinus: drilling,
    instrument: null,
    aside: false,
    note: null,
    unit: 'mm',
    place: { line: 1, column: 1 },
  }));
  return {
    name: 'drilled',
    viewed: 'from side B',
    centre: null,
    up: null,
    across: null,
    features: cuts.map((c): Feature => ({
      ...plain,
      id: names.get(c.id) ?? '',
      kind: 'as' in c ? 'hole' : 'bore',
      diameter: null,
      diameterFrom: null,
    })),
    readings: read,
    layout: { kind: 'measured' },
    flange: null,
    shaft: null,
    shaftSizes: null,
    rim: [],
    standard: null,
  };
};

/** Each cut of the earlier plate → the cut of the present one that is for the same. */
const namesNow = (before: Plate, now: Plate): ReadonlyMap<string, string> =>
  new Map(
    [...before.holes, ...before.bores].flatMap((c) => {
      const same = [...now.holes, ...now.bores].find((n) =>
        c.feature === null ? n.feature === null && n.id === c.id : n.feature === c.feature && 'as' in n === 'as' in c,
      );
      return same === undefined ? [] : [[c.id, same.id] as const];
    }),
  );

/**
 * Is a plate that was drilled to the earlier sheets, or as its readings have it, still good for the parts as they are
 * known now?
 */
export const stillGood = (before: Study, now: Study): StillGood => {
  const proof = now.proof();
  const { plate, mated } = now.plate();
  if (proof !== null)
    return {
      good: now.verdict().answer === 'yes',
      by: 'as measured',
      goesOn: proof.goesOn,
      fails: now.verdict().answer === 'yes' ? [] : [now.verdict().because],
    };
  const was = before.plate().plate;
  const names = namesNow(was, plate);
  const missing = plate.holes.filter((h) => ![...names.values()].includes(h.id)).map((h) => h.id);
  const job: Job = { ...now.job, drilled: asDrilled(was, names, now.job.plate?.drilling ?? usualDrilling) };
  const drilled = prove(job, plate, mated, { trials: 2000 });
  const already: AlreadyCut = {
    cuts: new Map(
      [...was.holes, ...was.bores].flatMap((c) => {
        const name = names.get(c.id);
        return name === undefined ? [] : [[name, { x: c.x, y: c.y, diameter: c.diameter }] as const];
      }),
    ),
    spoiled: [],
  };
  const used = new Map(platedFaces(now.job).map((f) => [f.name, now.used(f)]));
  const tried = tryPlate(now.job, used, {
    stack: now.stack(),
    benches: now.benches(),
    clocking: plate.clocking,
    already,
  });
  const known = new Set(plate.checks.filter((c) => !c.ok).map((c) => `${c.id} ${c.of.join(' ')}`));
  const broken = tried.ok
    ? tried.fails
        .filter((c) => c.id !== 'goes-on' && !known.has(`${c.id} ${c.of.join(' ')}`))
        .map((c) => `${c.rule}: ${c.of.join(' and ')}`)
    : tried.faults;
  const speech = speechFor(now.job.units);
  const length = (mm: number): string => say(mm, speech, speech.unit === 'in' ? 3 : 2);
  const thick =
    Math.abs(was.thickness - plate.thickness) > (now.stack() === null ? 0.05 : 1e-9) && !thickEnough(now, was.thickness)
      ? [`it is ${length(was.thickness)} thick, and ${length(plate.thickness)} is wanted now`]
      : [];
  const stuck = [...drilled.goesOn]
    .filter(([, f]) => f.slack < 0 || f.probability < 0.95)
    .map(([face, f]) => `it goes on ${face} only ${sayTimes(f.probability)}`);
  const fails = [...stuck, ...(missing.length === 0 ? [] : [`it has no ${missing.join(', ')}`]), ...broken, ...thick];
  return { good: fails.length === 0, by: 'as drawn', goesOn: drilled.goesOn, fails };
};

/** Whether the thickness of the earlier plate, with what shims it had, is in the window of the present chain. */
const thickEnough = (now: Study, thickness: number): boolean => {
  const stack = now.stack();
  if (stack?.worst == null) return false;
  const under = stack.shims.reduce((a, b) => a + b, stack.spacer ?? 0);
  return thickness + under >= stack.worst.from - 1e-9 && thickness + under <= stack.worst.to + 1e-9;
};
