import type { Requirement } from '@fayplate/core';
import type { Draft } from '../draft.js';
import type { CheckId } from '../types.js';
import { borePassesShaft, chanceOfGoingOn, shaftDirection, shaftOffset, shaftTilt, shaftUnknowns } from './shaft.js';
import { type CheckKind, type Finding, named } from './check.js';
import { holeToEdge, metalToEdge } from './edges.js';
import { counterboreFloor, countersinkFloor, drillPointFloor, floorBetweenCuts, recessFloor } from './floors.js';
import { assemblyOrder, capScrewUnderPart, headUnknowns, nutUnderPart } from './heads.js';
import { headSeat, roomForSocket } from './sockets.js';
import { dowelCount, dowelsFight } from './dowels.js';
import { locatingUnknowns, registerDepth, registerEntry, registerFit, registerWall } from './locating.js';
import { layingUnknowns } from './laying.js';
import { setRoom } from './setting.js';
import { clearAbove, clearBeside, jackingOnMetal, standingUnderPart, standingUnknowns } from './standing.js';
import { dowelEnd, studEnd, studLean, studLength, studUnknowns } from './studs.js';
import { boltEndRoom, boltPassesPart, partThread, plateThread } from './threads.js';
import { threadUnknowns } from './thread-unknowns.js';
import { holeToRaisedSpigot, raisedSpigotWall, webBetweenCuts } from './webs.js';

/**
 * Every check, in the order of the report. A new one is a record in its subject's file, its id in `CheckId`, and
 * a line here.
 */
export const checks: Readonly<Record<CheckId, CheckKind>> = {
  'web-between-cuts': webBetweenCuts,
  'hole-to-raised-spigot': holeToRaisedSpigot,
  'raised-spigot-wall': raisedSpigotWall,
  'hole-to-edge': holeToEdge,
  'metal-to-edge': metalToEdge,
  'counterbore-floor': counterboreFloor,
  'countersink-floor': countersinkFloor,
  'drill-point-floor': drillPointFloor,
  'recess-floor': recessFloor,
  'floor-between-cuts': floorBetweenCuts,
  'nut-under-part': nutUnderPart,
  'cap-screw-under-part': capScrewUnderPart,
  'socket-room': roomForSocket,
  'head-seat': headSeat,
  'assembly-order': assemblyOrder,
  'stud-length': studLength,
  'stud-end': studEnd,
  'dowel-end': dowelEnd,
  'stud-lean': studLean,
  'plate-thread': plateThread,
  'bolt-end-room': boltEndRoom,
  'bolt-passes-part': boltPassesPart,
  'part-thread': partThread,
  'clear-beside': clearBeside,
  'clear-above': clearAbove,
  'standing-under-part': standingUnderPart,
  'bore-passes-shaft': borePassesShaft,
  'register-fit': registerFit,
  'register-depth': registerDepth,
  'register-entry': registerEntry,
  'register-wall': registerWall,
  'dowel-count': dowelCount,
  'dowels-fight': dowelsFight,
  'jacking-on-metal': jackingOnMetal,
  'set-room': setRoom,
  'goes-on': chanceOfGoingOn,
  'shaft-offset': shaftOffset,
  'shaft-direction': shaftDirection,
  'shaft-tilt': shaftTilt,
};

const list = Object.values(checks);

interface Checked {
  readonly findings: readonly Finding[];
  readonly unknowns: readonly Requirement[];
}

/** A remark that is the same for every hole is said once. */
const once = (all: readonly Requirement[]): readonly Requirement[] =>
  all.filter((r, i) => all.findIndex((x) => x.id === r.id && x.because === r.because) === i);

/** What every check finds on a draft. */
export const findingsOf = (draft: Draft): readonly Finding[] =>
  list.flatMap((kind) => kind.find(draft).map(named(kind)));

/** Every check of a draft, and what could not be checked. */
export const checkDraft = (draft: Draft): Checked => ({
  findings: findingsOf(draft),
  unknowns: [
    ...once(draft.made.remarks),
    ...headUnknowns(draft),
    ...studUnknowns(draft),
    ...threadUnknowns(draft),
    ...locatingUnknowns(draft),
    ...layingUnknowns(draft),
    ...shaftUnknowns(draft),
    ...standingUnknowns(draft),
  ],
});
