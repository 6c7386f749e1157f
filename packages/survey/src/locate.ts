import { type Motion, chiSquareTail, distance } from '@fayplate/core';
import type { Adjustment } from './adjust/adjustment.js';
import { coincidentIn } from './adjust/coincident.js';
import { type Settled, settle } from './adjust/settle.js';
import { bodiesOf } from './frame/bodies.js';
import { centreCovariances, jointCovariance } from './frame/covariance.js';
import { type Datum, datumOf } from './frame/datum.js';
import { ellipse95 } from './frame/ellipse.js';
import { freedomsOf } from './freedoms/freedoms.js';
import { type Placed, isStill, placeIn, shareOf } from './frame/placed.js';
import { sizeOf } from './frame/sizes.js';
import { guessFor } from './guess/suspect.js';
import { type Network, networkOf } from './network/network.js';
import { nextReadings } from './next/next.js';
import { startPositions } from './start/start.js';
import { ALPHA, detectableError } from './suspects/critical.js';
import { type SetAside, snoop } from './suspects/snoop.js';
import { isTied, wOf } from './suspects/w.js';
import type { FittedReading, LocatedFace, LocatedFeature, Suspect, Survey } from './types.js';

export interface LocateOptions {
  /** Ids as in `FittedReading` to leave out (a reading, one of an `at`'s two, a stated diameter), beside what the job itself sets aside. */
  readonly setAside?: readonly string[];
  /** Whether to rank readings worth taking next; true unless told. */
  readonly next?: boolean;
}

/** The frame of a face and every feature that the readings fix in it. */
export const placeAll = (adjustment: Adjustment): { readonly datum: Datum; readonly placed: readonly Placed[] } => {
  const { network, values, nullSpace } = adjustment;
  const { face, unknowns } = network;
  const needsWhole = face.across === null && (face.centre === null || face.up === null);
  const whole = needsWhole ? (bodiesOf(adjustment, face.centre)[0] ?? []) : [];
  const datum = datumOf(face, unknowns, values, whole);
  const shares = nullSpace.map((v) => shareOf(datum, v));
  const placed = [...unknowns.features.values()]
    .map((slots) => placeIn(datum, values, slots))
    .filter(({ axes, slots }) => shares.every((share, k) => axes.every((axis) => isStill(axis, slots, nullSpace[k] ?? values, share))));
  return { datum, placed };
};

const locatedFeatures = (adjustment: Adjustment, datum: Datum, placed: readonly Placed[]): ReadonlyMap<string, LocatedFeature> => {
  const covarianceAt = centreCovariances(adjustment, datum);
  return new Map(
    placed.map((p) => {
      const covariance = covarianceAt(p);
      const { radius, sigma } = sizeOf(adjustment, p.slots);
      return [p.slots.id, { id: p.slots.id, ...p.point, radius, radiusSigma: sigma, covariance, ellipse95: ellipse95(covariance) }];
    }),
  );
};

const fittedReadings = (adjustment: Adjustment): readonly FittedReading[] =>
  adjustment.network.observations.map((o, i) => {
    const residual = adjustment.residuals[i] as number;
    return {
      id: o.id,
      text: o.text,
      kind: o.kind,
      measures: o.measures,
      value: o.value,
      fitted: o.value - residual,
      residual,
      sigma: o.sigma,
      standardized: wOf(adjustment, i),
      redundancy: adjustment.redundancy[i] as number,
      detectable: detectableError(o.sigma, adjustment.redundancy[i] as number),
    };
  });

/** How far each centre that stands in both moves from one adjustment to the other, each in the face's own frame, mm. */
const movesBetween = (before: Adjustment, after: Adjustment): ReadonlyMap<string, number> => {
  const then = new Map(placeAll(after).placed.map((p) => [p.slots.id, p.point]));
  return new Map(
    placeAll(before).placed.flatMap((p): readonly (readonly [string, number])[] => {
      const there = then.get(p.slots.id);
      return there === undefined ? [] : [[p.slots.id, distance(p.point, there)]];
    }),
  );
};

/** `clean`: the readings adjusted with every suspect set aside, against which a guess is made at what happened. */
const suspectFrom = ({ index, w, redundancy, tied, before, after }: SetAside, clean: Adjustment): Suspect => {
  const { observations } = before.network;
  const o = observations[index];
  if (o === undefined) throw new RangeError('a suspect that is not among the observations');
  return {
    reading: o.id,
    measures: o.measures,
    standardized: w,
    error: after.residuals[index] as number,
    detectable: detectableError(o.sigma, redundancy) ?? Number.POSITIVE_INFINITY,
    guess: guessFor({ observation: o, without: clean, expected: o.value - (clean.residuals[index] as number), sigma: o.sigma / Math.sqrt(redundancy) }),
    moves: movesBetween(before, after),
    tiedWith: tied.flatMap((t) => observations[t]?.id ?? []),
  };
};

