import { chiSquareTail } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import type { Measured } from './measured/points.js';
import { logSum } from './prior/logs.js';
import { logAsMeasured } from './prior/structure.js';
import { reportingOf } from './reporting.js';
import type { Candidate, FaceLayout, UnitOdds } from './types.js';
import { candidate, sameDrawing } from './weigh/candidate.js';
import { compose } from './weigh/compose.js';
import { logRough } from './weigh/rough.js';
import type { Composition } from './weigh/weigh.js';

/** A candidate is listed where its odds reach this, until `MOST_LISTED`. */
const LISTED = 5e-4;
const MOST_LISTED = 24;
const SURE = 0.95;
const FITS = 0.01;

/**
 * The layouts that a face's centres may have been drawn by, with their odds.
 *
 * Each hypothesis H is a drawing: groups of features (equal divisions of a circle, one circle, …) with the rest where they were
 * measured. Its odds are its prior times its marginal likelihood on the full joint covariance C of the centres x,
 *
 *   p(x | H) = ∫ N(x; g(φ), C) π(φ) dφ ≈ N(x; g(φ̂), C) π(φ̂) (2π)^(d/2) |Jᵀ C⁻¹ J|^(−1/2)
 *
 * (Laplace; φ̂ the least-squares adjustment, J = ∂g/∂φ), over the sum of the same for all hypotheses, 'as measured' among them: there every
 * centre has its own density 1 / (π · room²). Free parameters have proper priors: positions like that, sizes 1 / (4 · room), directions 1 / 2π.
 * Shift and turn of the whole are free in every hypothesis, so the choice of frame takes no part. Chances of numbers of divisions, places, round sizes,
 * partitions: see `prior/`.
 */
export const layoutFace = (face: Face, located: LocatedFace): FaceLayout => {
  const reporting = reportingOf(face, located);
  if (reporting.measured.fasteners.length < 2) return nothingToSay(face.name);
  const compositions = compose(reporting.free);
  const all = compositions.flatMap((c, order) => c.ways.map((way, k) => ({ groups: c.groups, order, whole: c.log, way, log: c.logs[k] ?? Number.NEGATIVE_INFINITY })));
  const logNone = logSum([logAsMeasured, isPlain(compositions[0], reporting.free) ? Number.NEGATIVE_INFINITY : logRough(reporting.free)]);
  const total = logSum([logNone, ...compositions.map((c) => c.log)]);
  const units = unitsOf(all.map((a) => ({ odds: Math.exp(a.log - total), units: a.way.units })), Math.exp(logNone - total));
  const listed: { candidate: Candidate; readonly order: number }[] = [];
  for (const a of all.sort((x, y) => y.log - x.log).slice(0, MOST_LISTED)) {
    const odds = Math.exp(a.log - total);
    if (odds < LISTED) break;
    const made = candidate(reporting, a.groups, a.way, odds);
    if (made === null) continue;
    const same = listed.find((l) => sameDrawing(l.candidate, made));
    if (same === undefined) listed.push({ candidate: made, order: a.order });
    else same.candidate = { ...same.candidate, odds: same.candidate.odds + odds };
  }
  const asMeasured = Math.exp(logNone - total);
  const sum = asMeasured + listed.reduce((s, l) => s + l.candidate.odds, 0);
  const whole = (order: number): number => listed.reduce((s, l) => s + (l.order === order ? l.candidate.odds : 0), 0);
  const candidates = listed
    .sort((a, b) => whole(b.order) - whole(a.order) || a.order - b.order || b.candidate.odds - a.candidate.odds)
    .map((l) => ({ ...l.candidate, odds: l.candidate.odds / sum }));
  const first = candidates[0];
  return {
    name: face.name,
    candidates,
    asMeasured: asMeasured / sum,
    chosen: first !== undefined && first.odds >= SURE && (first.p === null || first.p >= FITS) ? 0 : null,
    units,
    telling: null,
  };
};

/** Whether a composition fixes every fastener's place against the others and fits: then nothing is left for rough work to explain. */
const isPlain = (c: Composition | undefined, measured: Measured): boolean => {
  if (c === undefined || c.groups.reduce((n, g) => n + g.members.length, 0) < measured.fasteners.length) return false;
  if (c.groups.some((g) => g.kind !== 'divided' && g.kind !== 'array' && g.kind !== 'grid')) return false;
  const dof = 2 * c.construction.places.size - c.adjusted.parameters.length;
  return chiSquareTail(c.adjusted.chi2, dof) >= FITS;
};

const unitsOf = (all: readonly { readonly odds: number; readonly units: UnitOdds }[], asMeasured: number): UnitOdds => {
  const sum = (of: keyof UnitOdds): number => all.reduce((s, a) => s + a.odds * a.units[of], 0);
  return { in: sum('in'), mm: sum('mm'), mixed: sum('mixed'), none: sum('none') + asMeasured };
};

const nothingToSay = (name: string): FaceLayout => ({
  name,
  candidates: [],
  asMeasured: 1,
  chosen: null,
  units: { in: 0, mm: 0, mixed: 0, none: 1 },
  telling: null,
});
