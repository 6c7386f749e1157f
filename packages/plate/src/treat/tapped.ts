import { type Thread, classLimits, leastEngagement, pointLength, tapDrill } from '@fayplate/handbook';
import type { FastenSpec } from '@fayplate/job';
import type { Desk, Placed } from '../desk.js';
import type { Made, Treated } from './made.js';
import { stockLength } from './stock.js';
import { isTapped, threadOf } from './thread.js';
import { knownGasket } from '../stack/gasket.js';
import { washerUnder } from './washer.js';

/** A bolt's end stays this many pitches short of the last full thread, and the tap's lead takes this many more. Source: common practice (bottoming tap after a second tap). */
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
 * Depth of full thread in a blind hole, mm: a pitch more than what the bolt enters. Where the part's flange is known the bolt is
 * the shortest that is stocked and engages enough, as long as the plate has room for it.
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
  const before = p.face.flange + desk.shims + knownGasket(desk.job, p.face.name) + washerUnder(spec, 'bolt', thread);
  const stock = stockLength(thread, before + engagement);
  const full = stock === null ? engagement + spare : stock - before + spare;
  return full + LEAD * thread.pitch + tip + 1 <= desk.thickness ? full : engagement + spare;
};

/** Bolts of the part go into the plate, or studs set in the plate go through the part. */
export const tapped = (desk: Desk, p: Placed, spec: FastenSpec, as: 'tapped' | 'set stud'): Treated => {
  const text = spec.thread ?? p.feature.thread;
  const thread = threadOf(text);
  if (p.feature.kind === 'stud')
    return {
      ok: false,
      fault: `${p.name} is a stud of the part: it passes through the plate, so its hole cannot be ${as === 'tapped' ? 'tapped' : 'for a set stud'}. Use clearance, or leave it out under \`except\``,
    };
  if (thread === null)
    return {
      ok: false,
      fault:
        text === null
          ? `nothing says what to tap for ${p.name}: give \`thread\``
          : `no thread called ${text} (${p.name})`,
    };
  const drill = tapDrill(thread);
  const engagement = engagementOf(desk, spec, thread.major);
  const tip = pointLength(drill.drill.diameter);
  const full =
    as === 'tapped'
      ? fullThread(desk, p, spec, thread, engagement.length, tip)
      : engagement.length + SPARE * thread.pitch;
  const depth = full + LEAD * thread.pitch;
  // A set stud is always blind where there is room: its end must not push the other part off.
  const blind = spec.blind || (as === 'set stud' && depth + tip < desk.thickness - 1);
  const limits = classLimits(thread);
  const made: Made = {
    as,
    diameter: drill.drill.diameter,
    limits: [limits.internal.least, limits.internal.most],
    from: p.side,
    depth: blind ? depth : null,
    thread: { name: thread.name, major: thread.major, pitch: thread.pitch, depth: blind ? full : null },
    sink: null,
    slot: null,
    fastening: {
      kind: as === 'tapped' ? 'bolt' : 'set stud',
      thread: thread.name,
      nominal: thread.major,
      largest: limits.external.most,
      head: null,
    },
    fastener: null,
    drill: drill.drill.name,
    source: drill.source,
  };
  return { ok: true, made, remarks: [], seatSource: null, tappedPart: isTapped(p) };
};
