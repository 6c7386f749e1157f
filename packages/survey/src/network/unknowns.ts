/** The slots of a feature in the vector of unknowns. */
export interface FeatureSlots {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  /** Slot of a free radius; null where the radius is exact or there is none. */
  readonly radius: number | null;
  /** The exact radius, mm; null where it is free or there is none. */
  readonly exactRadius: number | null;
}

/**
 * The vector of unknowns of one face: for each feature that a reading touches x, y and, where free, its radius (mm),
 * side by side; then one shared zero error for each instrument that has one (mm or radians). Coordinates are as viewed,
 * in a frame of no meaning unless the face has bench readings, when it is the bench frame.
 */
export interface Unknowns {
  readonly count: number;
  readonly features: ReadonlyMap<string, FeatureSlots>;
  /** Instrument → slot of its shared zero error. */
  readonly zeros: ReadonlyMap<string, number>;
}

export interface FeatureNeed {
  readonly id: string;
  readonly radius: 'free' | 'none' | { readonly exact: number };
}

export const layUnknowns = (features: readonly FeatureNeed[], zeros: readonly string[]): Unknowns => {
  let count = 0;
  const next = (): number => count++;
  const laid = features.map(({ id, radius }): readonly [string, FeatureSlots] => {
    const x = next();
    const y = next();
    const free = radius === 'free' ? next() : null;
    return [id, { id, x, y, radius: free, exactRadius: typeof radius === 'object' ? radius.exact : null }];
  });
  const zeroSlots = zeros.map((name) => [name, next()] as const);
  return { count, features: new Map(laid), zeros: new Map(zeroSlots) };
};

/** A feature's radius at `x`, mm; null where it has none. */
export const radiusAt = (slots: FeatureSlots, x: Float64Array): number | null =>
  slots.radius === null ? slots.exactRadius : (x[slots.radius] ?? null);
