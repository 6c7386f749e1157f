import { type Point, apply, roundTo } from '@fayplate/core';
import type { Job, TrialSpec } from '@fayplate/job';
import { pilesOf } from '../stack/choose.js';
import type { MatedFace } from '../types.js';
import { type Height, type Lean, type Plane, fitPlane, heightAt, leanOf } from './plane.js';

/** The shims at one bolt. Lengths in mm. */
interface BoltShims {
  readonly bolt: string;
  /** Plate frame, as seen from side B. */
  readonly at: Point;
  /** What is wanted, with its ± at 95 %; below zero the joint is too tight by so much. */
  readonly wanted: number;
  readonly plusMinus: number;
  /** What to lay there, thickest first. */
  readonly pieces: readonly number[];
  /** What is wanted less what is laid. */
  readonly left: number;
}

/** What a trial assembly says. */
export interface TrialResult {
  readonly face: string;
  readonly plane: Plane;
  readonly lean: Lean;
  /** The tilt that is left when the shims lie as told, radians. */
  readonly leanLeft: number;
  readonly bolts: readonly BoltShims[];
  /** The lean is no more than random error: every bolt takes the same. */
  readonly alike: boolean;
  /** The gaps lie on one plane, as far as their ± tell. */
  readonly flat: boolean;
  /** The gap that lies farthest from the plane. */
  readonly worst: { readonly name: string; readonly off: number };
  /** Every bolt takes shims of nothing or more, as far as the ± tell. */
  readonly enough: boolean;
}

/** A misfit so great comes by chance once in a thousand. */
const FLAT = 0.001;
/** Where no shims are said to be on hand they are laid to this, mm: foil is sold so. Source: common practice. */
const FOIL = 0.01;

/** The pile nearest to what is wanted. */
const pileFor = (wanted: number, shims: TrialSpec['shims']): readonly number[] => {
  if (wanted <= 0) return [];
  if (shims === null) {
    const foil = roundTo(wanted, FOIL);
    return foil === 0 ? [] : [foil];
  }
  let best: { readonly pieces: readonly number[]; readonly off: number } = { pieces: [], off: wanted };
  for (const level of pilesOf(shims.from, shims.atMost, wanted + Math.max(...shims.from)))
    for (const p of level) {
      const off = Math.abs(p.sum - wanted);
      if (off < best.off - 1e-9) best = { pieces: p.pieces, off };
    }
  return best.pieces;
};

/**
 * The final shims from the gaps of a trial assembly: the plane through them by least squares, its height at each bolt,
 * less the gasket and what is to be left; gaps inside are opened by shims, gaps in the joint filled. In words where the
 * places lie on one line or are not known.
 */
export const solveTrial = (
  job: Job,
  trial: TrialSpec,
  mated: readonly MatedFace[],
): { readonly ok: true; readonly result: TrialResult } | { readonly ok: false; readonly why: string } => {
  const own = mated.find((m) => m.face === trial.face);
  if (own === undefined) return { ok: false, why: `the plate does not lie on ${trial.face}` };
  const placeOf = (id: string): Point | undefined => own.pattern.points[own.pattern.ids.indexOf(id)];
  const lost = trial.gaps.filter((g) => g.at === null && placeOf(g.name) === undefined).map((g) => g.name);
  if (lost.length > 0) return { ok: false, why: `no reading places ${lost.join(', ')} of ${trial.face}` };
  const heights = trial.gaps.map((g): Height => ({
    ...(g.at === null ? (placeOf(g.name) ?? { x: 0, y: 0 }) : apply(own.motion, g.at)),
    value: g.value,
    sigma: Math.max(1e-6, g.plusMinus / 2),
  }));
  const plane = fitPlane(heights);
  if (plane === null)
    return {
      ok: false,
      why: 'the gaps were taken along one line: take one more to the side of it, to tell how the part leans',
    };
  const lean = leanOf(plane);
  const alike = !lean.sure;
  const features = job.faces.find((f) => f.name === trial.face)?.features ?? [];
  const bolts = features
    .filter((f) => (f.kind === 'hole' || f.kind === 'stud') && !f.vacant)
    .flatMap((f) => {
      const at = placeOf(f.id);
      return at === undefined ? [] : [{ bolt: f.id, at }];
    });
  const shims = trial.shims ?? job.stack?.shims ?? null;
  // What all bolts share of a plane that leans by chance alone is its height in their middle.
  const middle = bolts.length === 0 ? { x: 0, y: 0 } : meanOf(bolts.map((b) => b.at));
  const shared = [trial.zero ?? 0, trial.gasket?.plusMinus ?? 0].reduce((s, v) => s + (v / 2) ** 2, 0);
  const wantedAt = (p: Point): { readonly value: number; readonly plusMinus: number } => {
    const { value, sigma } = heightAt(plane, p);
    return {
      value: (trial.inside ? trial.leave - value : value - trial.leave) - (trial.gasket?.value ?? 0),
      plusMinus: 2 * Math.sqrt(sigma ** 2 + shared),
    };
  };
  const told = bolts.map(({ bolt, at }): BoltShims => {
    const { value, plusMinus } = wantedAt(alike ? middle : at);
    const pieces = pileFor(value, shims);
    return { bolt, at, wanted: value, plusMinus, pieces, left: value - pieces.reduce((a, b) => a + b, 0) };
  });
  const worst = plane.residuals
    .map((off, i) => ({ name: trial.gaps[i]?.name ?? '', off }))
    .reduce((w, r) => (Math.abs(r.off) > Math.abs(w.off) ? r : w), { name: '', off: 0 });
  const leftover = fitPlane(
    told.map((b) => ({ ...b.at, sigma: 1, value: wantedAt(b.at).value - (b.wanted - b.left) })),
  );
  return {
    ok: true,
    result: {
      face: trial.face,
      plane,
      lean,
      leanLeft: leftover === null ? lean.tilt : leanOf(leftover).tilt,
      bolts: told,
      alike,
      flat: plane.p === null || plane.p >= FLAT,
      worst,
      enough: told.every((b) => b.wanted >= -b.plusMinus),
    },
  };
};

const meanOf = (points: readonly Point[]): Point => ({
  x: points.reduce((s, p) => s + p.x, 0) / points.length,
  y: points.reduce((s, p) => s + p.y, 0) / points.length,
});
