export type * from './source.js';
export {
  type Bound,
  type Drill,
  type DrillKind,
  type NearestDrill,
  drills,
  inchDrills,
  millimetreDrills,
  nearestDrill,
  parseDrill,
  pointLength,
} from './drills/list.js';
export { type TapDrill, holeForShare, tapDrill, threadShare } from './drills/tap.js';
export { type FaceHole, type FaceShaft, type Read, type Sized, type StandardFace, faceHoles } from './faces/face.js';
export { facesHeld, standardFace, standardFaces } from './faces/list.js';
export { type FaceSizes, type NearFace, facesNear, namesNear } from './faces/near.js';
export { standardTolerance } from './fits/deviations.js';
export { type FitLimits, type FitPair, isoFit, isoFitPair } from './fits/limits.js';
export { type WireInsert, dowelLimits, inchDowels, metricDowels, wireInsert } from './hardware/inserts.js';
export * from './hardware/hardware.js';
export { type ClearanceFit, type ClearanceHole, clearanceFits, clearanceHole } from './holes/clearance.js';
export { type Material, feedPerTurn, material, materials, turnsPerMinute } from './materials/materials.js';
export { type PlateStock, type Rule, leastEdge, leastEngagement, leastWeb, plateStock } from './materials/rules.js';
export { type Paper, paper, papers } from './paper/paper.js';
export { type FormName, type Thread, type ThreadForm, type ThreadSeries, threadForms } from './threads/forms.js';
export { threads } from './threads/list.js';
export { type AnyThread, type MeasuredThread, type ThreadOdds, identifyThread, tellApart } from './threads/identify.js';
export { type TaperThread, parseTaper } from './threads/pipe.js';
export { type ClassLimits, classLimits } from './threads/limits.js';
export { parseThread } from './threads/parse.js';
export { look } from './look/look.js';
export { type LookKind, type Looked, type Refused, lookKinds } from './look/words.js';
