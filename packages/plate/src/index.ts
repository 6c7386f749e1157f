export { bestFit } from './assembly/best-fit.js';
export { type GoesOnOptions, enough, goesOn, usualTrials } from './assembly/goes-on.js';
export { mate, matedFaces, statedClocking } from './mate/mate.js';
export { motionOf } from './mate/motion.js';
export { stackJson } from './stack/json.js';
export { stackReport } from './stack/report.js';
export { solveStack } from './stack/solve.js';
export type * from './types.js';
