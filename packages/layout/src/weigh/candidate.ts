import { type Point, chiSquareTail, distance } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import type { Pattern } from '@fayplate/survey';
import { adjust, carryCovariance, rowsOf, slopesOfPlaces } from '../fit/adjust.js';
import { holdAll, positionOf } from '../fit/construction.js';
import { type Drawn, type Group, laidBy } from '../groups/group.js';
import type { Informing, Measured } from '../measured.js';
import type { Candidate, LaidFeature } from '../types.js';
import { sayLayout } from '../words/candidate.js';
import { type Answering, conditions, decidedBy, intoFrame } from './frame.js';
import { type Placed, arrayOf, circleOf, followingMirror, gridOf, mirrorOf } from './laid.js';
import type { Settled } from './quantise.js';
import { type Composition, construct } from './weigh.js';

/** What a candidate is reported against: the face's own frame, centres and words. */
export interface Reporting {
  /** Free of any frame: what the odds are judged by. */
  readonly free: Measured;
  /** In the face's frame, whose origin and direction are exact: what is answered. */
  readonly measured: Measured;
  readonly answering: Answering;
  readonly radii: readonly (number | null)[];
  /** 95 % radius of each measured centre, mm. */
  readonly within: readonly number[];
  readonly kindOf: (id: string) => FeatureKind;
  readonly inform: Informing;
}

/**
 * Adjusts a composition with its quantities settled, every other centre of the face free, and tells it in the face's
 * frame.
 */
export const candidate = (
  reporting: Reporting,
  groups: readonly Group[],
  way: Settled,
  odds: number,
): Candidate | null => {
  const { measured, answering } = reporting;
  const everything = measured.ids.map((_, i) => i);
  const laid = new Set(groups.flatMap((g) => [...g.members, ...('feature' in g.about ? [g.about.feature] : [])]));
  const { construction: open, drawn } = construct(
    measured,
    groups,
    everything.filter((i) => !laid.has(i)),
  );
  const held = holdAll(open, way.values);
  const adjusted = adjust(held, measured.points, reporting.inform(everything));
  if (adjusted === null) return null;
  const fitted = everything.map((i): Point => {
    const place = held.places.get(i);
    if (place === undefined) throw new RangeError('candidate: a centre has no place');
    return positionOf(place, adjusted.parameters);
  });
  const parameters = adjusted.parameters.length;
  // Three coordinates are exact by choice of frame, no observations; a parameter that only they decide is none either.
  const slopes = slopesOfPlaces(held, adjusted.parameters, everything.length);
  const decided = decidedBy(conditions(measured.ids, fitted, answering), slopes, parameters);
  const dof = 2 * everything.length - 3 - (parameters - decided);
  const framed = intoFrame(
    measured.ids,
    fitted,
    carryCovariance(slopes, adjusted.covariance, 2 * everything.length, parameters),
    answering,
  );
  const placed: Placed = {
    ids: measured.ids,
    construction: held,
    parameters: adjusted.parameters,
    way,
    move: framed.move,
    turn: framed.turn,
    framed: framed.points,
  };
  const told = <T>(how: (p: Placed, d: Drawn) => T | null): readonly T[] => drawn.flatMap((d) => how(placed, d) ?? []);
  const idsOf = (members: readonly number[]): readonly string[] => members.map((i) => measured.ids[i] ?? '');
  const opposite = groups.flatMap((g) => (g.kind === 'opposite' ? idsOf(g.members) : []));
  const circles = told(circleOf);
  const arrays = told(arrayOf);
  const [said] = told(mirrorOf);
  const [grid] = told(gridOf);
  const centre =
    circles[0]?.centre ??
    arrays[0]?.centre ??
    (grid === undefined ? null : (framed.points[measured.ids.indexOf(grid.from)] ?? null));
  const parts = {
    circles,
    arrays,
    grid: grid ?? null,
    mirror: said ?? (centre === null ? null : followingMirror(measured, framed.points, centre)),
    opposite: opposite.length === 0 ? null : opposite,
    asMeasured: idsOf(measured.fasteners.filter((f) => !groups.some((g) => laidBy(g, measured).includes(f)))),
  };
  const pattern: Pattern = {
    ids: measured.ids,
    points: framed.points,
    radii: reporting.radii,
    covariance: rowsOf(framed.covariance, 2 * everything.length),
  };
  return {
    ...parts,
    says: sayLayout(parts, reporting.kindOf, { unit: 'mm', fraction: null }),
    chi2: adjusted.chi2,
    dof,
    p: dof > 0 ? chiSquareTail(adjusted.chi2, dof) : null,
    odds,
    features: new Map(
      measured.fasteners.map((i): [string, LaidFeature] => [
        measured.ids[i] ?? '',
        shiftOf(framed.points[i], measured.points[i], reporting.within[i]),
      ]),
    ),
    pattern,
  };
};

