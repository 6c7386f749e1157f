import { type Point, boxOf } from '@fayplate/core';
import { type Lettering, MARGIN, type Picture, type Shape, growBox, shapesBox } from '@fayplate/drawing';

/**
 * Sizes of lettering and marks that suit a drawing of this extent, mm: small parts keep small letters, large ones stay
 * legible when shrunk.
 */
export interface Scale {
  readonly capital: number;
  readonly small: number;
  readonly gap: number;
}

export const scaleFor = (points: readonly Point[]): Scale => {
  const box = boxOf(points.length > 0 ? points : [{ x: 0, y: 0 }]);
  const extent = Math.max(box.right - box.left, box.top - box.bottom, 1);
  const capital = Math.min(9, Math.max(1.8, extent / 48));
  return { capital, small: capital * 0.8, gap: capital };
};

export const enlarged = ({ capital, small, gap }: Scale, by: number): Scale => ({
  capital: capital * by,
  small: small * by,
  gap: gap * by,
});

const factors = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000] as const;

/**
 * The round factor by which ellipses whose largest semi-axis is `major` are drawn larger, so that it takes no more than
 * `room` mm.
 */
export const enlargement = (major: number, room: number): number => factors.findLast((f) => f * major <= room) ?? 1;

/**
 * The finished picture: shapes in a box with a margin, its notes and its scale (mm on it for 1 mm of the thing, null
 * for none) kept beside as words.
 */
export const sheet = (
  title: string,
  shapes: readonly Shape[],
  notes: readonly string[],
  { capital }: Scale,
  scale: number | null,
  lettering: Lettering,
): Picture => {
  const drawn = shapesBox(shapes, lettering) ?? { left: 0, bottom: 0, right: 60, top: 10 };
  return { title, shapes, notes, scale, capital, box: growBox(drawn, MARGIN * capital) };
};
