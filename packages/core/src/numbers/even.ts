// What a bundle puts in place of the engine's own functions (`apps/print/even.mjs`).
export { evenAcos, evenAsin, evenAtan, evenAtan2 } from './even-arcs.js';
export { evenCos, evenSin, evenTan } from './even-trig.js';
export { evenCbrt, evenExp, evenLog, evenLog10, evenLog1p, evenLog2, evenPow } from './even-powers.js';
