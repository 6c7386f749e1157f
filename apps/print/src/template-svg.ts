import { type Drawing, growBox, shapesBox, svg, visible } from '@fayplate/drawing';
import { dress } from './template/dress.js';
import { acrossShapes } from './sheet/furniture.js';
import { missingWords, recording } from './record.js';
import type { Template } from './template/types.js';
import type { PrintOptions } from './types.js';

const EDGE = 6;

/**
 * The whole template as one SVG at true scale, for a laser or a cutting plotter: lines to cut, marks and notes are each one
 * group; letters are outlines. No printer's correction is in it.
 */
export const templateSvg = (
  job: string,
  template: Template,
  options: Pick<PrintOptions, 'lettering' | 'notice'>,
): { readonly text: string; readonly warnings: readonly string[] } => {
  const { lettering, missing } = recording(options.lettering);
  const dressed = dress(template, lettering, growBox(template.box, 60), { drawn: [], strips: [] });
  const drawn = [...template.shapes, ...dressed.shapes];
  const shapes = [...drawn, ...acrossShapes(template.box, options.notice?.across ?? null, lettering)];
  const drawing: Drawing = {
    title: visible(`${job}: ${template.title}`),
    box: growBox(shapesBox(shapes, lettering) ?? template.box, EDGE),
    shapes,
  };
  const words = svg(drawing, lettering);
  return { text: words, warnings: missingWords(missing) };
};
