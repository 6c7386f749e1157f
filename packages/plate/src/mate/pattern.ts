import { type Motion, apply, linearPart } from '@fayplate/core';
import type { Pattern } from '@fayplate/survey';

/** The pattern moved; the joint covariance goes by the linear part, block by block: C'ᵢⱼ = A Cᵢⱼ Aᵀ. */
export const movePattern = (motion: Motion, pattern: Pattern): Pattern => {
  const a = linearPart(motion);
  const c = pattern.covariance;
  const block = (row: number, column: number): number => {
    const i = row & ~1;
    const j = column & ~1;
    let sum = 0;
    for (let k = 0; k < 2; k++) {
      for (let l = 0; l < 2; l++) sum += (a[row & 1]?.[k] ?? 0) * (c[i + k]?.[j + l] ?? 0) * (a[column & 1]?.[l] ?? 0);
    }
    return sum;
  };
  return {
    ...pattern,
    points: pattern.points.map((p) => apply(motion, p)),
    covariance: c.map((line, row) => line.map((_, column) => block(row, column))),
  };
};
