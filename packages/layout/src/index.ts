export { type LayoutOptions, layoutFace } from './face.js';
export { layoutJson } from './json.js';
export { layoutReport } from './report.js';
export { wholeDrawings } from './words/arrangement.js';
export { sayLayout } from './words/candidate.js';
export type * from './types.js';
export { type Used, usedPattern } from './used.js';
export { type Evidence, type Recognised, type Recognition, recognise } from './recognise/recognise.js';
export { recognitionJson, recognitionReport } from './recognise/words.js';
