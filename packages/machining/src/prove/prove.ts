import { type Point, thePart } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { type MatedFace, type Plate, usualDrilling } from '@fayplate/plate';
import { inKeeping, stoppedWords } from '@fayplate/survey';
import { notMeasured, placesOf } from '../checks/places.js';
import { layByGood, nearOf } from '../midway/lay-by-good.js';
import type { Proof, ProvedFace } from '../types.js';
import { type Trials, isSure, proveFace } from './face.js';
import { layOn } from './lay.js';
import { isPlainlyOff, likelyMistakes, mistakeIn } from './mistake.js';
import { boreWith, sizeRead } from './places.js';
import { planMissing, planReadings } from './plan.js';
import { provedHoles } from './position.js';
import { renumbering, servesMirrored } from './renumber.js';
import { swappedSizes } from './swapped.js';
import { type Shape, drilledShape } from './shape.js';

/** How many trials the chance that it goes on is counted from, and their seed. */
export type ProveOptions = Trials;

/**
 * Does the drilled plate go on? Its own readings are adjusted by the survey, laid on the design, and every face is
 * tried on it with both sides' ±. Before there is anything drilled: which readings to take.
 */
export const prove = (job: Job, plate: Plate, mated: readonly MatedFace[], options: ProveOptions = {}): Proof => {
  const { drilled } = job;
  if (drilled === null || drilled.readings.every((r) => r.aside)) {
    return {
      state: 'not drilled',
      holes: [],
      unmeasured: [],
      goesOn: new Map(),
      mistake: null,
      renumbered: null,
      hand: { settled: false, by: null },
      handSure: false,
      plan: planReadings(plate, job),
      located: null,
      notes: [],
      ok: null,
    };
  }
  const mistakes = likelyMistakes(plate, mated);
  const shape = drilledShape(
    drilled,
    plate,
    job,
    mistakes.map((m) => m.places),
  );
  const designed = new Map([...placesOf(plate)].map(([id, p]): [string, Point] => [id, { x: p.x, y: p.y }]));
  const asRead = layOn(shape.pattern, designed);
  const making = job.plate?.drilling ?? usualDrilling;
  const names = isPlainlyOff(asRead.ids, asRead.points, designed, !shape.hand.settled, making)
    ? renumbering(asRead.ids, asRead.points, plate, !shape.hand.settled)
    : null;
  const soFar = job.soFar ?? null;
  const laid =
    names === null
      ? soFar === null
        ? asRead
        : layByGood(asRead, designed, nearOf(making)).laid
      : layOn({ ...shape.pattern, ids: shape.pattern.ids.map((id) => names.get(id) ?? id) }, designed);
  const unmeasured = notMeasured(plate, laid.ids)
    .map((p) => p.id)
    .filter((id) => soFar === null || soFar.includes(id));
  const mistake = mistakeIn(asRead.ids, asRead.points, designed, mistakes, shape.hand.settled, making);
  const readAs = new Map([...(names ?? [])].map(([read, is]) => [is, read]));
  const faces = mated.map((m): [string, ProvedFace | null] => [
    m.face,
    proveFace(m, plate, job, { laid, readAs, shape }, options),
  ]);
  const faceResults = new Map(faces.flatMap(([name, f]) => (f === null ? [] : [[name, f] as const])));
  const handSure = shape.hand.settled || servesMirrored(laid.ids, laid.points, plate);
  const sound = shape.located.stopped.converged && inKeeping(shape.located);
  return {
    state: 'measured',
    holes: provedHoles(laid, plate, job),
    unmeasured,
    goesOn: faceResults,
    mistake,
    renumbered: names,
    hand: shape.hand,
    handSure,
    plan: planMissing(soFar === null ? plate : onlyCut(plate, soFar), job, shape.hand.settled),
    ...(soFar === null ? {} : { soFar }),
    laid,
    sizes: new Map(
      [...new Set([...laid.ids, ...drilled.features.map((f) => names?.get(f.id) ?? f.id)])].map((id) => [
        id,
        sizeRead(readAs.get(id) ?? id, shape.located),
      ]),
    ),
    places: new Map(laid.ids.map((id, i): [string, Point] => [id, laid.points[i] ?? { x: 0, y: 0 }])),
    located: shape.located,
    notes: notesOf(plate, job, shape, unmeasured),
    ok:
      laid.ids.length === 0 || faceResults.size === 0
        ? null
        : sound &&
          handSure &&
          (mistake === null || names !== null) &&
          unmeasured.length === 0 &&
          [...faceResults.values()].every(isSure),
  };
};

/** The plate with no more than is drilled of it: there is nothing else to measure. */
const onlyCut = (plate: Plate, soFar: readonly string[]): Plate => ({
  ...plate,
  holes: plate.holes.filter((h) => soFar.includes(h.id)),
  bores: plate.bores.filter((b) => soFar.includes(b.id)),
});

const notesOf = (plate: Plate, job: Job, shape: Shape, unmeasured: readonly string[]): readonly string[] => {
  const { ids } = shape.pattern;
  const notes: string[] = [];
  for (const bore of plate.bores.filter((b) => b.feature !== null && b.kind !== 'relief' && !ids.includes(b.id))) {
    const other = boreWith(bore, plate, ids);
    notes.push(
      other === null
        ? `No reading reaches ${bore.id}, the register for ${bore.feature ?? ''}: its place is taken from the drawing.`
        : `${bore.id}, the register for ${bore.feature ?? ''}, is taken to lie about the same centre as ${other.id}, ` +
            'as when both are cut in one setting.',
    );
  }
  for (const face of plate.faces) {
    const own = plate.holes.filter((h) => h.part?.face === face);
    if (ids.length > 0 && own.length > 0 && own.every((h) => unmeasured.includes(h.id)))
      notes.push(
        `No reading ties ${thePart(face)}’s holes to the others: they would read the same turned or mirrored. The ` +
          'readings below settle it.',
      );
  }
  if (!shape.located.stopped.converged)
    notes.push(`The readings do not agree on any shape: ${stoppedWords(shape.located.stopped.why)}.`);
  for (const [a, b] of shape.located.stopped.converged ? swappedSizes(plate, shape.located) : [])
    notes.push(`${a} and ${b} are drilled in each other's size.`);
  // The survey was given the drawing's own directions to start from; what it says of clocks is for the reader only
  // where the reader wrote some.
  const clocked = job.drilled?.features.some((f) => f.clock !== null) === true;
  return [...notes, ...shape.located.warnings.filter((w) => clocked || !/clock/i.test(w))];
};
