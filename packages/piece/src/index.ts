export { fitSize } from './flat/openings.js';
export { laserSvg } from './laser.js';
export { type PieceSolid, pieceSolid } from './mesh/solid.js';
export { threeMf } from './mesh/threemf.js';
export { NOT_FOR_SERVICE, type PieceOptions, testPiece } from './piece.js';
export type * from './types.js';
