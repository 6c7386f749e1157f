import { type Point, add, distance, oncePer, scale, subtract } from '@fayplate/core';
import type { Layer, Lettering, PathShape, Shape, TextShape } from '@fayplate/drawing';
import type { GlyphBook } from './glyph-book.js';
import { factor, mm, pathOps } from './path-ops.js';

type Leaf = { readonly layer: Layer; readonly shape: PathShape | TextShape };

/** Shapes in painting order, each with the layer that its groups give it. */
const leaves = (shapes: readonly Shape[], forced: Layer | null = null): readonly Leaf[] =>
  shapes.flatMap((shape) =>
    shape.kind === 'group' ? leaves(shape.shapes, forced ?? shape.layer) : [{ layer: forced ?? shape.layer, shape }],
  );

/**
 * A plain straight line as a filled bar. Readers and printers move upright and level strokes, and filled rectangles, to
 * whole pixels, up to half a pixel off: the corner more on one side keeps a bar from being taken for a rectangle.
 */
const barOps = (from: Point, to: Point, width: number, grey: number): string => {
  const length = distance(from, to);
  if (length === 0) return '';
  const across = scale({ x: from.y - to.y, y: to.x - from.x }, width / 2 / length);
  const corners = [subtract(from, across), subtract(to, across), add(to, across), add(from, across), from];
  return [`${mm(grey)} g`, ...corners.map((p, i) => `${mm(p.x)} ${mm(p.y)} ${i === 0 ? 'm' : 'l'}`), 'h', 'f'].join(
    '\n',
  );
};

const strokedOps = ({ path, stroke, fill }: PathShape): string => {
  if (stroke === null && fill === null) return '';
  const [only, more] = path.edges;
  if (stroke !== null && fill === null && stroke.dash.length === 0 && only?.kind === 'line' && more === undefined)
    return barOps(path.start, only.to, stroke.width, stroke.grey);
  return [
    ...(fill === null ? [] : [`${mm(fill)} g`]),
    ...(stroke === null ? [] : [`${mm(stroke.grey)} G ${mm(stroke.width)} w [${stroke.dash.map(mm).join(' ')}] 0 d`]),
    ...pathOps(path),
    stroke === null ? 'f' : fill === null ? 'S' : 'B',
  ].join('\n');
};

/** A sheet is printed by itself and bound into a packet: its lines are put into operators once. */
const strokedOnce = oncePer(strokedOps, new WeakMap<PathShape, string>());

/** Glyph space of the type 3 fonts is a thousandth of the text size (their FontMatrix). */
const PER_SIZE = 1000;

const letterOps = (shape: TextShape, lettering: Lettering, book: GlyphBook): string => {
  const laid = lettering.lay(shape.text, shape.capital, shape.weight);
  if (laid.glyphs.length === 0) return '';
  const back = shape.anchor === 'start' ? 0 : shape.anchor === 'middle' ? laid.width / 2 : laid.width;
  const c = Math.cos(shape.turn);
  const s = Math.sin(shape.turn);
  const size = laid.scale * PER_SIZE;
  const at = `${mm(shape.at.x - back * c)} ${mm(shape.at.y - back * s)}`;
  const ops = [`${mm(shape.grey)} g`, 'BT', `${factor(c)} ${factor(s)} ${factor(-s)} ${factor(c)} ${at} Tm`];
  let font = '';
  let run = '';
  let pen = 0;
  const show = (): void => {
    // Codes that stand one behind the other go into one string.
    if (run !== '') ops.push(`[${run.replaceAll('><', '')}] TJ`);
    run = '';
  };
  for (const g of laid.glyphs) {
    const { font: name, code } = book.codeOf(g.id, g.text, shape.weight);
    if (name !== font) {
      show();
      font = name;
      ops.push(`/${name} ${factor(size)} Tf`);
    }
    const kern = ((pen - g.at) / size) * PER_SIZE;
    if (Math.abs(kern) > 0.005) run += mm(kern);
    run += `<${code.toString(16).padStart(2, '0')}>`;
    pen = g.at + lettering.glyph(g.id, shape.weight).advance * laid.scale;
  }
  show();
  ops.push('ET');
  return ops.join('\n');
};

/** Shapes as PDF operators in mm, one to a line, each run of one layer marked as that optional content. */
export const shapeOps = (shapes: readonly Shape[], lettering: Lettering, book: GlyphBook): string => {
  const out: string[] = [];
  let open: Layer | null = null;
  for (const { layer, shape } of leaves(shapes)) {
    const ops = shape.kind === 'path' ? strokedOnce(shape) : letterOps(shape, lettering, book);
    if (ops === '') continue;
    if (layer !== open) {
      if (open !== null) out.push('EMC');
      out.push(`/OC /${layer} BDC`);
      open = layer;
    }
    out.push(ops);
  }
  if (open !== null) out.push('EMC');
  return out.join('\n');
};
