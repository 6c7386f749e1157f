import { type Box, type Point, add, polar } from '@fayplate/core';
import type { Field } from './field.js';

const STEP = 3;

/**
 * Room for a block of lettering: the free place whose centre is nearest to `near` (rings of 3 mm, walked counter-clockwise
 * from the right), wholly `within`; null where there is none.
 */
export const findRoom = (
  size: { readonly width: number; readonly height: number },
  near: Point,
  taken: Field,
  within: Box,
): Box | null => {
  const at = (c: Point): Box => ({
    left: c.x - size.width / 2,
    right: c.x + size.width / 2,
    bottom: c.y - size.height / 2,
    top: c.y + size.height / 2,
  });
  const most = Math.hypot(within.right - within.left, within.top - within.bottom);
  for (let r = 0; r <= most; r += STEP) {
    const n = Math.max(1, Math.round((2 * Math.PI * r) / (2 * STEP)));
    for (let i = 0; i < n; i++) {
      const box = at(add(near, polar(r, (i * 2 * Math.PI) / n)));
      const inside =
        box.left >= within.left && box.right <= within.right && box.bottom >= within.bottom && box.top <= within.top;
      if (inside && !taken.coversBox(box)) return box;
    }
  }
  return null;
};
