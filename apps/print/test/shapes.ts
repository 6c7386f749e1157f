import { type Path, polygonPath } from '@fayplate/core';

export const rectanglePath = (left: number, bottom: number, right: number, top: number): Path =>
  polygonPath([
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
  ]);
