import { type Motion, type Point, apply, invert } from '@fayplate/core';
import type { CutSpec } from '@fayplate/job';
import type { MatedFace } from '../types.js';

/** How much of a cut one piece has, and from which of its sides; depth null: right through it. */
type Part = Pick<CutSpec, 'depth' | 'side'>;

const NOTHING = 1e-9;

/**
 * The part of a cut that lies between `from` and `to`, mm from side A of a plate that is `thickness` thick; null where
 * it ends before it. A pocket keeps a depth, since it always has a floor: as deep as the piece it goes through it.
 */
const partOfCut = (cut: CutSpec, thickness: number, from: number, to: number): Part | null => {
  const deep = Math.min(cut.depth ?? thickness, thickness);
  const [a, b] = cut.side === 'A' ? [0, deep] : [thickness - deep, thickness];
  const [low, high] = [Math.max(a, from), Math.min(b, to)];
  if (high - low <= NOTHING) return null;
  const through = low - from <= NOTHING && to - high <= NOTHING;
  if (through) return { depth: cut.what === 'pocket' ? to - from : null, side: cut.side };
  return { depth: high - low, side: low - from <= NOTHING ? 'A' : 'B' };
};

/** Where a cut lies, in the frame of the drawing; null where the feature that it lies at has no place. */
const placeOf = (cut: CutSpec, own: MatedFace): Point | null => {
  if (!('feature' in cut.at)) return apply(own.motion, cut.at);
  const i = own.pattern.ids.indexOf(cut.at.feature);
  return own.pattern.points[i] ?? null;
};

const turned = (motion: Motion, angle: number): number => {
  const [from, to] = [
    { x: 0, y: 0 },
    { x: Math.cos(angle), y: Math.sin(angle) },
  ].map((p) => apply(motion, p));
  return from === undefined || to === undefined ? angle : Math.atan2(to.y - from.y, to.x - from.x);
};

/** A cut of one piece carried over to the other, placed on the joint between them. */
const carried = (cut: CutSpec, own: MatedFace, joint: MatedFace): CutSpec | null => {
  const at = placeOf(cut, own);
  if (at === null) return null;
  const back = invert(joint.motion);
  const angle = cut.angle === null ? null : turned(back, turned(own.motion, cut.angle));
  return { ...cut, face: joint.face, at: apply(back, at), angle };
};

/**
 * One piece: between which depths from side A it lies, the part that it lies on; where both pieces are drawn, its joint
 * and the other's part.
 */
interface PieceCuts {
  readonly from: number;
  readonly to: number;
  readonly face: string;
  readonly drawn: { readonly joint: MatedFace; readonly other: MatedFace } | null;
}

/**
 * The cuts of a whole plate as one of its pieces has them: its part's own, and where the other part's reach into it,
 * those as well.
 */
export const cutsOfPiece = (cuts: readonly CutSpec[], thickness: number, piece: PieceCuts): readonly CutSpec[] =>
  cuts.flatMap((cut): readonly CutSpec[] => {
    const part = partOfCut(cut, thickness, piece.from, piece.to);
    const { drawn } = piece;
    if (part === null) return [];
    const placed = cut.face === piece.face ? cut : drawn === null ? null : carried(cut, drawn.other, drawn.joint);
    return placed === null ? [] : [{ ...placed, ...part }];
  });
