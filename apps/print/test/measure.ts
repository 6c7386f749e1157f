import type { Raster } from './raster.js';

type Spot = readonly [x: number, y: number];

interface Patch {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** Darkness-weighted centre of a patch of the page, page mm; throws where it is blank. */
const centroid = (image: Raster, patch: Patch): Spot => {
  const fromColumn = Math.max(0, Math.floor((patch.left - image.left) * image.across));
  const toColumn = Math.min(image.width - 1, Math.ceil((patch.right - image.left) * image.across));
  const fromRow = Math.max(0, Math.floor(image.height - (patch.top - image.bottom) * image.up));
  const toRow = Math.min(image.height - 1, Math.ceil(image.height - (patch.bottom - image.bottom) * image.up));
  let sum = 0;
  let sx = 0;
  let sy = 0;
  for (let row = fromRow; row <= toRow; row++) {
    for (let column = fromColumn; column <= toColumn; column++) {
      const x = image.left + (column + 0.5) / image.across;
      const y = image.bottom + (image.height - row - 0.5) / image.up;
      if (x < patch.left || x > patch.right || y < patch.bottom || y > patch.top) continue;
      const d = image.dark(column, row);
      sum += d;
      sx += d * x;
      sy += d * y;
    }
  }
  if (sum < 4) throw new Error(`nothing printed at ${JSON.stringify(patch)}`);
  return [sx / sum, sy / sum];
};

const HALF = 0.7;

/**
 * Where a cross-hair stands: x from its upright arms, y from its level ones, both looked at between `from` and `to` mm
 * out.
 */
export const crossAt = (image: Raster, [x, y]: Spot, from: number, to: number): Spot => {
  const upper = centroid(image, { left: x - HALF, right: x + HALF, bottom: y + from, top: y + to });
  const lower = centroid(image, { left: x - HALF, right: x + HALF, bottom: y - to, top: y - from });
  const right = centroid(image, { left: x + from, right: x + to, bottom: y - HALF, top: y + HALF });
  const left = centroid(image, { left: x - to, right: x - from, bottom: y - HALF, top: y + HALF });
  return [(upper[0] + lower[0]) / 2, (left[1] + right[1]) / 2];
};

/**
 * Centre of a tick across a level (or upright) ruler: looked for within 0.45 mm along it, between `from` and `to` mm to
 * its side.
 */
export const tickAt = (
  image: Raster,
  [x, y]: Spot,
  along: 'across' | 'up',
  side: 1 | -1,
  from = 0.5,
  to = 3,
): number => {
  const [near, far] = side > 0 ? [from, to] : [-to, -from];
  return along === 'across'
    ? centroid(image, { left: x - 0.45, right: x + 0.45, bottom: y + near, top: y + far })[0]
    : centroid(image, { left: x + near, right: x + far, bottom: y - 0.45, top: y + 0.45 })[1];
};
