export * from './face.js';
export { layoutJson } from './json.js';
export * from './used.js';
export type * from './types.js';
