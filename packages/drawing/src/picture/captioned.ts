import { growBox, joinBoxes, shapesBox } from '../box/shape-box.js';
import { wrapText } from '../lettering/wrap.js';
import { rectangle, text } from '../shapes/shapes.js';
import type { Drawing, Lettering, Picture } from '../types.js';

/** Room about a picture, in capitals. */
export const MARGIN = 1.5;

/** What a drawing of this scale says about its scale; nothing where its lengths have none. */
export const scaleWords = (scale: number | null): string => {
  if (scale === null) return '';
  return Math.abs(scale - 1) < 0.0005
    ? 'Drawn full size.'
    : `Drawn ${scale < 1 ? `1 : ${Number((1 / scale).toFixed(2))}` : `${Number(scale.toFixed(2))} : 1`}.`;
};

/**
 * A picture as a file that stands alone: its title lettered in above, its notes and scale below, each from the left
 * edge.
 */
export const captioned = (picture: Picture, lettering: Lettering): Drawing => {
  const { capital } = picture;
  const small = 0.8 * capital;
  const drawn = growBox(picture.box, -MARGIN * capital);
  const width = Math.max(drawn.right - drawn.left, lettering.width(picture.title, 1.2 * capital, 'bold'), 24 * capital);
  const left = (drawn.left + drawn.right - width) / 2;
  const head = text('note', { x: left, y: drawn.top + 1.6 * capital }, picture.title, {
    capital: 1.2 * capital,
    weight: 'bold',
  });
  const lines = [...picture.notes, scaleWords(picture.scale)]
    .filter((n) => n !== '')
    .flatMap((n) => wrapText(n, width, small, 'regular', lettering));
  const feet = lines.map((words, i) =>
    text('note', { x: left, y: drawn.bottom - 2.4 * capital - i * 1.7 * small }, words, { capital: small }),
  );
  const all = [head, ...picture.shapes, ...feet];
  const frame = { left, right: left + width, bottom: drawn.bottom, top: drawn.top };
  const box = growBox(joinBoxes([frame, shapesBox(all, lettering) ?? frame]) ?? frame, MARGIN * capital);
  // White paper under it: a viewer with a dark ground would swallow black lines.
  return { title: picture.title, shapes: [rectangle('note', box, null, 1), ...all], box };
};
