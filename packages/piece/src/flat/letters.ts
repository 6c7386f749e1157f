import type { Point } from '@fayplate/core';
import type { Lettering, TextShape } from '@fayplate/drawing';
import { type Ring, inked, ringArea } from './polygon.js';

/** The outlines of lettering as rings: what is inked counter-clockwise, its counters clockwise. */
export const letterRings = (texts: readonly TextShape[], letters: Lettering): readonly Ring[] => {
  const all = texts.flatMap((t): readonly Ring[] => {
    const { glyphs, width, scale } = letters.lay(t.text, t.capital, t.weight);
    const back = t.anchor === 'start' ? 0 : t.anchor === 'middle' ? width / 2 : width;
    const [c, s] = [Math.cos(t.turn), Math.sin(t.turn)];
    const laid = (p: Point, at: number): Point => {
      const [x, y] = [at - back + p.x * scale, p.y * scale];
      return { x: t.at.x + c * x - s * y, y: t.at.y + s * x + c * y };
    };
    return glyphs.flatMap((g) =>
      inked(
        letters.glyph(g.id, t.weight).contours.map((contour) => {
          const points: Point[] = [contour.start];
          let pen = contour.start;
          for (const step of contour.steps) {
            points.push(...curve(pen, step));
            pen = step.to;
          }
          return points.map((p) => laid(p, g.at));
        }),
      ),
    );
  });
  return all.filter((r) => Math.abs(ringArea(r)) > 1e-3);
};

/** Points along one stroke of a letter after its first. */
const curve = (
  from: Point,
  step:
    | { readonly kind: 'line'; readonly to: Point }
    | { readonly kind: 'quadratic'; readonly control: Point; readonly to: Point }
    | { readonly kind: 'cubic'; readonly control1: Point; readonly control2: Point; readonly to: Point },
): readonly Point[] => {
  if (step.kind === 'line') return [step.to];
  const n = 6;
  return Array.from({ length: n }, (_, i) => {
    const t = (i + 1) / n;
    const u = 1 - t;
    const mix = (...terms: readonly (readonly [number, Point])[]): Point => ({
      x: terms.reduce((sum, [k, p]) => sum + k * p.x, 0),
      y: terms.reduce((sum, [k, p]) => sum + k * p.y, 0),
    });
    return step.kind === 'quadratic'
      ? mix([u * u, from], [2 * u * t, step.control], [t * t, step.to])
      : mix([u * u * u, from], [3 * u * u * t, step.control1], [3 * u * t * t, step.control2], [t * t * t, step.to]);
  });
};
