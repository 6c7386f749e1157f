import { type Point, heading, subtract } from '@fayplate/core';
import { factorOf, solveWith } from './dense.js';

type Rows = readonly (readonly number[])[];

/**
 * Covariance, mm², of the centre of a circle that is fitted by least squares to places of this covariance (x₀, y₀, x₁, y₁ …), near
 * `centre`. Where the places lie on known divisions the fit also has one turn, and how they lie along the circle tells of the centre
 * too: δpᵢ = δc + δR uᵢ + R δφ u⊥ᵢ; else only how far out each lies does, uᵢ · δpᵢ = uᵢ · δc + δR. Null where the places do not fix it.
 */
export const centreCovariance = (
  places: readonly Point[],
  centre: Point,
  covariance: Rows,
  divided: boolean,
): Rows | null => {
  const turns = places.map((p) => heading(subtract(p, centre)));
  // One row for each equation: its derivatives by the unknowns, and what it takes of the places' errors.
  const equations = turns.flatMap((t, i) => {
    const [c, s] = [Math.cos(t), Math.sin(t)];
    const own = (x: number, y: number): readonly number[] => places.flatMap((_, j) => (j === i ? [x, y] : [0, 0]));
    return divided
      ? [
          { by: [1, 0, c, -s], of: own(1, 0) },
          { by: [0, 1, s, c], of: own(0, 1) },
        ]
      : [{ by: [c, s, 1], of: own(c, s) }];
  });
  const size = divided ? 4 : 3;
  const normal = Float64Array.from({ length: size * size }, (_, k) =>
    equations.reduce((sum, { by }) => sum + (by[Math.floor(k / size)] ?? 0) * (by[k % size] ?? 0), 0),
  );
  const factor = factorOf(normal, size);
  if (factor === null) return null;
  const weights = places
    .flatMap((_, j) => [2 * j, 2 * j + 1])
    .map((k) => {
      const right = Float64Array.from({ length: size }, (_, a) =>
        equations.reduce((sum, { by, of }) => sum + (by[a] ?? 0) * (of[k] ?? 0), 0),
      );
      return solveWith(factor, right);
    });
  const at = (a: number, b: number): number =>
    weights.reduce(
      (sum, w, k) => sum + (w[a] ?? 0) * weights.reduce((s, v, l) => s + (covariance[k]?.[l] ?? 0) * (v[b] ?? 0), 0),
      0,
    );
  return [
    [at(0, 0), at(0, 1)],
    [at(1, 0), at(1, 1)],
  ];
};
