import { type Motion, apply, movePath } from '@fayplate/core';
import type { Shape } from '../types.js';

/** A shape carried by a rigid motion. Letters stay readable: a mirror moves and turns a text, but never reverses it. */
export const moveShape = (motion: Motion, shape: Shape): Shape => {
  if (shape.kind === 'group') return { ...shape, shapes: shape.shapes.map((s) => moveShape(motion, s)) };
  if (shape.kind === 'path') return { ...shape, path: movePath(motion, shape.path) };
  const flipped = { start: 'end', middle: 'middle', end: 'start' } as const;
  return {
    ...shape,
    at: apply(motion, shape.at),
    turn: motion.turn + (motion.mirrored ? -shape.turn : shape.turn),
    anchor: motion.mirrored ? flipped[shape.anchor] : shape.anchor,
  };
};
