import { type Requirement, say, sayAll, speechFor } from '@fayplate/core';
import { type Midway, type Way, midwayOf, wayWords, wrongWords } from '@fayplate/machining';
import { type Check, tryPlate } from '@fayplate/plate';
import { inKeeping } from '@fayplate/survey';
import { platedFaces } from './located.js';
import type { Study } from './types.js';

/** Trials of whether each way goes on: enough to tell 95 in 100 from less. */
const TRIALS = 1000;

/**
 * How to go on with a plate of which some holes are drilled, or that does not go on as drilled; null where nothing is
 * to be done, or its readings do not agree.
 */
export const midwayIn = (study: Study): Midway | null => {
  const proof = study.proof();
  if (proof === null || proof.laid === undefined || proof.located === null || !inKeeping(proof.located)) return null;
  if (!proof.located.stopped.converged || (proof.soFar === undefined && (proof.ok !== false || isOpen(proof))))
    return null;
  const job = study.named();
  const { plate, mated } = study.plate();
  const used = new Map(platedFaces(job).map((f) => [f.name, study.used(f)]));
  const speech = speechFor(job.units);
  return midwayOf({
    job,
    plate,
    mated,
    pattern: proof.laid,
    sizes: proof.sizes ?? new Map(),
    drilled: proof.soFar ?? [...plate.holes, ...plate.bores].map((h) => h.id),
    tryIt: (how) =>
      tryPlate(job, used, { stack: study.stack(), benches: study.benches(), clocking: plate.clocking, ...how }),
    say: (c) => checkWords(c, (mm) => say(mm, speech, speech.unit === 'in' ? 3 : 2)),
    trials: TRIALS,
  });
};

/** Whether something of the drilled plate is still to be measured, before anything is done about it. */
const isOpen = (proof: NonNullable<ReturnType<Study['proof']>>): boolean =>
  proof.unmeasured.length > 0 || !proof.handSure;

const checkWords = (c: Check, length: (mm: number) => string): string =>
  `${c.rule}, ${sayAll(c.of)}: ${c.unit === 'mm' ? length(c.value) : c.value.toFixed(2)}, and ` +
  `${c.unit === 'mm' ? length(c.limit) : c.limit.toFixed(2)} at ${c.sense} is asked`;

/** The first way that does and is no scrap; null where only scrap is left. */
const bestWay = (m: Midway): Way | null => m.ways.find((w) => w.holds && w.kind !== 'scrap') ?? null;

/** Whether filing holes of the parts alone lets the plate go on. */
const easesPart = (study: Study): boolean => {
  const stuck = [...(study.proof()?.goesOn.values() ?? [])].filter((f) => f.slack < 0);
  return (
    stuck.length > 0 && stuck.every((f) => f.ease[0] !== undefined && f.ease[0].eases.every((e) => e.inPart === true))
  );
};

/** What the plate has to fulfil midway: going on as drawn must do; where it does not, the best way is the cure. */
export const midwayRequirements = (study: Study): readonly Requirement[] => {
  const m = study.midway();
  if (m === null) return [];
  const goOn = m.ways.find((w) => w.kind === 'go on');
  const speech = speechFor(study.job.units);
  const best = bestWay(m);
  const holds = goOn?.holds === true;
  const wrong = sayAll(m.wrong.map((w) => wrongWords(w, speech)));
  return [
    {
      id: 'drilled-so-far',
      title: m.left.length === 0 ? 'drilled plate' : 'drilled so far',
      state: holds ? 'holds' : 'fails',
      value: null,
      limit: null,
      margin: null,
      unit: 'mm',
      source: 'the readings of the drilled plate',
      because: holds
        ? `what is drilled so far is good; ${sayAll(m.left)} ${m.left.length === 1 ? 'is' : 'are'} still to drill`
        : [
            wrong === '' ? 'the plate does not do as it is drilled' : wrong,
            ...(goOn?.fails[0] === undefined ? [] : [`with the rest as drawn ${goOn.fails[0]}`]),
          ].join(', and '),
      cure: holds
        ? null
        : best === null
          ? easesPart(study)
            ? 'nothing on the plate does: ease the part as the proof says, or scrap it'
            : 'nothing else does: scrap it, see the proof'
          : `${wayWords(best, m, speech)} (see the proof)`,
      ...(holds
        ? {}
        : { cureAtBench: `${best === null ? 'nothing else does: scrap it' : wayWords(best, m, speech)} (see Proof)` }),
    },
  ];
};
