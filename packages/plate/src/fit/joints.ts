import { covarianceOfPoints } from '@fayplate/core';
import { clearanceFits } from '@fayplate/handbook';
import type { Fit } from '@fayplate/job';
import type { Desk, Placed } from '../desk.js';
import { secondSettingOf, usualDrilling } from '../limits.js';
import { fastenOf } from '../treat/holes.js';
import { pass, threadOf } from '../treat/thread.js';
import type { GoesOnSpec, MatedFace, PlateBore, PlateHole } from '../types.js';
import { sayOpened } from '../words/say.js';
import { type Clearance, meetingsOf, radialClearance } from './meetings.js';

export interface FaceJoints {
  readonly spec: GoesOnSpec;
  /**
   * Smallest first: what the clearances would be with another fit; empty where the fit is not the plate's to choose.
   */
  readonly fits: readonly { readonly name: Fit; readonly clearances: readonly Clearance[] }[];
  /**
   * Smallest first: the clearances with the part's own holes opened out to a clearance drill, for bolts that the plate
   * holds.
   */
  readonly opened: readonly {
    readonly name: string;
    readonly diameter: number;
    readonly clearances: readonly Clearance[];
  }[];
  /** Features that are left out because a size is not known. */
  readonly unsized: readonly string[];
}

/** Joint covariance of some features' centres, rows x₁ y₁ x₂ y₂ …. */
const covarianceOf = (mated: MatedFace, ids: readonly string[]): GoesOnSpec['covariance'] => {
  return covarianceOfPoints(
    mated.pattern.covariance,
    ids.map((id) => mated.pattern.ids.indexOf(id)),
  );
};

/** What must meet for one face to go on: its register or dowels, which locate it, and its fasteners. */
export const jointsOf = (
  desk: Desk,
  plate: { readonly holes: readonly PlateHole[]; readonly bores: readonly PlateBore[] },
  index: 0 | 1,
): FaceJoints => {
  const face = desk.faces[index];
  const { meetings, unsized } = meetingsOf(face, desk.mated[index], plate, desk.spec.drilling ?? usualDrilling);
  // Holes are drilled with the first register; the second is bored when the plate is set up again.
  const setAgain = index === 1 ? secondSettingOf(desk) : 0;
  const joints = meetings.map((m) => ('as' in m.cut ? m.joint : { ...m.joint, made: setAgain }));
  /** Rooms with those holes sized again that `sized` answers for. */
  const clearances = (sized: (hole: PlateHole, p: Placed) => Clearance | null): readonly Clearance[] =>
    meetings.map(({ joint, cut, placed }) => ('as' in cut ? sized(cut, placed) : null) ?? joint.clearance);
  const withFit = (name: Fit): readonly Clearance[] =>
    clearances((hole, p) => (hole.as === 'clearance' ? radialClearance(hole, p, name) : null));
  const holds = (hole: PlateHole): boolean => hole.as === 'tapped' || hole.as === 'set stud';
  const held = meetings.flatMap(({ cut }) => ('as' in cut && holds(cut) ? [cut] : []))[0]?.fastening?.thread ?? null;
  const heldThread = threadOf(held);
  const opened =
    heldThread === null
      ? []
      : clearanceFits.map((fit) => ({
          diameter: pass(heldThread, fit).diameter,
          name: sayOpened(pass(heldThread, fit).diameter, pass(heldThread, fit).drill, desk.job.units),
          clearances: clearances((hole, p) =>
            holds(hole)
              ? radialClearance(
                  hole,
                  { ...p, diameter: Math.max(p.diameter ?? 0, pass(heldThread, fit).diameter) },
                  null,
                )
              : null,
          ),
        }));
  const chosen = fastenOf(desk, face.name).as === 'clearance';
  return {
    spec: {
      joints,
      covariance: covarianceOf(
        desk.mated[index],
        joints.map((j) => j.id),
      ),
    },
    fits: chosen ? clearanceFits.map((name) => ({ name, clearances: withFit(name) })) : [],
    opened,
    unsized,
  };
};
