/** A symmetric matrix as rows. */
type Rows = readonly (readonly number[])[];

/**
 * The larger eigenvalue of the symmetric matrix [[xx, xy], [xy, yy]]: of a covariance, the variance along the direction
 * in which a place is known worst. Not below 0 for a covariance, rounding set aside.
 */
export const largerEigenvalue = (xx: number, xy: number, yy: number): number =>
  Math.max(0, (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy));

/** The rows and columns x, y of the points numbered `indices`, in that order, of a covariance laid out x₀, y₀, x₁, y₁ …; 0 where it has none. */
export const covarianceOfPoints = (covariance: Rows, indices: readonly number[]): readonly number[][] => {
  const at = indices.flatMap((i) => [2 * i, 2 * i + 1]);
  return at.map((r) => at.map((s) => covariance[r]?.[s] ?? 0));
};
