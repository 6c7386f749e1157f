export { locateJson } from './json.js';
export { type LocateOptions, locateFace } from './locate.js';
export { patternOf } from './pattern.js';
export type * from './types.js';
export { locateReport } from './words/report.js';
export { type PlanOptions, planReadings } from './next/plan.js';
