import type { Finding } from '../checks/check.js';
import * as change from './change.js';
import type { Change } from './change.js';
import {
  deeper,
  fitsFor,
  leftOut,
  looser,
  openedOut,
  screwedInstead,
  slimmer,
  sunk,
  tappedInstead,
  threadsFor,
  tighter,
} from './fasteners.js';
import { dowelledInstead, dowelsFor, extraMoved, registersFor } from './locating.js';
import { bores, cutBack, edges, longer, thicker, thinner, thinnerToLean } from './plate.js';
import { type Trying, faceOf, holesOf, shortOf } from './trying.js';

/** What might cure a failed check, best first; each is tried before it is told. */
export const candidates = (t: Trying, f: Finding): readonly Change[] => {
  const holes = holesOf(t.draft, f);
  const short = shortOf(t.draft, f);
  const turn = t.turn === null ? [] : [change.turned(t.job, t.draft.desk.clocking, t.turn)];
  const [hole] = holes;
  const extra = holes.find((h) => h.as === 'jacking' || h.as === 'lifting');
  const face = hole === undefined ? null : faceOf(hole);
  switch (f.rule) {
    case 'web between cuts':
      return [
        ...turn,
        ...extraMoved(t, extra),
        ...threadsFor(t, holes),
        ...fitsFor(t, holes, tighter),
        ...slimmer(t, holes),
        ...bores(t, f),
        ...leftOut(t, f),
      ];
    case 'floor between cuts':
      return [...turn, ...thicker(t, short), ...slimmer(t, holes), ...leftOut(t, f)];
    case 'hole to edge':
    case 'metal to the edge':
      return [...edges(t, f), ...turn, ...threadsFor(t, holes), ...fitsFor(t, holes, tighter), ...leftOut(t, f)];
    case 'floor under the counterbore':
    case 'floor under the countersink':
    case 'floor of the recess':
      return [...thicker(t, short), ...slimmer(t, holes), ...registersFor(t, f, 'depth')];
    case 'floor under the drill point':
      return [
        ...thicker(t, short),
        ...(face === null ? [] : [change.fastened(t.job, face, `tap the holes for ${face} through`, { blind: false })]),
        ...threadsFor(t, holes),
      ];
    case 'thread engaged in the plate':
      return [...threadsFor(t, holes), ...thicker(t, short)];
    case 'thread engaged in the part':
    case "room below the bolt's end":
      return deeper(t, f, short);
    case 'hole to raised spigot':
      return [
        ...turn,
        ...slimmer(t, holes),
        ...threadsFor(t, holes),
        ...fitsFor(t, holes, tighter),
        ...dowelledInstead(t, f),
        ...leftOut(t, f),
      ];
    case "bolt passes the part's own hole":
      return [...screwedInstead(t, holes), ...threadsFor(t, holes), ...openedOut(t, f)];
    case 'room for the socket':
    case 'seat of the nut or head':
      return [
        ...turn,
        ...extraMoved(t, extra),
        ...sunk(t, holes.slice(0, 1)),
        ...threadsFor(t, holes),
        ...leftOut(t, f),
      ];
    case 'fasteners out of reach once the other part is on':
      return [...turn, ...tappedInstead(t)];
    case 'stud left for its nut and washer':
      return [...thinner(t, short), ...sunk(t, holes), ...longer(t, f, face)];
    case "stud's end under the other part":
    case "dowel's end under the other part":
      return [...thicker(t, short), ...turn, ...cutBack(t, f, face)];
    case 'a leaning stud clears the whole thickness':
      return [...fitsFor(t, holes, looser), ...sunk(t, holes), ...thinnerToLean(t, holes)];
    case 'register goes on':
      return registersFor(t, f, 'diameter');
    case 'faces meet before the register bottoms':
      return registersFor(t, f, 'depth');
    case 'wall of the register':
    case 'wall of the raised spigot':
      return bores(t, f);
    case 'dowels that locate the same thing':
    case 'two round dowels fight':
      return dowelsFor(t, holes);
    case 'jacking screw pushes on metal':
      return extraMoved(t, hole);
    default:
      return f.rule.endsWith('under the other part') ? [...sunk(t, holes), ...turn] : turn;
  }
};
