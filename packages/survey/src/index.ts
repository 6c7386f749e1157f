export { locateJson } from './json.js';
export { type LocateOptions, locateFace } from './locate.js';
export { patternOf } from './pattern.js';
export type * from './types.js';
export { fittedReport } from './words/readings.js';
export { locateReport } from './words/report.js';
export { type Rough, candidatesFor } from './next/candidates.js';
export { type PlanOptions, planReadings } from './next/plan.js';
export { type Tool, type Use, toolsOf } from './next/tools.js';
