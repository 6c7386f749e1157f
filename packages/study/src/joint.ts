import type { Proof } from '@fayplate/machining';
import type { MatedFace, Plate } from '@fayplate/plate';

/** The other of two pieces as it was drilled: its plate, and its own proof. */
export interface OtherPiece {
  readonly plate: Plate;
  readonly proof: Proof;
}

/**
 * The joint of a piece with what the readings of the other piece say of it: a screw's place is where that piece was
 * drilled for it, no longer where it was drawn within the ± of drilling. What was not measured stays as drawn. Both
 * pieces are drawn in one frame, so no motion comes in.
 */
export const jointAsDrilled = (joint: MatedFace, { plate, proof: { laid } }: OtherPiece): MatedFace => {
  if (laid === undefined) return joint;
  const { pattern } = joint;
  // For each feature of the joint, which of the measured places is its own.
  const from = pattern.ids.map((id) => {
    const hole = plate.holes.find((h) => h.part?.feature === id && h.as !== 'dowel');
    return hole === undefined ? -1 : laid.ids.indexOf(hole.id);
  });
  const at = (r: number): number => (from[r >> 1] ?? -1) * 2 + (r & 1);
  return {
    ...joint,
    pattern: {
      ...pattern,
      points: pattern.points.map((p, i) => laid.points[from[i] ?? -1] ?? p),
      covariance: pattern.covariance.map((row, r) =>
        row.map((v, s) =>
          at(r) < 0 && at(s) < 0 ? v : at(r) < 0 || at(s) < 0 ? 0 : (laid.covariance[at(r)]?.[at(s)] ?? 0),
        ),
      ),
    },
  };
};
