export { mate, matedFaces, statedClocking } from './mate/mate.js';
export { motionOf } from './mate/motion.js';
export type * from './types.js';
