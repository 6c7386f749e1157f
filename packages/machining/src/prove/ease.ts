import { type Point, apply, centroid, distance, heading, invert, subtract } from '@fayplate/core';
import type { Motion } from '@fayplate/core';
import type { Joint } from '@fayplate/plate';
import { type Cut, leastConvex } from './ellipsoid.js';

/** Where to take metal from a hole so that its fastener enters. */
export interface Ease {
  readonly feature: string;
  /** The plate hole that it meets. */
  readonly hole: string;
  /** How far, mm. */
  readonly by: number;
  /**
   * The plate's hole holds its fastener, a thread: what is filed is the part's own hole, for which `towards` then is.
   */
  readonly inPart?: true;
  /** Which way from the hole's centre, radians counter-clockwise from +x, plate frame as seen from side B. */
  readonly towards: number;
}

/** One way to make the plate go on. */
export interface EaseOption {
  readonly eases: readonly Ease[];
  /** Metal to take away, mm³. */
  readonly metal: number;
}

/** What is filed: `H3`, or where the plate's hole holds its fastener `A3 of pump`. */
export const eased = (e: Ease, face: string): string => (e.inPart === true ? `${e.feature} of ${face}` : e.hole);

/** A joint with what easing it costs: metal for each millimetre, mm³/mm (diameter × length of the hole). */
interface Easing {
  readonly joint: Joint;
  readonly hole: string;
  readonly cost: number;
}

const TOLERANCE = 1e-7;

/**
 * Ways to ease fastener holes until the plate goes on with everything at its measured place, the least metal first: the
 * cheapest set of all, and every single hole that would do alone. Empty where nothing needs easing, or where the
 * locators themselves do not enter.
 */
export const easeOptions = (joints: readonly Easing[], reach: number): readonly EaseOption[] => {
  const fasteners = joints.flatMap((e, i) => (e.joint.role === 'fastener' ? [i] : []));
  const cheapest = optionFor(joints, new Set(fasteners), reach);
  if (cheapest === null || cheapest.eases.length === 0) return [];
  if (cheapest.eases.length === 1) return [cheapest];
  const alone = fasteners.flatMap((i) => optionFor(joints, new Set([i]), reach) ?? []);
  // Two holes filed a hair each to spare a twentieth of the metal is more work, not less.
  const kept = alone.some((o) => o.metal <= 1.05 * cheapest.metal) ? alone : [cheapest, ...alone];
  return kept.sort((a, b) => a.metal - b.metal);
};

/** The least metal where only the joints in `soft` may be eased; null where that is not enough. */
const optionFor = (joints: readonly Easing[], soft: ReadonlySet<number>, reach: number): EaseOption | null => {
  const middle = centroid(joints.map((e) => e.joint.plate));
  const arm = Math.max(1, ...joints.map((e) => distance(e.joint.plate, middle)));
  const poseOf = (z: readonly number[]): Motion => {
    const [x = 0, y = 0, along = 0] = z;
    const turn = along / arm;
    const turned = {
      x: Math.cos(turn) * middle.x - Math.sin(turn) * middle.y,
      y: Math.sin(turn) * middle.x + Math.cos(turn) * middle.y,
    };
    return { mirrored: false, turn, shift: { x: middle.x - turned.x + x, y: middle.y - turned.y + y } };
  };
  const cut = (z: readonly number[]): Cut => {
    const pose = poseOf(z);
    const stands = joints.map((e) => standOf(e.joint, pose, middle, arm));
    const hard = stands.reduce<Stand | null>(
      (worst, s, i) => (!soft.has(i) && s.excess > 1e-6 && (worst === null || s.excess > worst.excess) ? s : worst),
      null,
    );
    if (hard !== null) return { value: null, slope: hard.slope };
    let value = 0;
    const slope = [0, 0, 0];
    for (const [i, s] of stands.entries()) {
      if (!soft.has(i) || s.excess <= 0) continue;
      const cost = joints[i]?.cost ?? 1;
      value += cost * s.excess;
      for (let k = 0; k < 3; k++) slope[k] = (slope[k] ?? 0) + cost * (s.slope[k] ?? 0);
    }
    return { value, slope };
  };
  const found = leastConvex(cut, [0, 0, 0], reach, TOLERANCE);
  if (found === null) return null;
  const pose = poseOf(found.at);
  const eases = joints.flatMap((e, i): readonly Ease[] => {
    const { excess } = standOf(e.joint, pose, middle, arm);
    if (!soft.has(i) || excess < 1e-5) return [];
    const pin = apply(invert(pose), e.joint.part);
    return [{ feature: e.joint.id, hole: e.hole, by: excess, towards: heading(subtract(pin, e.joint.plate)) }];
  });
  return { eases, metal: eases.reduce((s, e) => s + e.by * (joints.find((j) => j.hole === e.hole)?.cost ?? 0), 0) };
};

interface Stand {
  /** How far the pin stands beyond its clearance, mm; ≤ 0: it enters. */
  readonly excess: number;
  /** Change of the excess with the shift and with the turn, the latter as mm at the farthest hole. */
  readonly slope: readonly [number, number, number];
}

const standOf = (j: Joint, pose: Motion, middle: Point, arm: number): Stand => {
  const laid = apply(pose, j.plate);
  const v = subtract(laid, j.part);
  const off = j.along === null ? Math.hypot(v.x, v.y) : Math.abs(v.y * Math.cos(j.along) - v.x * Math.sin(j.along));
  const side = j.along === null ? 1 : Math.sign(v.y * Math.cos(j.along) - v.x * Math.sin(j.along));
  const u =
    j.along === null
      ? { x: off === 0 ? 0 : v.x / off, y: off === 0 ? 0 : v.y / off }
      : { x: -side * Math.sin(j.along), y: side * Math.cos(j.along) };
  const c = Math.cos(pose.turn);
  const s = Math.sin(pose.turn);
  const spoke = subtract(j.plate, middle);
  const arc = { x: -(s * spoke.x + c * spoke.y), y: c * spoke.x - s * spoke.y };
  return { excess: off - Math.max(0, j.clearance[0]), slope: [u.x, u.y, (u.x * arc.x + u.y * arc.y) / arm] };
};
