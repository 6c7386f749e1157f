export { ASCENT, DESCENT, growBox, joinBoxes, shapesBox, textBox } from './box/shape-box.js';
export { type Field, type Obstacle, field } from './label/field.js';
export { findRoom } from './label/room.js';
export type { Segment } from './label/meet.js';
export {
  type LabelRule,
  type LabelWish,
  type PlacedLabel,
  type Placement,
  type Size,
  obstaclesOf,
  placeLabels,
} from './label/place.js';
export { type FontFiles, lettering, letteringFrom } from './lettering/lettering.js';
export { packOutlines } from './lettering/outlines/pack.js';
export { codeOf } from './lettering/spell.js';
export { wrapText } from './lettering/wrap.js';
export { MARGIN, captioned, scaleWords } from './picture/captioned.js';
export { arrow } from './shapes/arrow.js';
export { crossHair } from './shapes/cross-hair.js';
export { moveShape } from './shapes/move.js';
export { inGrey, pens } from './shapes/pens.js';
export * from './shapes/shapes.js';
export { svg } from './svg/svg.js';
export { inert, visible } from './svg/escape.js';
export type * from './types.js';
export { letterRanges } from './lettering/letters.js';
