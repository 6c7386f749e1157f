import { type Factor, backSubstitute, factorise } from '../sparse/factor.js';
import { solveScaled } from './solver.js';
import { type System, normalMatrix, gradient, push } from './system.js';

/** A pivot this small is examined: either nothing fixes that unknown, or something only just does. */
const DOUBTFUL = 1e-6;
/** A motion that changes the readings by less than this share of what its parts would change alone is free, */
const FREE = 5e-6;
/** and so is one whose standard uncertainty is this many times the size of the face: no linear figure holds there. */
const BEYOND = 100;

interface Rank {
  readonly factor: Factor;
  /** The free motions, in unknowns: no reading changes along them. */
  readonly nullSpace: readonly Float64Array[];
}

/**
 * Which unknowns the readings fix. Pivots of JᵀWJ show only the square of a weak constraint, so the motion of each
 * doubtful pivot is computed, reduced by what the rest can absorb, and tested against J itself.
 */
export const rankOf = (system: System, x: Float64Array, slopes: Float64Array, scales: Float64Array): Rank => {
  const matrix = normalMatrix(system, slopes, scales);
  const keep = new Set<number>();
  const reach = BEYOND * reachOf(system, x);
  for (;;) {
    const factor = factorise(matrix, DOUBTFUL, keep);
    const free = factor.dropped.map((position) => {
      const motion = motionOf(system, slopes, factor, scales, position);
      const changes = Math.hypot(...push(system, slopes, motion));
      const alone = lengthOf(motion, scales);
      let goes = 0;
      for (const block of system.blocks)
        if (block.length > 1) for (const u of block) goes = Math.max(goes, Math.abs(motion[u] as number));
      return { position, motion, free: changes <= FREE * alone || goes > reach * changes, hold: changes / alone };
    });
    const held = free.filter((f) => !f.free).sort((a, b) => b.hold - a.hold);
    if (held.length === 0) return { factor, nullSpace: free.map((f) => f.motion) };
    // A motion may seem held for what it takes of another: of those that move the same unknowns the one held best is
    // taken, and the others are looked at again without it.
    const moved = new Set<number>();
    for (const { position, motion } of held) {
      const moves = [...motion.keys()].filter((u) => motion[u] !== 0);
      if (moves.every((u) => !moved.has(u))) keep.add(position);
      for (const u of moves) moved.add(u);
    }
  }
};

/** Across all the centres, mm. */
const reachOf = ({ network }: System, x: Float64Array): number => {
  const features = [...network.unknowns.features.values()];
  const across = (axis: 'x' | 'y'): number => {
    const at = features.map((f) => x[f[axis]] as number);
    return at.length === 0 ? 0 : Math.max(...at) - Math.min(...at);
  };
  return Math.max(Math.hypot(across('x'), across('y')), Number.MIN_VALUE);
};

/** How long a motion is, each unknown by its scale. */
const lengthOf = (motion: Float64Array, scales: Float64Array): number => {
  let sum = 0;
  for (let u = 0; u < motion.length; u++) sum += ((motion[u] as number) / (scales[u] as number)) ** 2;
  return Math.sqrt(sum);
};

/** A motion that changes the readings by no more than this share of its length needs no cleaning. */
const CLEAN = 1e-12;

/** The motion that moving a dropped unknown by 1 (scaled) drags along. */
const motionOf = (
  system: System,
  slopes: Float64Array,
  factor: Factor,
  scales: Float64Array,
  position: number,
): Float64Array => {
  const { order, size } = factor.pattern;
  const work = new Float64Array(size);
  work[position] = 1;
  backSubstitute(factor, work, position);
  const motion = new Float64Array(size);
  for (let k = 0; k < size; k++) {
    const u = order[k] as number;
    motion[u] = (work[k] as number) * (scales[u] as number);
  }
  const alone = lengthOf(motion, scales);
  for (let pass = 0; pass < 2; pass++) {
    const weightedResiduals = push(system, slopes, motion);
    if (Math.hypot(...weightedResiduals) <= CLEAN * alone) break;
    const repair = solveScaled(factor, scales, gradient(system, { slopes, weightedResiduals }));
    for (let u = 0; u < size; u++) motion[u] = (motion[u] as number) - (repair[u] as number);
  }
  return motion;
};
