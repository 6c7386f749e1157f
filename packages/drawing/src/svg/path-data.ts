import { type Path, type Point, svgPathData } from '@fayplate/core';
import type { GlyphContour } from '../types.js';

const down = (p: Point): Point => ({ x: p.x, y: -p.y });

/** SVG path data; SVG has y down, so that arcs turn the other way. Arcs stay arcs, to 1e-6 mm. */
export const pathData = (path: Path): string =>
  svgPathData({
    start: down(path.start),
    closed: path.closed,
    edges: path.edges.map((e) => (e.kind === 'line' ? { kind: 'line', to: down(e.to) } : { kind: 'arc', to: down(e.to), centre: down(e.centre), ccw: !e.ccw })),
  });

const short = (v: number): string => String(Math.round(v * 1e4) / 1e4 + 0);

/** Outlines of letters placed at `at` and turned, y down, to 0.0001 mm. */
export const letterData = (contours: readonly GlyphContour[], at: Point, turn: number): string => {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const xy = (p: Point): string => `${short(at.x + c * p.x - s * p.y)} ${short(-(at.y + s * p.x + c * p.y))}`;
  return contours
    .map((contour) => {
      const steps = contour.steps.map((step) => {
        if (step.kind === 'line') return `L${xy(step.to)}`;
        if (step.kind === 'quadratic') return `Q${xy(step.control)} ${xy(step.to)}`;
        return `C${xy(step.control1)} ${xy(step.control2)} ${xy(step.to)}`;
      });
      return `M${xy(contour.start)}${steps.join('')}Z`;
    })
    .join('');
};
