export { ASCENT, DESCENT, growBox, joinBoxes, shapesBox, textBox } from './box/shape-box.js';
export { type Field, type Obstacle, field } from './label/field.js';
export {
  type LabelRule,
  type LabelWish,
  type PlacedLabel,
  type Placement,
  type Size,
  findRoom,
  obstaclesOf,
  placeLabels,
} from './label/place.js';
export type { Segment } from './label/meet.js';
export { type FontFiles, lettering, letteringFrom } from './lettering/lettering.js';
export { packOutlines } from './lettering/outlines/pack.js';
export { codeOf } from './lettering/spell.js';
export { wrapText } from './lettering/wrap.js';
export { MARGIN, captioned, scaleWords } from './picture/captioned.js';
export { arrow, crossHair, inGrey, pens } from './shapes/pens.js';
export { moveShape } from './shapes/shapes.js';
export * from './shapes/shapes.js';
export { inert, svg, visible } from './svg/svg.js';
export type * from './types.js';
export { letterRanges } from './lettering/face.js';
