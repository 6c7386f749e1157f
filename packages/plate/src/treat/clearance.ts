import type { Requirement } from '@fayplate/core';
import type { Thread } from '@fayplate/handbook';
import { unknown } from '../checks/unknown.js';
import type { FastenSpec } from '@fayplate/job';
import { type Desk, type Placed, otherSide } from '../desk.js';
import { knownGasket } from '../stack/gasket.js';
import type { FastenerHead } from '../types.js';
import type { Made, Treated } from './made.js';
import { type Seat, seat, studNeeds } from './sink.js';
import { isTapped, largest, pass, passPlain, threadOf } from './thread.js';

const headOf = (p: Placed, spec: FastenSpec): FastenerHead['kind'] =>
  spec.head ?? (p.feature.kind === 'stud' || !isTapped(p) ? 'nut' : 'cap screw');

const seatOf = (desk: Desk, p: Placed, spec: FastenSpec, thread: Thread | null, hole: number): Seat | null => {
  const stands = p.feature.stands;
  const needs = studNeeds(thread, spec);
  const short =
    p.feature.kind === 'stud' && stands !== null && needs !== null
      ? desk.thickness + desk.shims + knownGasket(desk.job, p.face.name) - (stands - needs)
      : 0;
  return seat({
    thread,
    spec,
    kind: headOf(p, spec),
    side: otherSide(p.side),
    hole,
    unit: desk.job.units,
    atLeastDeep: Math.max(0, short),
  });
};

/** Source: BS 1083:1951 took over the hexagons of BS 190:1924 for the next smaller thread; from memory. */
const OLD_NUTS =
  'Whitworth and BSF nuts made before BS 1083 (1951) are a size larger across the flats, and are not checked here: ' +
  'measure yours, and write them as `nut: { across flats: …, height: … }`';

/** A hole that the part's stud, or a screw into the part, passes through. */
export const clearance = (desk: Desk, p: Placed, spec: FastenSpec): Treated => {
  const thread = threadOf(spec.thread ?? p.feature.thread);
  const stud = p.feature.kind === 'stud';
  const tapped = isTapped(p);
  const pin = stud ? p.diameter : null;
  if (thread === null && p.diameter === null)
    return {
      ok: false,
      fault: `${p.name} has neither a thread nor a diameter: give one, so that its hole can be sized`,
    };
  // A plain hole of the part with no thread named: the plate takes the same hole.
  const same = !stud && thread === null && p.diameter !== null;
  const hole =
    thread !== null
      ? pass(thread, spec.fit)
      : same
        ? { diameter: p.diameter, most: p.diameter, drill: null, source: "the part's own hole" }
        : passPlain(p.diameter ?? 0, spec.fit);
  const sat = same ? null : seatOf(desk, p, spec, thread, hole.diameter);
  const remarks: Requirement[] = [];
  if (thread !== null && sat === null && spec.head !== null)
    remarks.push(
      unknown(
        'hardware-size',
        `The tables have no ${spec.head} for ${thread.name} (${p.name}): the room it needs is not checked.`,
      ),
    );
  if (thread?.form === 'whitworth' && spec.own === null && sat?.head.kind === 'nut')
    remarks.push(unknown('old-hardware', OLD_NUTS, 'measure yours across the flats, and their height'));
  if (thread === null && !same && sat === null)
    remarks.push(
      unknown(
        'hardware-size',
        `The nut that ${p.name} takes is not known, so the room for it is not checked: give its thread.`,
      ),
    );
  if (same)
    remarks.push(unknown('fastener-thread', `The bolt that goes through ${p.name} is not known: give its thread.`));
  const made: Made = {
    as: 'clearance',
    diameter: hole.diameter,
    limits: [hole.diameter, hole.most],
    from: p.side,
    depth: null,
    thread: null,
    sink: sat?.sink ?? null,
    slot: null,
    fastening: {
      kind: stud ? 'stud' : 'screw',
      thread: thread?.name ?? null,
      nominal: thread?.major ?? pin ?? hole.diameter,
      largest: same ? null : largest(thread, pin),
      head: sat?.head ?? null,
    },
    fastener: same ? null : largest(thread, pin),
    drill: hole.drill,
    source: hole.source,
  };
  return { ok: true, made, remarks, seatSource: sat?.source ?? null, tappedPart: tapped };
};
