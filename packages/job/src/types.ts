export type * from './types/drilled.js';
export type * from './types/face.js';
export type * from './types/fault.js';
export type * from './types/job.js';
export type * from './types/plate.js';
export type * from './types/reading.js';
export type * from './types/shop.js';
export type * from './types/stack.js';
