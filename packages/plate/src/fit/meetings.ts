import { dowelLimits } from '@fayplate/handbook';
import type { Face, Fit } from '@fayplate/job';
import { type Placed, diameterPlusMinus, placedOf } from '../desk.js';
import { nominalDowel } from '../treat/dowel.js';
import { isTapped, pass, passPlain, threadOf } from '../treat/thread.js';
import type { Joint, MatedFace, PlateBore, PlateHole } from '../types.js';

export type Clearance = readonly [number, number];

/** A hole or register of the plate and what of the part comes into it. */
export interface Meeting {
  readonly joint: Joint;
  readonly cut: PlateHole | PlateBore;
  readonly placed: Placed;
}

/** Every place where a part and the plate meet. */
interface Meetings {
  /** The register first, then the holes in the plate's order. */
  readonly meetings: readonly Meeting[];
  /** Features that are left out because a size is not known. */
  readonly unsized: readonly string[];
}

const half = (hole: number, pin: number): number => (hole - pin) / 2;

/**
 * Radial clearance of one hole and what enters it, with another `fit` than the stated one where given. Null where a
 * size is not known.
 */
export const radialClearance = (hole: PlateHole, p: Placed, fit: Fit | null): Clearance | null => {
  const pin = hole.fastening?.largest ?? null;
  if (hole.fastening === null || pin === null) return null;
  const [least, most] = hole.limits ?? [hole.diameter, hole.diameter];
  if (hole.as === 'dowel' || hole.as === 'slot')
    return [half(least, pin), half(most, dowelLimits(nominalDowel(pin))?.least ?? pin)];
  // The bolt is held in the plate: what clearance there is, the part's own hole gives (the fixed case of ASME Y14.5).
  if (hole.as === 'tapped' || hole.as === 'set stud')
    return p.diameter === null ? null : [half(p.diameter, pin), half(p.diameter, pin)];
  const thread = threadOf(hole.fastening.thread);
  const sized = fit === null ? null : thread === null ? passPlain(pin, fit) : pass(thread, fit);
  // A bolt through two loose holes has the clearance of both (the floating case).
  const more =
    p.feature.kind === 'hole' && !isTapped(p) && p.diameter !== null ? Math.max(0, half(p.diameter, pin)) : 0;
  return [half(sized?.diameter ?? least, pin) + more, half(sized?.most ?? most, pin) + more];
};

/**
 * The register of a face: its spigot in the plate's recess, or the plate's in its bore, either known to its ±; the
 * plate's holes are measured from it.
 */
const registerMeeting = (bores: readonly PlateBore[], placed: readonly Placed[]): Meeting | null => {
  const bore = bores.find(
    (b) => (b.kind === 'recess' || b.kind === 'spigot') && placed.some((p) => p.name === b.feature),
  );
  const centre = placed.find((p) => p.name === bore?.feature);
  if (bore === undefined || centre === undefined || centre.diameter === null) return null;
  const [least, most] = bore.limits ?? [bore.diameter, bore.diameter];
  const [low, high] = [centre.diameter - diameterPlusMinus(centre), centre.diameter + diameterPlusMinus(centre)];
  const clearance: Clearance =
    bore.kind === 'recess' ? [half(least, high), half(most, low)] : [half(low, most), half(high, least)];
  return {
    cut: bore,
    placed: centre,
    joint: {
      id: centre.feature.id,
      role: 'locator',
      plate: { x: bore.x, y: bore.y },
      part: centre.at,
      clearance,
      along: null,
      made: 0,
    },
  };
};

/**
 * What of one part meets the plate: its register or dowels, which locate it, and its fasteners. `made`: ± of a hole's
 * place, mm.
 */
export const meetingsOf = (
  face: Face,
  mated: MatedFace,
  plate: { readonly holes: readonly PlateHole[]; readonly bores: readonly PlateBore[] },
  made: number,
): Meetings => {
  const placed = placedOf(face, mated);
  const register = registerMeeting(plate.bores, placed);
  const unsized: string[] = [];
  const holes = plate.holes.flatMap((hole): readonly Meeting[] => {
    const p = placed.find((q) => q.name === hole.feature);
    if (p === undefined) return [];
    const clearance = radialClearance(hole, p, null);
    if (clearance === null) {
      unsized.push(p.feature.id);
      return [];
    }
    const locates = hole.as === 'dowel' || hole.as === 'slot';
    const joint: Joint = {
      id: p.feature.id,
      role: locates ? 'locator' : 'fastener',
      plate: { x: hole.x, y: hole.y },
      part: p.at,
      clearance,
      along: hole.slot === null ? null : hole.slot.angle,
      made,
    };
    return [{ joint, cut: hole, placed: p }];
  });
  return { meetings: [...(register === null ? [] : [register]), ...holes], unsized };
};
