import { type Lettering, MARGIN, type Picture, type Shape, growBox, shapesBox } from '@fayplate/drawing';
import type { Scale } from './scale.js';

/** The finished picture: shapes in a box with a margin, its notes and its scale (mm on it for 1 mm of the thing, null for none) kept beside as words. */
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
