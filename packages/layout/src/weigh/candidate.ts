import { type Point, chiSquareTail, distance } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import type { Pattern } from '@fayplate/survey';
import { adjust, carryCovariance, rowsOf, slopesOfPlaces } from '../fit/adjust.js';
import { holdAll, positionOf } from '../fit/construction.js';
import { type Drawn, type Group, laidBy } from '../groups/group.js';
import type { Informing, Measured } from '../measured.js';
import type { StandardShare } from '../recognise/share.js';
import type { Candidate, LaidFeature, LevelName } from '../types.js';
import { sayLayout } from '../words/candidate.js';
import { type Answering, conditions, decidedBy, intoFrame } from './frame.js';
import { type Placed, arrayOf, circleOf, followingMirror, gridOf, mirrorOf } from './laid.js';
import type { Settled } from './quantise.js';
import { deepest } from './levels.js';
import { type Composition, type Weighed, construct } from './weigh.js';

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
  moved: Candidate['moved'] = null,
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
    moved,
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
    level: 'system',
    finer: [],
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
  const shift = distance(at, seen);
  return { x: at.x, y: at.y, shift, within: within ?? 0, plusMinus: shift + (within ?? 0) };
};

/** Whether two candidates imply the same drawing: the same positions with the same freedom. */
const sameDrawing = (a: Candidate, b: Candidate): boolean => {
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

/** Every hypothesis told as a candidate, and how sure each level of the likeliest is. */
export interface Listed {
  readonly candidates: readonly Candidate[];
  readonly asMeasured: number;
  readonly levels: readonly { readonly level: LevelName; readonly odds: number }[];
  readonly shared: StandardShare;
}

/**
 * Hypotheses told as candidates. Those that imply the same drawing, the same positions with the same freedom (a square
 * of free size and four equal divisions of a free circle), are one candidate in the words of the likelier. Likeliest
 * arrangement first, and within it the likeliest sizes: sizes that the readings cannot settle do not push the right
 * arrangement behind a wrong one. The few left out have their odds shared out. Where no whole drawing is `sure`, the
 * deepest level that is stands first, with the drawings that it covers beneath it.
 */
export const list = (
  reporting: Reporting,
  all: readonly Weighed[],
  asMeasured: number,
  sure: number,
  share: (drawings: readonly Candidate[]) => StandardShare,
): Listed => {
  interface Told {
    candidate: Candidate;
    readonly hypothesis: Weighed;
  }
  const listed: Told[] = [];
  let left = 1 - asMeasured;
  for (const hypothesis of [...all].sort((a, b) => b.odds - a.odds).slice(0, MOST_LISTED)) {
    const { composition, way, odds } = hypothesis;
    if (left < LEFT && listed.length !== 1) break;
    const made = candidate(reporting, composition.groups, way, odds, movedOf(reporting, composition));
    if (made === null) continue;
    left -= odds;
    const same = listed.find((l) => sameDrawing(l.candidate, made));
    if (same === undefined) listed.push({ candidate: made, hypothesis });
    else same.candidate = { ...same.candidate, odds: same.candidate.odds + odds };
  }
  // Standards are weighed among drawings whose odds add up to 1, and take of each hypothesis what they take of all.
  const told = asMeasured + listed.reduce((s, l) => s + l.candidate.odds, 0);
  const shared = share(listed.map((l) => l.candidate));
  const none = (shared.rest * asMeasured) / told;
  const added = new Map(listed.map((l, k) => [l.hypothesis, shared.added[k] ?? 0]));
  const weighed = new Map(
    all.map((w) => [w, { ...w, odds: (shared.rest * w.odds) / told + (added.get(w) ?? 0) }] as const),
  );
  for (const l of listed)
    l.candidate = {
      ...l.candidate,
      odds: (shared.rest * l.candidate.odds) / told + (added.get(l.hypothesis) ?? 0),
    };
  const whole = (c: Composition): number =>
    listed.reduce((s, l) => s + (l.hypothesis.composition === c ? l.candidate.odds : 0), 0);
  const sorted = [...listed].sort(
    (a, b) => whole(b.hypothesis.composition) - whole(a.hypothesis.composition) || b.candidate.odds - a.candidate.odds,
  );
  const { levels, taken } = deepest(reporting.measured, [...weighed.values()], sure);
  const [first] = sorted;
  const level =
    taken === null || first === undefined || first.candidate.odds >= sure
      ? null
      : candidate(reporting, taken.groups, taken.way, taken.odds, null);
  const beneath = (l: Told): boolean =>
    level !== null && taken !== null && taken.covered.has(weighed.get(l.hypothesis) as Weighed);
  const finer = sorted.filter(beneath).map((l) => l.candidate);
  const candidates = [
    ...(level === null || taken === null ? [] : [{ ...level, level: taken.level, finer }]),
    ...sorted.filter((l) => !beneath(l)).map((l) => l.candidate),
  ];
  const sum = none + candidates.reduce((s, c) => s + c.odds, 0);
  const parted = (c: Candidate): Candidate => ({ ...c, odds: c.odds / sum, finer: c.finer.map(parted) });
  return { asMeasured: none / sum, candidates: candidates.map(parted), levels, shared };
};

const movedOf = ({ measured }: Reporting, { moved }: Composition): Candidate['moved'] =>
  moved === null ? null : { feature: measured.ids[moved.feature] ?? '', by: moved.by };
