import {
  type Thread,
  type WireInsert,
  classLimits,
  leastEngagement,
  pointLength,
  tapDrill,
  wireInsert,
} from '@fayplate/handbook';
import type { FastenSpec } from '@fayplate/job';
import type { Desk, Placed } from '../desk.js';
import type { Made, Treated } from './made.js';
import { isTapped, stockLength, threadOf, washerUnder } from './thread.js';
import { knownGasket } from '../stack/gasket.js';

/**
 * A bolt's end stays this many pitches short of the last full thread, and the tap's lead takes this many more. Source:
 * common practice (bottoming tap after a second tap).
 */
const SPARE = 1;
const LEAD = 3;

/** Thread engaged, mm: what the job asks, else what the plate's material asks. */
export const engagementOf = (
  desk: Desk,
  spec: FastenSpec,
  major: number,
): { readonly length: number; readonly times: number; readonly source: string } => {
  const asked = spec.engagement;
  if (asked !== null && 'length' in asked)
    return { length: asked.length, times: asked.length / major, source: 'stated in the job' };
  if (asked !== null) return { length: asked.times * major, times: asked.times, source: 'stated in the job' };
  const rule = leastEngagement(desk.spec.material);
  return { length: rule.value * major, times: rule.value, source: rule.source };
};

/**
 * Depth of full thread in a blind hole, mm: a pitch more than what the bolt enters. Where the part's flange is known
 * the bolt is the shortest that is stocked and engages enough, as long as the plate has room for it.
 */
const fullThread = (
  desk: Desk,
  p: Placed,
  spec: FastenSpec,
  thread: Thread,
  engagement: number,
  tip: number,
): number => {
  const spare = SPARE * thread.pitch;
  if (p.face.flange === null) return engagement + spare;
  const within = p.face.flangeWithin ?? 0;
  const before =
    p.face.flange + within + desk.shims + knownGasket(desk.job, p.face.name) + washerUnder(spec, 'bolt', thread);
  const stock = stockLength(thread, before + engagement);
  const full = stock === null ? engagement + spare : stock - before + 2 * within + spare;
  return full + LEAD * thread.pitch + tip + 1 <= desk.thickness ? full : engagement + spare;
};

/** The wire insert that a tapped hole takes, mm long, with its hole; null where the job asks for none. */
const insertOf = (
  { insert }: FastenSpec,
  thread: Thread,
): { readonly length: number; readonly made: WireInsert | null } | null =>
  insert == null
    ? null
    : { length: 'length' in insert ? insert.length : insert.times * thread.major, made: wireInsert(thread) };

/** Bolts of the part go into the plate, or studs set in the plate go through the part. */
export const tapped = (desk: Desk, p: Placed, spec: FastenSpec, as: 'tapped' | 'set stud'): Treated => {
  const text = spec.thread ?? p.feature.thread;
  const thread = threadOf(text);
  if (p.feature.kind === 'stud')
    return {
      ok: false,
      fault:
        `${p.name} is a stud of the part: it passes through the plate, so its hole cannot be ` +
        `${as === 'tapped' ? 'tapped' : 'for a set stud'}. Use clearance, or leave it out under \`except\``,
    };
  if (thread === null)
    return {
      ok: false,
      fault:
        text === null
          ? `nothing says what to tap for ${p.name}: give \`thread\``
          : `no thread called ${text} (${p.name})`,
    };
  const setName = as === 'set stud' ? (spec.setThread ?? null) : null;
  const set = setName === null ? thread : threadOf(setName);
  if (set === null) return { ok: false, fault: `no thread called ${setName ?? ''} (${p.name})` };
  const insert = as === 'tapped' ? insertOf(spec, thread) : null;
  if (insert !== null && insert.made === null)
    return {
      ok: false,
      fault:
        `no wire insert is on file for ${thread.name} (${p.name}): only for ` +
        'metric and unified threads. Tap it for the bolt itself',
    };
  if (insert !== null && insert.length > desk.thickness + 1e-9)
    return {
      ok: false,
      fault: `the wire insert of ${p.name} is longer than the plate is thick: make it shorter, such as \`wire insert: 1 d\``,
    };
  const drill = insert?.made ?? tapDrill(set);
  const engagement = engagementOf(desk, spec, set.major);
  const tip = pointLength(drill.drill.diameter);
  const wanted =
    as === 'tapped' ? fullThread(desk, p, spec, set, engagement.length, tip) : engagement.length + SPARE * set.pitch;
  // An insert sits below the face by a turn, and the tap clears its end by another.
  const full = insert === null ? wanted : Math.max(wanted, insert.length + 2 * set.pitch);
  const depth = full + LEAD * set.pitch;
  // A set stud is always blind where there is room: its end must not push the other part off.
  const blind = spec.blind || (as === 'set stud' && depth + tip < desk.thickness - 1);
  const { internal } = classLimits(set);
  const made: Made = {
    as,
    diameter: drill.drill.diameter,
    limits: insert?.made?.limits ?? [internal.least, internal.most],
    from: p.side,
    depth: blind ? depth : null,
    thread: {
      name: set.name,
      major: insert?.made?.tapped.major ?? set.major,
      pitch: set.pitch,
      depth: blind ? full : null,
    },
    ...(insert === null ? {} : { insert: insert.length }),
    sink: null,
    slot: null,
    fastening: {
      kind: as === 'tapped' ? 'bolt' : 'set stud',
      thread: thread.name,
      nominal: thread.major,
      largest: classLimits(thread).external.most,
      head: null,
    },
    fastener: null,
    drill: drill.drill.name,
    source: drill.source,
  };
  return { ok: true, made, remarks: [], seatSource: null, tappedPart: isTapped(p) };
};
