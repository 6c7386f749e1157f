import type { Face } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import { logSum } from './prior/logs.js';
import { logAsMeasured } from './prior/structure.js';
import { reportingOf } from './reporting.js';
import type { Candidate, FaceLayout, UnitOdds } from './types.js';
import { candidate, sameDrawing } from './weigh/candidate.js';
import { compose } from './weigh/compose.js';

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
  const all = compositions.flatMap((c) => c.ways.map((way, k) => ({ groups: c.groups, way, log: c.logs[k] ?? Number.NEGATIVE_INFINITY })));
  const total = logSum([logAsMeasured, ...all.map((a) => a.log)]);
  const listed: Candidate[] = [];
  let units: UnitOdds = { in: 0, mm: 0, mixed: 0, none: Math.exp(logAsMeasured - total) };
  for (const a of all) {
    const odds = Math.exp(a.log - total);
    const u = a.way.units;
    units = { in: units.in + odds * u.in, mm: units.mm + odds * u.mm, mixed: units.mixed + odds * u.mixed, none: units.none + odds * u.none };
  }
  for (const a of all.sort((x, y) => y.log - x.log).slice(0, MOST_LISTED)) {
    const odds = Math.exp(a.log - total);
    if (odds < LISTED) break;
    const made = candidate(reporting, a.groups, a.way, odds);
    if (made === null) continue;
    const same = listed.findIndex((c) => sameDrawing(c, made));
    const other = listed[same];
    if (other === undefined) listed.push(made);
    else listed[same] = { ...other, odds: other.odds + made.odds };
  }
  const asMeasured = Math.exp(logAsMeasured - total);
  const sum = asMeasured + listed.reduce((s, c) => s + c.odds, 0);
  const candidates = listed.map((c) => ({ ...c, odds: c.odds / sum })).sort((a, b) => b.odds - a.odds);
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

const nothingToSay = (name: string): FaceLayout => ({
  name,
  candidates: [],
  asMeasured: 1,
  chosen: null,
  units: { in: 0, mm: 0, mixed: 0, none: 1 },
  telling: null,
});
