export type * from './types.js';
export { faultLines } from './faults/lines.js';
export { type NameRule, faceName, featureName, linkName, nearestName } from './faults/names.js';
export { jobSchema } from './schema/file.js';
export {
  type DistanceForm,
  type Grammar,
  type TakenAt,
  type Use,
  apartBy,
  distanceForm,
  isDistance,
  readOf,
  readingGrammar,
  readingKinds,
  sidesOf,
  usesRadius,
} from './reading/grammar.js';
export { type ReadOptions, readJob } from './read.js';
export { ENOUGH_READ, alikePlusMinus } from './sense/alike.js';
export { crossedWords } from './sense/face.js';
export { type AgainstStandard, againstStandard, sayLimits } from './standard.js';
export { fingerprintOf } from './fingerprint.js';
export { type JobWord, jobWords, jobWordsAt } from './words.js';
