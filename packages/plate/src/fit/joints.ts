import { clearanceFits, dowelLimits } from '@fayplate/handbook';
import type { Fit } from '@fayplate/job';
import type { Desk, Placed } from '../desk.js';
import { usualDrilling } from '../drilling.js';
import { nominalDowel } from '../treat/dowel.js';
import { fastenOf } from '../treat/holes.js';
import { isTapped, pass, passPlain, threadOf } from '../treat/thread.js';
import type { GoesOnSpec, Joint, MatedFace, PlateBore, PlateHole } from '../types.js';

type Room = readonly [number, number];

export interface FaceJoints {
  readonly spec: GoesOnSpec;
  /** Smallest first: what the rooms would be with another fit; empty where the fit is not the plate's to choose. */
  readonly fits: readonly { readonly name: Fit; readonly rooms: readonly Room[] }[];
  /** Smallest first: the rooms with the part's own holes opened out to a clearance drill, for bolts that the plate holds. */
  readonly opened: readonly { readonly name: string; readonly rooms: readonly Room[] }[];
  /** Features that are left out because a size is not known. */
  readonly unsized: readonly string[];
}

const half = (hole: number, pin: number): number => (hole - pin) / 2;

/** Radial room of one hole and what enters it, with another `fit` than the stated one where given. Null where a size is not known. */
const roomOf = (hole: PlateHole, p: Placed, fit: Fit | null): Room | null => {
  const pin = hole.fastening?.largest ?? null;
  if (hole.fastening === null || pin === null) return null;
  const [least, most] = hole.limits ?? [hole.diameter, hole.diameter];
  if (hole.as === 'dowel' || hole.as === 'slot') return [half(least, pin), half(most, dowelLimits(nominalDowel(pin))?.least ?? pin)];
  // The bolt is held in the plate: what room there is, the part's own hole gives (the fixed case of ASME Y14.5).
  if (hole.as === 'tapped' || hole.as === 'set stud') return p.diameter === null ? null : [half(p.diameter, pin), half(p.diameter, pin)];
  const thread = threadOf(hole.fastening.thread);
  const sized = fit === null ? null : thread === null ? passPlain(pin, fit) : pass(thread, fit);
  // A bolt through two loose holes has the room of both (the floating case).
  const more = p.feature.kind === 'hole' && !isTapped(p) && p.diameter !== null ? Math.max(0, half(p.diameter, pin)) : 0;
  return [half(sized?.diameter ?? least, pin) + more, half(sized?.most ?? most, pin) + more];
};

/** The register of a face: its spigot in the plate's recess, or the plate's in its bore; the plate's holes are measured from it. */
const registerJoint = (bores: readonly PlateBore[], placed: readonly Placed[]): Joint | null => {
  const bore = bores.find((b) => (b.kind === 'recess' || b.kind === 'spigot') && placed.some((p) => p.name === b.feature));
  const centre = placed.find((p) => p.name === bore?.feature);
  if (bore === undefined || centre === undefined || centre.diameter === null) return null;
  const [least, most] = bore.limits ?? [bore.diameter, bore.diameter];
  const room: Room = bore.kind === 'recess' ? [half(least, centre.diameter), half(most, centre.diameter)] : [half(centre.diameter, most), half(centre.diameter, least)];
  return { id: centre.feature.id, role: 'locator', plate: { x: bore.x, y: bore.y }, part: centre.at, room, along: null, made: 0 };
};

/** Joint covariance of some features' centres, rows x₁ y₁ x₂ y₂ …. */
const covarianceOf = (mated: MatedFace, ids: readonly string[]): GoesOnSpec['covariance'] => {
  const rows = ids.flatMap((id) => {
    const i = mated.pattern.ids.indexOf(id);
    return [2 * i, 2 * i + 1];
  });
  return rows.map((r) => rows.map((c) => mated.pattern.covariance[r]?.[c] ?? 0));
};

/** What must meet for one face to go on: its register or dowels, which locate it, and its fasteners. */
export const jointsOf = (desk: Desk, plate: { readonly holes: readonly PlateHole[]; readonly bores: readonly PlateBore[] }, index: 0 | 1): FaceJoints => {
  const face = desk.faces[index];
  const placed = desk.placed.filter((p) => p.face === face);
  const register = registerJoint(plate.bores, placed);
  const met = plate.holes.flatMap((hole) => {
    const p = placed.find((q) => q.name === hole.feature);
    return p === undefined ? [] : [{ hole, p, room: roomOf(hole, p, null) }];
  });
  const sized = met.flatMap(({ hole, p, room }) => {
    if (room === null) return [];
    const locates = hole.as === 'dowel' || hole.as === 'slot';
    const joint: Joint = {
      id: p.feature.id,
      role: locates ? 'locator' : 'fastener',
      plate: { x: hole.x, y: hole.y },
      part: p.at,
      room,
      along: hole.slot === null ? null : hole.slot.angle,
      made: desk.spec.drilling ?? usualDrilling,
    };
    return [{ joint, hole, p }];
  });
  const joints = [...(register === null ? [] : [register]), ...sized.map((s) => s.joint)];
  const withFit = (name: Fit): readonly Room[] => [
    ...(register === null ? [] : [register.room]),
    ...sized.map(({ joint, hole, p }) => (joint.role === 'fastener' && hole.as === 'clearance' ? roomOf(hole, p, name) : null) ?? joint.room),
  ];
  const held = sized.find((s) => s.hole.as === 'tapped' || s.hole.as === 'set stud')?.hole.fastening?.thread ?? null;
  const heldThread = threadOf(held);
  const opened = heldThread === null ? [] : clearanceFits.map((fit) => ({
    name: pass(heldThread, fit).drill ?? `${pass(heldThread, fit).diameter} mm`,
    rooms: [
      ...(register === null ? [] : [register.room]),
      ...sized.map(({ joint, hole, p }) => (hole.as === 'tapped' || hole.as === 'set stud' ? roomOf(hole, { ...p, diameter: Math.max(p.diameter ?? 0, pass(heldThread, fit).diameter) }, null) : null) ?? joint.room),
    ],
  }));
  const chosen = fastenOf(desk, face.name).as === 'clearance';
  return {
    spec: { joints, covariance: covarianceOf(desk.mated[index], joints.map((j) => j.id)) },
    fits: chosen ? clearanceFits.map((name) => ({ name, rooms: withFit(name) })) : [],
    opened,
    unsized: met.filter((m) => m.room === null).map((m) => m.p.feature.id),
  };
};
