import type { Box } from '@fayplate/core';
import { type Lettering, type Shape, group, text } from '@fayplate/drawing';
import { LEAD } from './place-words.js';
import type { TemplateBlock } from './types.js';

/** Smaller than this no lettering is read at arm's length, mm (capital). */
const LEAST = 2;

/** The block as it is, then smaller and smaller, for sheets with little room. */
export const settingsOf = (block: TemplateBlock): readonly TemplateBlock[] =>
  [1, 0.8, 0.65, 0.5].map((k) => ({
    ...block,
    lines: block.lines.map((l) => ({ ...l, capital: Math.max(k * l.capital, Math.min(l.capital, LEAST)) })),
  }));

export const blockSize = (
  block: TemplateBlock,
  lettering: Lettering,
): { readonly width: number; readonly height: number } => ({
  width: Math.max(...block.lines.map((l) => lettering.width(l.text, l.capital, l.weight))) + 3,
  height: block.lines.reduce((sum, l) => sum + l.capital * LEAD, 0) + 2,
});

export const blockShapes = (block: TemplateBlock, box: Box): Shape => {
  let y = box.top - 1;
  return group(
    null,
    block.lines.map((l) => {
      y -= l.capital * (LEAD + 1) * 0.5;
      const shape = text('note', { x: (box.left + box.right) / 2, y }, l.text, {
        capital: l.capital,
        weight: l.weight,
        anchor: 'middle',
      });
      y -= l.capital * (LEAD - 1) * 0.5;
      return shape;
    }),
  );
};