const shiftOf = (at: Point | undefined, seen: Point | undefined, within: number | undefined): LaidFeature => {
  if (at === undefined || seen === undefined) throw new RangeError('candidate: a centre is missing');
  return { x: at.x, y: at.y, shift: distance(at, seen), within: within ?? 0 };
};

/** Whether two candidates imply the same drawing: the same positions with the same freedom. */
export const sameDrawing = (a: Candidate, b: Candidate): boolean => {
  const far = a.pattern.points.some((p, i) => distance(p, b.pattern.points[i] ?? p) > 1e-5);
  if (far || a.dof !== b.dof) return false;
  return a.pattern.covariance.every((row, i) =>
    row.every((v, j) => Math.abs(v - (b.pattern.covariance[i]?.[j] ?? 0)) < 1e-6),
  );
};

/**
 * Candidates are listed, none or two at the least, until what is left has less than these odds together, or so many are
 * listed.
 */
const LEFT = 0.002;
const MOST_LISTED = 48;

export interface Weighed {
  readonly composition: Composition;
  readonly way: Settled;
  readonly odds: number;
}

/**
 * Hypotheses told as candidates. Those that imply the same drawing, the same positions with the same freedom (a square
 * of free size and four equal divisions of a free circle), are one candidate in the words of the likelier. Likeliest
 * arrangement first, and within it the likeliest sizes:
 * sizes that the readings cannot settle do not push the right arrangement behind a wrong one. The few left out have
 * their odds shared out.
 */
export const list = (
  reporting: Reporting,
  all: readonly Weighed[],
  asMeasured: number,
): { readonly candidates: readonly Candidate[]; readonly asMeasured: number } => {
  const listed: { candidate: Candidate; readonly composition: Composition }[] = [];
  let left = 1 - asMeasured;
  for (const { composition, way, odds } of [...all].sort((a, b) => b.odds - a.odds).slice(0, MOST_LISTED)) {
    if (left < LEFT && listed.length !== 1) break;
    const made = candidate(reporting, composition.groups, way, odds);
    if (made === null) continue;
    left -= odds;
    const same = listed.find((l) => sameDrawing(l.candidate, made));
    if (same === undefined) listed.push({ candidate: made, composition });
    else same.candidate = { ...same.candidate, odds: same.candidate.odds + odds };
  }
  const sum = asMeasured + listed.reduce((s, l) => s + l.candidate.odds, 0);
  const whole = (c: Composition): number =>
    listed.reduce((s, l) => s + (l.composition === c ? l.candidate.odds : 0), 0);
  return {
    asMeasured: asMeasured / sum,
    candidates: listed
      .map((l) => ({ candidate: { ...l.candidate, odds: l.candidate.odds / sum }, whole: whole(l.composition) }))
      .sort((a, b) => b.whole - a.whole || b.candidate.odds - a.candidate.odds)
      .map((l) => l.candidate),
  };
};
