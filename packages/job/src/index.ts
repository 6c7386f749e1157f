export type * from './faults/code.js';
export type * from './types.js';
export { faultLines } from './faults/lines.js';
export { nearestName } from './faults/nearest.js';
export { type NameRule, faceName, featureName, instrumentName, linkName } from './faults/names.js';
export { jobSchema } from './json-schema.js';
export { readingKinds } from './reading/grammar.js';
export { type ReadOptions, readJob } from './read.js';
