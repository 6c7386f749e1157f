import {
  type Motion,
  type Point,
  type Requirement,
  type Speech,
  apply,
  distance,
  register,
  say,
  sayAll,
} from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { dowelLimits } from '@fayplate/handbook';
import type { MatedFace, Plate, PlateHole } from '@fayplate/plate';
import type { Proof } from '../types.js';
import { registerSizes } from './registers.js';
import { tried } from './tried.js';

/** Offset that a coupling bears where the job does not say, mm: as in the design. */
const USUAL_OFFSET = 0.2;

/**
 * How far a part's shaft was moved off its place on the plate by its locators as drilled, and the play that they leave
 * it, mm.
 */
interface Moved {
  readonly by: Point;
  readonly play: number;
  /** The locators, by the plate's names. */
  readonly ids: readonly string[];
}

const byRegister = (plate: Plate, mated: readonly MatedFace[], own: MatedFace, proof: Proof): Moved | null => {
  const bore = plate.bores.find((b) => (b.kind === 'recess' || b.kind === 'spigot') && b.part?.face === own.face);
  const at = bore === undefined ? undefined : proof.places?.get(bore.id);
  if (bore === undefined || at === undefined) return null;
  const sizes = registerSizes(plate, mated, proof, bore.id);
  // One that nobody measured is taken as drawn, with the most play that its limits leave.
  const i = own.pattern.ids.indexOf(bore.part?.feature ?? '');
  const part = 2 * (own.pattern.radii[i] ?? bore.diameter / 2);
  const drawn = bore.kind === 'recess' ? (bore.limits?.[1] ?? bore.diameter) : (bore.limits?.[0] ?? bore.diameter);
  return {
    by: { x: at.x - bore.x, y: at.y - bore.y },
    play: (sizes === null ? Math.abs(drawn - part) : Math.abs(sizes.drilled - sizes.part)) / 2,
    ids: [bore.id],
  };
};

/** Two dowels: the first holds the place, the second the turn. A slot that nothing places is where it was drawn. */
const byDowels = (plate: Plate, own: MatedFace, proof: Proof): Moved | null => {
  const holes = plate.holes.filter((h) => (h.as === 'dowel' || h.as === 'slot') && h.part?.face === own.face);
  const [first, second] = holes;
  const at = (h: PlateHole): Point | undefined => proof.places?.get(h.id);
  const measured = holes.filter((h) => at(h) !== undefined);
  if (first === undefined || second === undefined || at(first) === undefined || measured.length === 0) return null;
  const shaft = own.axis?.at ?? own.centre;
  const carried: Motion = register([first, second], [at(first) ?? first, at(second) ?? { x: second.x, y: second.y }]);
  // The first dowel is where it was drilled; what is left of the fit is only the turn.
  const turned = apply({ ...carried, shift: { x: 0, y: 0 } }, { x: shaft.x - first.x, y: shaft.y - first.y });
  const held = at(first) ?? first;
  const lever = distance(shaft, first) / Math.max(distance(first, second), 1e-9);
  const play = (h: PlateHole): number => {
    const pin = dowelLimits(h.fastening?.nominal ?? h.diameter)?.least ?? h.fastener ?? h.diameter;
    return Math.max(0, ((proof.sizes?.get(h.id)?.value ?? h.limits?.[1] ?? h.diameter) - pin) / 2);
  };
  return {
    by: { x: held.x + turned.x - shaft.x, y: held.y + turned.y - shaft.y },
    play: play(first) + lever * (play(first) + play(second)),
    ids: [first.id, second.id],
  };
};

/**
 * How far what locates the two parts came to lie from where it was drawn, and its play as measured, against how far out
 * of line the shafts may be. A part that is dowelled at assembly is set true then; one that its bolts alone hold has
 * nothing to measure.
 */
export const inLine = (
  job: Job,
  plate: Plate,
  mated: readonly MatedFace[],
  proof: Proof,
  speech: Speech,
): readonly Requirement[] => {
  if (plate.alignment === null || job.plate?.nothingPasses === true) return [];
  const moved = mated.map((own): Moved | null => {
    const as = job.plate?.locate.get(own.face)?.as;
    if (as === 'register') return byRegister(plate, mated, own, proof);
    if (as === 'own dowels') return byDowels(plate, own, proof);
    return as === 'new dowels' ? { by: { x: 0, y: 0 }, play: 0, ids: [] } : null;
  });
  const [a, b] = moved;
  if (a == null || b == null || a.ids.length + b.ids.length === 0) return [];
  const apart = Math.hypot(b.by.x - a.by.x, b.by.y - a.by.y);
  const offset = plate.alignment.offset.nominal + apart + a.play + b.play;
  const limit = job.plate?.shafts?.apart.plusMinus ?? job.plate?.alignment?.offset ?? USUAL_OFFSET;
  const mm = (v: number): string => say(v, speech, speech.unit === 'in' ? 4 : 3);
  const ids = [...a.ids, ...b.ids];
  return [
    tried({
      id: 'drilled-offset',
      title: 'shafts in line as drilled',
      ok: offset <= limit + 1e-9,
      value: offset,
      limit,
      because:
        `${sayAll(ids)} as drilled let the shafts ` +
        `run ${mm(offset)} out of line, where at most ${mm(limit)} is allowed`,
    }),
  ];
};
