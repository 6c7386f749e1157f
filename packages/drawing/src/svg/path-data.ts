import { type Path, type Point, flipX, movePath, rotation, svgPathData } from '@fayplate/core';
import type { GlyphContour } from '../types.js';

/** SVG path data; SVG has y down, and a mirror in x with half a turn is a mirror in y. Arcs stay arcs, to 1e-6 mm. */
export const pathData = (path: Path): string => svgPathData(movePath(rotation(Math.PI), movePath(flipX, path)));

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
