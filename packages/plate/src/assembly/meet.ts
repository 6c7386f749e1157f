import type { Face } from '@fayplate/job';
import type { GoesOnSpec, Joint, MatedFace, PlateBore, PlateHole } from '../types.js';

/** ± of one hole's place where the job does not say: paper and centre punch, the worse of the usual two, mm. Source: common practice. */
export const usualDrilling = 0.5;

/** What `meeting` needs of a plate for one of its faces. */
export interface Meeting {
  readonly face: Face;
  readonly mated: MatedFace;
  readonly holes: readonly PlateHole[];
  readonly bores: readonly PlateBore[];
  /** ± of one hole's place, mm; null: the usual. */
  readonly drilling: number | null;
}

const half = (hole: number, pin: number): number => (hole - pin) / 2;

/** Radial room that the part's own hole gives its bolt: none where the bolt is held there, by a thread or as a stud. */
const roomInPart = (m: Meeting, id: string, bolt: number): number => {
  const feature = m.face.features.find((f) => f.id === id);
  const radius = m.mated.pattern.radii[m.mated.pattern.ids.indexOf(id)] ?? null;
  return feature?.kind === 'hole' && radius !== null ? Math.max(0, radius - bolt / 2) : 0;
};

/**
 * Radial room of a fastener. Clearance: the plate's hole and, where the bolt also passes a plain hole of the part, that one's
 * too (the floating case of ASME Y14.5); tapped or set stud: the part's hole alone (the fixed case). Null: nothing meets.
 */
const roomOf = (m: Meeting, hole: PlateHole, id: string): readonly [number, number] | null => {
  const bolt = hole.fastener ?? hole.fastening?.largest ?? null;
  if (bolt === null) return null;
  const part = m.face.features.find((f) => f.id === id);
  const [least, most] = hole.limits ?? [hole.diameter, hole.diameter];
  switch (hole.as) {
    case 'clearance': {
      const own = part?.thread === null && part.kind === 'hole' ? roomInPart(m, id, bolt) : 0;
      return [half(least, bolt) + own, half(most, bolt) + own];
    }
    case 'dowel':
    case 'slot':
      return [half(least, bolt), half(most, bolt)];
    case 'tapped':
    case 'set stud': {
      const radius = m.mated.pattern.radii[m.mated.pattern.ids.indexOf(id)] ?? null;
      return radius === null ? null : [radius - bolt / 2, radius - bolt / 2];
    }
    default:
      return null;
  }
};

const holeJoint = (m: Meeting, hole: PlateHole): Joint | null => {
  const id = hole.feature?.slice(m.face.name.length + 1) ?? '';
  const part = m.mated.pattern.points[m.mated.pattern.ids.indexOf(id)];
  const room = roomOf(m, hole, id);
  if (part === undefined || room === null) return null;
  return {
    id,
    role: hole.as === 'dowel' || hole.as === 'slot' ? 'locator' : 'fastener',
    plate: { x: hole.x, y: hole.y },
    part,
    room,
    along: hole.as === 'slot' ? (hole.slot?.angle ?? null) : null,
    made: m.drilling ?? usualDrilling,
  };
};

/** A spigot of the part in a recess of the plate, or a raised spigot of the plate in a bore of the part; the other holes are measured from it. */
const boreJoint = (m: Meeting, bore: PlateBore): Joint | null => {
  if (bore.kind !== 'recess' && bore.kind !== 'spigot') return null;
  const id = bore.feature?.slice(m.face.name.length + 1) ?? '';
  const at = m.mated.pattern.ids.indexOf(id);
  const part = m.mated.pattern.points[at];
  const radius = m.mated.pattern.radii[at] ?? null;
  const diameter = m.face.features.find((f) => f.id === id)?.diameter?.value ?? (radius === null ? null : 2 * radius);
  if (part === undefined || diameter === null) return null;
  const [least, most] = bore.limits ?? [bore.diameter, bore.diameter];
  const room = bore.kind === 'recess' ? ([half(least, diameter), half(most, diameter)] as const) : ([half(diameter, most), half(diameter, least)] as const);
  return { id, role: 'locator', plate: { x: bore.x, y: bore.y }, part, room, along: null, made: 0 };
};

/** Rows and columns of a pattern's covariance for these features. */
export const covarianceFor = (mated: MatedFace, ids: readonly string[]): readonly (readonly number[])[] => {
  const at = ids.flatMap((id) => {
    const i = mated.pattern.ids.indexOf(id);
    return [2 * i, 2 * i + 1];
  });
  return at.map((r) => at.map((c) => mated.pattern.covariance[r]?.[c] ?? 0));
};

/**
 * Everything of one face that must enter the plate or be entered by it: fasteners with their rooms, dowels and register as
 * locators, and the covariance of the part's places. Holes of which the pin or the part's hole is not known are left out.
 */
export const meeting = (m: Meeting): GoesOnSpec => {
  const own = (feature: string | null): boolean => feature?.startsWith(`${m.face.name}.`) === true;
  const joints = [...m.bores.filter((b) => own(b.feature)).map((b) => boreJoint(m, b)), ...m.holes.filter((h) => own(h.feature)).map((h) => holeJoint(m, h))].filter(
    (j) => j !== null,
  );
  return { joints, covariance: covarianceFor(m.mated, joints.map((j) => j.id)) };
};
