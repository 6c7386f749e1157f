import { type Path, polygonPath } from '@fayplate/core';
import type { Shape, TextShape } from '@fayplate/drawing';

export const rectanglePath = (left: number, bottom: number, right: number, top: number): Path =>
  polygonPath([
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
  ]);

export const textsOf = (shapes: readonly Shape[]): readonly TextShape[] =>
  shapes.flatMap((s) => (s.kind === 'group' ? textsOf(s.shapes) : s.kind === 'text' ? [s] : []));
