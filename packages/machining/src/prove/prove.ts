import { type Point, distance } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { type MatedFace, type Plate, type PlateHole, goesOn, isTapped, usualDrilling } from '@fayplate/plate';
import type { Pattern } from '@fayplate/survey';
import { measurable, placesOf } from '../checks/places.js';
import type { Proof, ProvedFace, ProvedHole } from '../types.js';
import { easeOptions } from './ease.js';
import { type Measured, faceJoints } from './joints.js';
import { layOn, radius95 } from './lay.js';
import { isPlainlyOff, likelyMistakes, mistakeIn } from './mistake.js';
import { planMissing, planReadings } from './plan.js';
import { renumbering } from './renumber.js';
import { type Shape, drilledShape } from './shape.js';

export interface ProveOptions {
  readonly trials?: number;
  readonly seed?: number;
  readonly progress?: (done: number, of: number) => void;
}

/**
 * Does the drilled plate go on? Its own readings are adjusted by the survey, laid on the design, and every face is tried on it with both sides' ±.
 * Before there is anything drilled: which readings to take.
 */
export const prove = (job: Job, plate: Plate, mated: readonly MatedFace[], options: ProveOptions = {}): Proof => {
  const { drilled } = job;
  if (drilled === null || drilled.readings.every((r) => r.aside)) {
    return { state: 'not drilled', holes: [], unmeasured: [], goesOn: new Map(), mistake: null, renumbered: null, hand: { settled: false, by: null }, plan: planReadings(plate, job), located: null, notes: [], ok: null };
  }
  const mistakes = likelyMistakes(plate, mated);
  const shape = drilledShape(drilled, plate, job, mistakes.map((m) => m.places));
  const designed = new Map([...placesOf(plate)].map(([id, p]): [string, Point] => [id, { x: p.x, y: p.y }]));
  const asRead = layOn(shape.pattern, designed);
  const making = job.plate?.drilling ?? usualDrilling;
  const names = isPlainlyOff(asRead.ids, asRead.points, designed, !shape.hand.settled, making) ? renumbering(asRead.ids, asRead.points, plate, !shape.hand.settled) : null;
  const laid = names === null ? asRead : layOn({ ...shape.pattern, ids: shape.pattern.ids.map((id) => names.get(id) ?? id) }, designed);
  const unmeasured = measurable(plate).flatMap((p) => (laid.ids.includes(p.id) ? [] : [p.id]));
  const mistake = mistakeIn(asRead.ids, asRead.points, designed, mistakes, shape.hand.settled, making);
  const readAs = new Map([...(names ?? [])].map(([read, is]) => [is, read]));
  const holes = laid.ids.flatMap((id, i) => provedHole(id, i, laid, plate, job) ?? []);
  const faces = mated.map((m): [string, ProvedFace | null] => [m.face, proveFace(m, plate, job, { laid, readAs, shape }, options)]);
  const faceResults = new Map(faces.flatMap(([name, f]) => (f === null ? [] : [[name, f] as const])));
  const sound = shape.located.stopped.converged && shape.located.suspects.length === 0;
  return {
    state: 'measured',
    holes,
    unmeasured,
    goesOn: faceResults,
    mistake,
    renumbered: names,
    hand: shape.hand,
    plan: planMissing(plate, job, shape.hand.settled),
    located: shape.located,
    notes: notesOf(plate, shape, unmeasured),
    ok: laid.ids.length === 0 || faceResults.size === 0 ? null : sound && (mistake === null || names !== null) && unmeasured.length === 0 && [...faceResults.values()].every((f) => f.slack >= 0),
  };
};

const provedHole = (id: string, i: number, laid: Pattern, plate: Plate, job: Job): ProvedHole | null => {
  const hole = plate.holes.find((h) => h.id === id);
  const at = laid.points[i];
  if (hole === undefined || at === undefined) return null;
  const position = 2 * distance(at, hole);
  const allowed = allowedFor(hole, job);
  return { id, dx: at.x - hole.x, dy: at.y - hole.y, position, within: radius95(laid, i), allowed, ok: allowed === null || position <= allowed };
};

