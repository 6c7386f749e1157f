export type * from './types/by-hand.js';
export type * from './types/contour.js';
export type * from './types/operation.js';
export type * from './types/proof.js';
export type * from './types/stock.js';
export type * from './types/table.js';
