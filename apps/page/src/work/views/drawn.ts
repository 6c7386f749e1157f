import { type Picture, svg } from '@fayplate/drawing';
import { letters } from '../letters.js';
import type { Drawn } from '../shown.js';

/**
 * A picture as the page shows it: layers named by attributes, since a page of many pictures must hold no id twice; a
 * picture is one thing to a screen reader.
 */
export const drawnOf = (name: string, picture: Picture): Drawn => ({
  name,
  title: picture.title,
  notes: picture.notes,
  box: picture.box,
  svg: svg(picture, letters())
    .replaceAll(/<g id="(\w+)">/g, '<g data-layer="$1">')
    .replaceAll('<path aria-label="', '<path data-says="'),
});
