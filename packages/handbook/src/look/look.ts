import { lookClearance, lookDowel, lookFit } from './fit.js';
import { lookDrill, lookTapDrill } from './drill.js';
import { lookFace } from './face.js';
import { lookHardware, lookMaterial, lookPaper } from './hardware.js';
import { lookThread } from './thread.js';
import { type LookKind, type Looked, lookKinds } from './words.js';
import { nearestOf } from './words.js';

const pages: Readonly<Record<LookKind, (what: string) => Looked>> = {
  thread: lookThread,
  drill: lookDrill,
  clearance: lookClearance,
  'tap drill': lookTapDrill,
  hardware: lookHardware,
  dowel: lookDowel,
  fit: lookFit,
  material: lookMaterial,
  paper: lookPaper,
  face: lookFace,
};

/** Other words for the same page. */
const also: Readonly<Record<string, LookKind>> = {
  tap: 'tap drill',
  tapdrill: 'tap drill',
  nut: 'hardware',
  washer: 'hardware',
  screw: 'hardware',
  hole: 'clearance',
  fits: 'fit',
  flange: 'face',
  faces: 'face',
  motor: 'face',
  standard: 'face',
};

const kindOf = (text: string): LookKind | null => {
  const k = text
    .trim()
    .toLowerCase()
    .replace(/[-_\s]+/g, ' ');
  const known = lookKinds.find((x) => x === k || `${x}s` === k);
  return known ?? (Object.hasOwn(also, k) ? (also[k] ?? null) : null);
};

/**
 * Opens the handbook at a kind (`thread`, `drill`, `clearance`, `tap drill`, `hardware`, `dowel`, `fit`, `material`,
 * `paper`, `face`) for one thing.
 */
export const look = (kind: string, what: string): Looked => {
  const known = kindOf(kind);
  if (known === null)
    return {
      ok: false,
      why: `the handbook has no “${kind.trim().slice(0, 60)}”; it has ${lookKinds.join(', ')}`,
      nearest: nearestOf(kind, lookKinds),
    };
  return pages[known](what);
};