/** ASME Y14.5, nonmandatory appendix B: floating T = H − F; fixed, shared evenly with the tapped mate, T = (H − F) / 2. H at its least, F at its largest. */
export const allowedFor = (hole: PlateHole, job: Job): number | null => {
  if (hole.fastener === null || hole.as !== 'clearance') return null;
  const [face, ...rest] = hole.feature?.split('.') ?? [];
  const feature = job.faces.find((f) => f.name === face)?.features.find((f) => f.id === rest.join('.'));
  const play = (hole.limits?.[0] ?? hole.diameter) - hole.fastener;
  return feature !== undefined && isTapped({ feature, diameter: feature.diameter?.value ?? null }) ? play / 2 : play;
};

/** The plate as measured, under the names that its holes really have. */
interface AsMeasured {
  readonly laid: Pattern;
  /** Real name → name in the readings, where they differ. */
  readonly readAs: ReadonlyMap<string, string>;
  readonly shape: Shape;
}

const proveFace = (mated: MatedFace, plate: Plate, job: Job, { laid, readAs, shape }: AsMeasured, options: ProveOptions): ProvedFace | null => {
  const measured = new Map(laid.ids.map((id, i): [string, Measured] => [id, { at: laid.points[i] ?? { x: 0, y: 0 }, diameter: sizeRead(readAs.get(id) ?? id, job, shape) }]));
  const covariance = (ids: readonly string[]): readonly (readonly number[])[] => {
    const rows = ids.flatMap((id) => [2 * laid.ids.indexOf(id), 2 * laid.ids.indexOf(id) + 1]);
    return rows.map((r) => rows.map((c) => laid.covariance[r]?.[c] ?? 0));
  };
  const met = faceJoints(plate, job, mated, measured, covariance);
  if (met === null) return null;
  const { spec, costs, holes, leftOut } = met;
  if (!spec.joints.some((j) => j.role === 'fastener') || !holes.some((h) => measured.has(h))) return null;
  const found = goesOn(spec, options);
  const { slack, shift, turn, tight } = found.nominal;
  const ease = slack >= 0 || slack < -FAR ? [] : easeOptions(spec.joints.map((joint, i) => ({ joint, hole: holes[i] ?? joint.id, cost: costs[i] ?? 1 })), 4 * FAR);
  return {
    probability: found.probability, standardError: found.standardError, slack, shift, turn, tight, leftOut, ease,
  };
};

/** Beyond this no one files a hole to fit, mm: the plate is drilled wrong. */
const FAR = 5;

/** The diameter that a `dia` reading gives. */
const sizeRead = (id: string, job: Job, shape: Shape): Measured['diameter'] => {
  const read = job.drilled?.readings.some((r) => r.kind === 'dia' && !r.aside && r.features[0] === id) === true;
  const f = shape.located.features.get(id);
  return !read || f?.radius === null || f === undefined ? null : { value: 2 * f.radius, plusMinus: 4 * (f.radiusSigma ?? 0) };
};

const notesOf = (plate: Plate, shape: Shape, unmeasured: readonly string[]): readonly string[] => {
  const notes: string[] = [];
  const bores = plate.bores.filter((b) => b.feature !== null && unmeasured.includes(b.id));
  for (const b of bores) notes.push(`No reading reaches ${b.id}, the register for ${b.feature ?? ''}: it is taken to lie where the drawing has it among the holes.`);
  const measured = plate.holes.filter((h) => shape.pattern.ids.includes(h.id));
  for (const face of plate.faces) {
    const own = plate.holes.filter((h) => h.feature?.startsWith(`${face}.`) === true);
    if (measured.length > 0 && own.length > 0 && own.every((h) => unmeasured.includes(h.id)))
      notes.push(`No reading ties the ${face}’s holes to the others: they would read the same turned or mirrored against them. The readings below would tell.`);
  }
  if (!shape.located.stopped.converged) notes.push(`The readings do not agree on any shape: ${shape.located.stopped.why}.`);
  for (const w of shape.located.warnings) notes.push(w);
  return notes;
};
