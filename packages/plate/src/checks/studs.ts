import type { Draft } from '../draft.js';
import type { Placed } from '../desk.js';
import { footprintOf, meets } from '../parts/footprint.js';
import { studNeeds } from '../treat/sink.js';
import { fastenOf } from '../treat/holes.js';
import { threadOf } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import { type Finding, finding } from './check.js';

export const featureOf = (draft: Draft, hole: PlateHole): Placed | null => draft.desk.placed.find((p) => p.name === hole.feature) ?? null;

/** From the part's face to the seat of nut or head on the plate's far side, shims included, mm. */
export const grip = (draft: Draft, hole: PlateHole, p: Placed): number => {
  const sink = hole.sink !== null && hole.sink.kind !== 'countersunk' ? hole.sink.depth : 0;
  const seat = p.side === 'A' ? hole.land[1] - sink : draft.desk.thickness - hole.land[0] - sink;
  return seat + draft.desk.shims;
};

/** Depth of plate that a fastener leans through at the clearance diameter: what is sunk wider does not count, mm. */
const leanLength = (hole: PlateHole): number => hole.land[1] - hole.land[0] - (hole.sink !== null && hole.sink.kind !== 'countersunk' ? hole.sink.depth : 0);

/**
 * A stud that leans by θ, held at the plate's near side, needs a hole of radius r / cos θ + L tan θ to pass L mm of plate:
 * the level section of a leaning cylinder is an ellipse of half-width r / cos θ, and it wanders by L tan θ.
 */
const leaning = (hole: PlateHole, p: Placed): readonly Finding[] => {
  const lean = p.feature.lean;
  if (lean === null || hole.fastener === null || hole.as !== 'clearance') return [];
  const near = hole.fastener / 2 / Math.cos(lean) + leanLength(hole) * Math.tan(lean);
  return [finding('a leaning stud clears the whole thickness', [hole.id], hole.diameter / 2 - near, 0, { source: 'geometry of a leaning cylinder', at: hole })];
};

const oneStud = (draft: Draft, hole: PlateHole, p: Placed): readonly Finding[] => {
  const thread = threadOf(hole.fastening?.thread ?? null);
  const stands = p.feature.stands;
  if (p.feature.kind !== 'stud' || hole.fastening?.kind !== 'stud' || stands === null) return [];
  const out: Finding[] = [];
  const needs = thread === null ? null : studNeeds(thread, fastenOf(draft.desk, p.face.name).washer);
  if (needs !== null) out.push(finding('stud left for its nut and washer', [hole.id], stands - grip(draft, hole, p), needs, { source: 'common practice: nut, washer and one thread showing', at: hole }));
  const other = p.side === 'A' ? 1 : 0;
  if (hole.fastener !== null && meets(footprintOf(draft.desk, other), hole, hole.fastener / 2) === 'yes') {
    const end = stands - draft.desk.thickness - draft.desk.shims;
    out.push(finding("stud's end under the other part", [hole.id, draft.desk.faces[other].name], end, 0, { source: 'geometry', sense: 'most', at: hole }));
  }
  return out;
};

export interface StudFindings {
  readonly findings: readonly Finding[];
  readonly unknowns: readonly string[];
}

export const studFindings = (draft: Draft): StudFindings => {
  const findings: Finding[] = [];
  const unmeasured = new Map<string, string[]>();
  for (const hole of draft.holes) {
    const p = featureOf(draft, hole);
    if (p === null) continue;
    findings.push(...oneStud(draft, hole, p), ...leaning(hole, p));
    if (p.feature.kind === 'stud' && hole.fastening?.kind === 'stud' && p.feature.stands === null) {
      unmeasured.set(p.face.name, [...(unmeasured.get(p.face.name) ?? []), p.feature.id]);
    }
  }
  return { findings, unknowns: [...unmeasured].map(([face, ids]) => `How far the studs of ${face} stand out is not given (${ids.join(', ')}): write \`stands\`, so that their length can be checked.`) };
};

