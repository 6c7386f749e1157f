import { type Point, add, distance } from '@fayplate/core';
import { lociOf } from './loci.js';
import { type Locus, crossing, meet } from './locus.js';
import { type Sketch, type Tie, pointOf, setPoint, strain2 } from './sketch.js';

/**
 * A place where a feature may lie: how badly its ties fit there (capped squares of their sigmas) and how loosely they
 * hold it, mm.
 */
export interface Placement {
  readonly at: Point;
  readonly cost: number;
  readonly spread: number;
}

/** The features placed so far: the vector that holds them and the standard uncertainty of each, mm, roughly. */
export interface Known {
  readonly sketch: Sketch;
  readonly x: Float64Array;
  readonly spread: Float64Array;
}

/** A tie that fits worse than this many sigmas is taken to be misread, and argues no further. */
const CAP = 6;
const MOST_CROSSED = 7;
const MOST_KEPT = 4;
/** Placements worse than the best by more than this are not kept. */
const WORSE = 60;

/**
 * How loosely a tie holds the feature, mm: by its own sigma, and by the looseness of the features that it starts from.
 */
interface Slack {
  readonly own: number;
  readonly lent: number;
  /** mm for one of the reading's units: an angle's lever. */
  readonly lever: number;
}

const slackOf = ({ sketch, x, spread }: Known, tie: Tie, target: number, at: Point): Slack => {
  let lent = 0;
  let lever = tie.angular ? 1e-3 : 1;
  for (const f of tie.ends) {
    if (f === target) continue;
    // Features placed one from another share their errors: theirs do not add up.
    lent = Math.max(lent, spread[f] ?? 0);
    if (tie.angular) lever = Math.max(lever, distance(pointOf(sketch, x, f), at));
  }
  return { own: tie.sigma * lever, lent, lever };
};

/** Sigma of the tie in the reading's own unit, looseness included. */
const sigmaAt = (known: Known, tie: Tie, target: number, at: Point): number => {
  const { own, lent, lever } = slackOf(known, tie, target, at);
  return Math.hypot(own, lent) / lever;
};

/**
 * Cost of a feature's place under these ties: squares of what is left of each in sigmas, each capped. Moves the feature
 * there.
 */
const costAt = (known: Known, ties: readonly Tie[], target: number, at: Point): number => {
  setPoint(known.sketch, known.x, target, at);
  let sum = 0;
  for (const tie of ties) {
    const own = tie.reading.plusMinus / 2;
    sum += Math.min(strain2(tie, known.x) * (own / sigmaAt(known, tie, target, at)) ** 2, CAP * CAP);
  }
  return sum;
};

/** A few steps of Gauss–Newton for one centre, misread ties left out. */
const refine = (known: Known, ties: readonly Tie[], target: number, from: Point): Point => {
  const { sketch, x } = known;
  const slots = sketch.slots[target];
  if (slots === undefined) return from;
  const slopes = new Float64Array(16);
  let at = from;
  for (let turn = 0; turn < 3; turn++) {
    setPoint(sketch, x, target, at);
    let xx = 0;
    let xy = 0;
    let yy = 0;
    let xe = 0;
    let ye = 0;
    for (const tie of ties) {
      const k = 1 / sigmaAt(known, tie, target, at);
      for (const o of tie.observations) {
        const e = (o.value - o.model(x, slopes)) * k;
        if (Math.abs(e) > CAP) continue;
        const gx = (slopes[o.unknowns.indexOf(slots.x)] ?? 0) * k;
        const gy = (slopes[o.unknowns.indexOf(slots.y)] ?? 0) * k;
        xx += gx * gx;
        xy += gx * gy;
        yy += gy * gy;
        xe += gx * e;
        ye += gy * e;
      }
    }
    const det = xx * yy - xy * xy;
    if (!(det > 1e-9 * (xx + yy) ** 2)) return at;
    const d = { x: (yy * xe - xy * ye) / det, y: (xx * ye - xy * xe) / det };
    const size = Math.hypot(d.x, d.y);
    if (!(size < 20)) return at;
    at = add(at, d);
    if (size < 1e-3) break;
  }
  return at;
};

/**
 * Every distinct place where the ties (their other features all known) let `target` lie, best first; empty where fewer
 * than two loci meet.
 */
export const placements = (
  known: Known,
  ties: readonly Tie[],
  target: number,
  apart: number | null = null,
): readonly Placement[] => {
  const { sketch, x } = known;
  const place = (f: number): Point => pointOf(sketch, x, f);
  const radius = (f: number): number => sketch.radii[f] ?? 0;
  const loci: { readonly tie: Tie; readonly loci: readonly Locus[] }[] = ties
    .map((tie) => ({ tie, loci: lociOf(tie, target, place, radius) }))
    .filter((l) => l.loci.length > 0)
    .sort((a, b) => Number(a.tie.angular) - Number(b.tie.angular) || a.tie.sigma - b.tie.sigma)
    .slice(0, MOST_CROSSED);
  const found: Placement[] = [];
  const consider = (at: Point, spread: number): void => {
    if (Number.isFinite(at.x) && Number.isFinite(at.y))
      found.push({ at, spread, cost: costAt(known, ties, target, at) });
  };
  for (const [k, a] of loci.entries()) {
    for (const l of a.loci) if (l.kind === 'point') consider(l.point, slackOf(known, a.tie, target, l.point).own);
    for (const b of loci.slice(k + 1)) {
      for (const l of a.loci) {
        for (const m of b.loci) {
          if (l.kind === 'point' || m.kind === 'point') continue;
          for (const p of meet(l, m)) {
            const [s, t] = [slackOf(known, a.tie, target, p), slackOf(known, b.tie, target, p)];
            consider(p, Math.hypot(Math.hypot(s.own, t.own) / Math.max(crossing(l, m, p), 0.05), s.lent, t.lent));
          }
        }
      }
    }
  }
  found.sort((a, b) => a.cost - b.cost || a.spread - b.spread);
  const kept: Placement[] = [];
  const worst = (found[0]?.cost ?? 0) + WORSE;
  for (const f of found) {
    if (f.cost > worst || kept.length >= MOST_KEPT) break;
    if (kept.every((k) => distance(k.at, f.at) >= (apart ?? Math.max(3 * Math.max(k.spread, f.spread), 1e-3))))
      kept.push(f);
  }
  return kept.map((k) => {
    const at = refine(known, ties, target, k.at);
    const cost = costAt(known, ties, target, at);
    return cost < k.cost ? { ...k, at, cost } : k;
  });
};
