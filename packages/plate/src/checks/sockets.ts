import { distance } from '@fayplate/core';
import { withinBore } from '../bores/shape.js';
import { extraOf, holesOf, turnOf } from '../cures/about.js';
import { leftOut, sunk, threadsFor } from '../cures/fasteners.js';
import { extraMoved } from '../cures/locating.js';
import type { Draft } from '../draft.js';
import { mouthRadius, spineDistance } from '../solids/cut.js';
import type { PlateHole } from '../types.js';
import { sayPlain } from '../words/say.js';
import { type CheckKind, type Found, failingAndLeast, found, marginOf } from './check.js';
import { type Headed, headed } from './heads.js';

const turnable = (draft: Draft): readonly Headed[] => headed(draft).filter((h) => h.head.kind !== 'countersunk screw');

/** What stands beside a head that is not sunk: other heads on its side, and raised spigots; with the room left, mm. */
const beside = (draft: Draft, { hole, head, source }: Headed): readonly Found[] => {
  // Heads on one side are those of one face, sunk or not alike.
  const heads = turnable(draft)
    .filter((other) => other.hole !== hole && other.head.side === head.side)
    .map((other) => {
      const clear = distance(hole, other.hole) - head.socket / 2 - other.head.diameter / 2;
      return found([hole.id, other.hole.id], clear, 0, { source, at: hole });
    });
  const spigots = draft.bores
    .filter((bore) => bore.kind === 'spigot' && bore.side === head.side)
    .map((bore) => {
      const clear = Math.abs(distance(hole, bore) - bore.diameter / 2) - head.socket / 2;
      return found([hole.id, bore.id], clear, 0, { source, at: hole });
    });
  return [...heads, ...spigots];
};

/** Room beside the socket of a head that is not sunk, mm, for all that stands on its side. */
export const socketClears = (draft: Draft, hole: PlateHole): readonly number[] =>
  turnable(draft).flatMap((h) => (h.hole === hole ? beside(draft, h).map((f) => f.value) : []));

/** Room for a socket or key round the head in its counterbore, and beside whatever stands on the same side. */
const socketRoom = (draft: Draft): readonly Found[] =>
  turnable(draft).flatMap((h) => {
    const { hole, head, source } = h;
    return hole.sink === null
      ? failingAndLeast(beside(draft, h))
      : [found([hole.id], hole.sink.diameter, head.socket, { source, at: hole })];
  });

/** No bore or other hole takes metal away under a nut or head. */
const seats = (draft: Draft): readonly Found[] =>
  turnable(draft).flatMap(({ hole, head, source }) => {
    if (hole.sink !== null) return [];
    const bores = draft.bores
      .filter((b) => b.kind !== 'spigot' && (b.side === 'through' || b.side === head.side))
      .map((bore) => {
        const over = -withinBore(hole, bore) - head.diameter / 2;
        return found([hole.id, bore.id], over, 0, { source, at: hole });
      });
    const z = head.side === 'A' ? 0 : draft.desk.thickness;
    const holes = draft.cuts.flatMap((cut, i) => {
      const radius = cut.what !== 'hole' || draft.holes[i] === hole ? 0 : mouthRadius(cut, z);
      const over = spineDistance(cut.spine, [hole, hole]) - radius - head.diameter / 2;
      return radius > 0 ? [found([hole.id, cut.id], over, 0, { source, at: hole })] : [];
    });
    return failingAndLeast([...bores, ...holes]);
  });

const roomCures: CheckKind['cures'] = (t, f) => {
  const holes = holesOf(t.draft, f);
  return [
    ...turnOf(t),
    ...extraMoved(t, extraOf(holes)),
    ...sunk(t, holes.slice(0, 1)),
    ...threadsFor(t, holes),
    ...leftOut(t, f),
  ];
};

export const roomForSocket: CheckKind = {
  id: 'socket-room',
  title: 'room for the socket',
  meaning: 'apart',
  margin: marginOf,
  find: socketRoom,
  cures: roomCures,
  say: sayPlain,
};

export const headSeat: CheckKind = {
  id: 'head-seat',
  title: 'seat of the nut or head',
  meaning: 'weak',
  margin: marginOf,
  find: seats,
  cures: roomCures,
  say: sayPlain,
};
