import { type Hardware, type Thread, hardware } from '@fayplate/handbook';
import type { FastenSpec, OwnHardware } from '@fayplate/job';
import type { FastenerHead, Side, Sink } from '../types.js';
import { hasWasher, roundUp, washerUnder } from './thread.js';

/** Clear room round a socket or washer in its counterbore, on the diameter, mm. Source: common practice. */
const AROUND = 1;
/** Depth of a spotface, mm: enough to clean the surface up. Source: common practice. */
const CLEAN = 1;
/** How far a sunk head lies below the surface, mm. Source: common practice. */
const BELOW = 0.5;

/**
 * How much of a thread that is not named shows above its nut, mm. Source: common practice, one pitch of a thread of 10
 * mm.
 */
const SHOWING = 1.5;

export interface Seat {
  readonly head: FastenerHead;
  readonly sink: Sink | null;
  readonly source: string;
}

interface Wanted {
  /** Null where none is named: then the sizes must be the user's own. */
  readonly thread: Thread | null;
  readonly spec: FastenSpec;
  readonly kind: FastenerHead['kind'];
  readonly side: Side;
  readonly hole: number;
  readonly unit: 'mm' | 'in';
  /**
   * How far the seat must lie below the surface for a stud that stands out too little, mm; 0 where it does not matter.
   */
  readonly atLeastDeep: number;
}

interface Parts {
  readonly diameter: number;
  readonly height: number;
  readonly socket: number;
  readonly counterbore: number;
  readonly source: string;
}

/**
 * Wall of a socket over the corners of a nut, on the diameter, mm: as much as the tables' nut of that thread leaves, or
 * a quarter more.
 */
const overCorners = (h: Hardware | null, corners: number): number =>
  corners + (h?.nut == null ? corners / 4 : h.nut.socket.diameter - h.nut.acrossCorners);

/** A nut or head of the user's own: as measured. */
const ownParts = (h: Hardware | null, w: Wanted, own: OwnHardware): Parts => {
  const washer = hasWasher(w.spec, w.kind) ? (h?.washer ?? null) : null;
  const over = w.kind === 'nut' ? (2 * own.across) / Math.sqrt(3) : own.across;
  const diameter = Math.max(over, washer?.outside ?? 0);
  const socket = w.kind === 'nut' ? overCorners(h, over) : diameter;
  return {
    diameter,
    height: own.height + (washer?.thickness ?? 0),
    socket,
    counterbore: roundUp(Math.max(socket, diameter) + AROUND, w.unit),
    source: 'sizes as the job states them',
  };
};

const parts = (h: Hardware | null, w: Wanted): Parts | null => {
  if (w.spec.own !== null) return ownParts(h, w, w.spec.own);
  if (h === null) return null;
  const washer = hasWasher(w.spec, w.kind) ? h.washer : null;
  if (w.kind === 'nut') {
    if (h.nut === null) return null;
    const diameter = Math.max(h.nut.acrossCorners, washer?.outside ?? 0);
    return {
      diameter,
      height: h.nut.height + (washer?.thickness ?? 0),
      socket: h.nut.socket.diameter,
      counterbore: roundUp(Math.max(h.nut.socket.diameter, diameter) + AROUND, w.unit),
      source: `${h.nut.source}; room for the socket: ${h.nut.socket.source}`,
    };
  }
  if (h.capScrew === null) return null;
  const diameter = Math.max(h.capScrew.head, washer?.outside ?? 0);
  return {
    diameter,
    height: h.capScrew.height + (washer?.thickness ?? 0),
    socket: diameter,
    counterbore: Math.max(h.capScrew.counterbore, washer === null ? 0 : roundUp(washer.outside + AROUND, w.unit)),
    source: h.capScrew.source,
  };
};

const countersunk = (h: Hardware, w: Wanted): Seat | null => {
  const screw = h.countersunk;
  if (screw === null) return null;
  const depth = (screw.head - w.hole) / 2 / Math.tan(screw.angle / 2);
  return {
    head: { kind: 'countersunk screw', side: w.side, diameter: screw.head, height: screw.height, socket: 0, proud: 0 },
    sink: { kind: 'countersunk', diameter: screw.head, depth, side: w.side },
    source: screw.source,
  };
};

/** The nut or head of a clearance hole and what is cut for it; null where the tables have none of that size. */
export const seat = (w: Wanted): Seat | null => {
  const h = w.thread === null ? null : hardware(w.thread);
  if (w.kind === 'countersunk screw') return h === null ? null : countersunk(h, w);
  const p = parts(h, w);
  if (p === null) return null;
  const washer = hasWasher(w.spec, w.kind) ? (h?.washer ?? null) : null;
  const head = (depth: number): FastenerHead => ({
    kind: w.kind,
    ...(washer === null ? {} : { washer: { outside: washer.outside, thickness: washer.thickness } }),
    side: w.side,
    diameter: p.diameter,
    height: p.height,
    socket: p.socket,
    proud: p.height - depth,
  });
  if (w.spec.sunk === 'counterbored') {
    const depth = roundUp(
      Math.max(p.height + BELOW + (w.kind === 'nut' ? (w.thread?.pitch ?? SHOWING) : 0), w.atLeastDeep),
      w.unit,
    );
    return {
      head: head(depth),
      sink: { kind: 'counterbored', diameter: p.counterbore, depth, side: w.side },
      source: p.source,
    };
  }
  if (w.spec.sunk === 'spotfaced') {
    return {
      head: head(CLEAN),
      sink: { kind: 'spotfaced', diameter: p.counterbore, depth: CLEAN, side: w.side },
      source: p.source,
    };
  }
  return { head: head(0), sink: null, source: p.source };
};

/**
 * How much of a stud must stand above its seat, mm: nut, washer and one pitch. Source: common practice, a thread or two
 * showing.
 */
export const studNeeds = (thread: Thread | null, spec: Pick<FastenSpec, 'washer' | 'own'>): number | null => {
  const height = spec.own?.height ?? (thread === null ? null : (hardware(thread).nut?.height ?? null));
  if (height === null) return null;
  return height + (thread === null ? SHOWING : washerUnder(spec, 'nut', thread) + thread.pitch);
};
