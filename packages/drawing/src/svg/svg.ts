import { oncePer } from '@fayplate/core';
import { codeOf } from '../lettering/spell.js';
import type { Drawing, Layer, Lettering, Shape, Stroke, TextShape } from '../types.js';
import { letterData, pathData } from './path-data.js';

/** What XML 1.0 forbids, and what a reader could not see or be misled by: direction marks and other controls. */
const forbidden = /[\p{C}\p{Zl}\p{Zp}\uFFFE\uFFFF]/gu;
const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** A text in which nothing is hidden: what XML forbids or no reader could see is spelt as its code. */
export const visible = (text: string): string => text.replace(forbidden, (c) => `[${codeOf(c)}]`);

/** A text that can stand in XML as content or attribute and do nothing: markup escaped, controls as their code. */
export const inert = (text: string): string => visible(text).replace(/[&<>"']/g, (c) => entities[c] ?? c);

const num = (v: number): string => String(Math.round(v * 1e4) / 1e4 + 0);

/** 0 black … 1 white as `#rrggbb`. */
const tone = (grey: number): string => {
  const two = Math.round(Math.min(1, Math.max(0, grey)) * 255)
    .toString(16)
    .padStart(2, '0');
  return `#${two}${two}${two}`;
};

const strokeWords = (stroke: Stroke | null): string => {
  if (stroke === null) return 'stroke="none"';
  const dash = stroke.dash.length > 0 ? ` stroke-dasharray="${stroke.dash.map(num).join(' ')}"` : '';
  return `stroke="${tone(stroke.grey)}" stroke-width="${num(stroke.width)}"${dash}`;
};

const letters = (shape: TextShape, lettering: Lettering): string => {
  const { glyphs, width, scale } = lettering.lay(shape.text, shape.capital, shape.weight);
  const back = shape.anchor === 'start' ? 0 : shape.anchor === 'middle' ? width / 2 : width;
  const [c, s] = [Math.cos(shape.turn), Math.sin(shape.turn)];
  const data = glyphs
    .map((g) =>
      letterData(
        lettering.glyph(g.id, shape.weight),
        scale,
        { x: shape.at.x + (g.at - back) * c, y: shape.at.y + (g.at - back) * s },
        shape.turn,
      ),
    )
    .join('');
  return data === '' ? '' : `<path aria-label="${inert(shape.text)}" fill="${tone(shape.grey)}" d="${data}"/>`;
};

type Leaf = Exclude<Shape, { readonly kind: 'group' }>;

const drawn = (shape: Leaf, lettering: Lettering): string => {
  if (shape.kind === 'text') return letters(shape, lettering);
  return (
    `<path fill="${shape.fill === null ? 'none' : tone(shape.fill)}" ${strokeWords(shape.stroke)} ` +
    `d="${pathData(shape.path)}"/>`
  );
};

/** A picture is drawn for a file and for a page: what they share is put into words once. */
const drawnOnce = oncePer(
  (lettering: Lettering) => oncePer((shape: Leaf) => drawn(shape, lettering), new WeakMap<Leaf, string>()),
  new WeakMap<Lettering, (shape: Leaf) => string>(),
);

/** The shapes of one layer; a group's own layer overrules those within. */
const draw = (shape: Shape, layer: Layer, forced: Layer | null, lettering: Lettering): string => {
  if (shape.kind === 'group') {
    const inside = shape.shapes.map((s) => draw(s, layer, forced ?? shape.layer, lettering)).join('');
    if (inside === '' || shape.name === null) return inside;
    return `<g data-name="${inert(shape.name)}">${inside}</g>\n`;
  }
  return (forced ?? shape.layer) === layer ? drawnOnce(lettering)(shape) : '';
};

/** Notes lie at the bottom, so that nothing hides a line to be cut; within a layer shapes lie in their order. */
const layers: readonly Layer[] = ['note', 'mark', 'cut'];

/**
 * A drawing as SVG at true scale: one user unit is one millimetre and the width and height say so. Letters are
 * outlines; all shapes of a layer stand in one group with the layer's name as its id. Names and words from a job are
 * inert.
 */
export const svg = (drawing: Drawing, lettering: Lettering): string => {
  const { left, right, bottom, top } = drawing.box;
  const wide = num(right - left);
  const high = num(top - bottom);
  const groups = layers.map(
    (layer) => `<g id="${layer}">\n${drawing.shapes.map((s) => draw(s, layer, null, lettering)).join('\n')}\n</g>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="${wide}mm" height="${high}mm" viewBox="${num(left)} ` +
      `${num(-top)} ${wide} ${high}">`,
    `<title>${inert(drawing.title)}</title>`,
    '<metadata>Fayplate</metadata>',
    ...groups,
    '</svg>',
    '',
  ]
    .join('\n')
    .replace(/\n{2,}/g, '\n');
};
