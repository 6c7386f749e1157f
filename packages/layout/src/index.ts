export * from './face.js';
export { layoutJson } from './json.js';
export { layoutReport } from './report.js';
export * from './used.js';
export type * from './types.js';