const suspectsOf = (aside: readonly SetAside[]): readonly Suspect[] => {
  const clean = aside.at(-1)?.after;
  return clean === undefined ? [] : aside.map((one) => suspectFrom(one, clean));
};

/** Chance that at least one sound reading is called suspect: readings that share one |w| raise one alarm between them. */
const falseAlarmOf = (readings: readonly FittedReading[]): number => {
  const ws = readings.flatMap((r) => (r.standardized === null ? [] : [Math.abs(r.standardized)])).sort((a, b) => a - b);
  const apart = ws.filter((w, i) => i === 0 || !isTied(w, ws[i - 1] ?? 0)).length;
  return 1 - (1 - ALPHA) ** apart;
};

const zerosOf = ({ network, values, cofactor }: Adjustment): LocatedFace['zeros'] =>
  new Map([...network.unknowns.zeros].map(([name, slot]) => [name, { measures: network.instruments.get(name)?.measures ?? 'length', value: values[slot] as number, plusMinus: 2 * Math.sqrt(cofactor(slot, slot)) }]));

/** The bench frame as it lies in the face's; null where it does not lie fast. */
const benchOf = (adjustment: Adjustment, { motion }: Datum): Motion | null => (adjustment.network.bench && adjustment.nullSpace.length === 0 ? motion : null);

const unread = (network: Network): readonly string[] =>
  network.face.features.filter((f) => !network.unknowns.features.has(f.id) && f.kind !== 'edge' && !f.vacant).map((f) => f.id);

/** Only the face as a whole can move, and every size is known: there is nothing to say. */
const nothingLoose = (adjustment: Adjustment, placed: readonly Placed[]): boolean =>
  unread(adjustment.network).length === 0 &&
  placed.length === adjustment.network.unknowns.features.size &&
  placed.every(({ slots }) => slots.radius === null || sizeOf(adjustment, slots).radius !== null);

/** Centres that came out in one place, where a distance says nothing of direction. */
const coincidentWords = ({ network, values }: Adjustment): readonly string[] =>
  coincidentIn(network, values).map((i) => {
    const o = network.observations[i];
    const [a = '', b = 'the touched point'] = o?.reading?.features ?? [];
    return `${a} and ${b} come out in one place, so that \`${o?.text ?? ''}\` cannot say in which direction they differ. Read both against other features.`;
  });

/** Features that the readings do not fix, in the order of the face. */
const undeterminedOf = (network: Network, placed: readonly Placed[]): readonly string[] => {
  const fixed = new Set(placed.map((p) => p.slots.id));
  const loose = new Set([...unread(network), ...[...network.unknowns.features.keys()].filter((id) => !fixed.has(id))]);
  return network.face.features.filter((f) => loose.has(f.id)).map((f) => f.id);
};

/**
 * Centres of one face from its readings: weighted least squares, with every centre's covariance in the face's frame,
 * readings that do not fit the rest, and what the readings leave loose. Never throws for what a person can write;
 * where `stopped.converged` is false there is no answer and `features` is empty.
 */
export const locateFace = (survey: Survey, options: LocateOptions = {}): LocatedFace => {
  const network = networkOf(survey, options.setAside);
  return answer(settle(network, startPositions(network)), options.next ?? true);
};

/** What a settled shape has to say. */
export const answer = ({ adjustment, system, hand, warnings }: Settled, next = true): LocatedFace => {
  const { network, stopped, chi2, dof } = adjustment;
  const { datum, placed } = placeAll(adjustment);
  const sound = stopped.converged;
  const readings = fittedReadings(adjustment);
  const undetermined = sound ? undeterminedOf(network, placed) : [];
  const byId = new Map(placed.map((p) => [p.slots.id, p]));
  return {
    name: network.face.name,
    frame: datum.frame,
    features: sound ? locatedFeatures(adjustment, datum, placed) : new Map(),
    readings,
    fit: { dof, chi2, p: dof > 0 ? chiSquareTail(chi2, dof) : null, sumRedundancy: adjustment.redundancy.reduce((s, r) => s + r, 0) },
    suspects: sound ? suspectsOf(snoop(adjustment, system)) : [],
    undetermined,
    freedoms: sound && nothingLoose(adjustment, placed) ? [] : freedomsOf(adjustment, datum, unread(network)),
    next: sound && next ? nextReadings(adjustment, datum, placed, undetermined) : [],
    zeros: zerosOf(adjustment),
    hand,
    bench: benchOf(adjustment, datum),
    falseAlarm: falseAlarmOf(readings),
    stopped,
    warnings: [...warnings, ...datum.warnings, ...coincidentWords(adjustment)],
    covarianceOf: (ids) =>
      jointCovariance(
        adjustment,
        datum,
        ids.map((id) => {
          const p = byId.get(id);
          if (p === undefined || !sound) throw new RangeError(`covarianceOf: ${id} is not located on face ${network.face.name}`);
          return p;
        }),
      ),
  };
};
