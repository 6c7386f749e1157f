import { type Speech, say, sayAll } from '@fayplate/core';
import { parseThread } from '@fayplate/handbook';
import type { Tool } from '@fayplate/job';
import type { Plate, PlateHole } from '@fayplate/plate';
import type { ToolGroup } from '../operations/plan.js';

/** Sizes this near are one, mm. */
const SAME = 0.005;

/**
 * Least share of the full thread's height that holds, and the most that a tap bears, by which a tapping drill is
 * chosen. Source: common practice, 60 to 80 in 100.
 */
const LEAST_THREAD = 0.6;
const MOST_THREAD = 0.85;

/**
 * Height of a thread's engagement as a share of the basic one, 1.0825 p on the diameter (ISO 68-1: 2 · 5/8 · 0.866 p).
 */
const shareOf = (h: PlateHole, drill: number): number =>
  h.thread === null ? 0 : (h.thread.major - drill) / (1.0825 * h.thread.pitch);

const lengths =
  (speech: Speech) =>
  (mm: number): string =>
    say(mm, speech, speech.unit === 'in' ? 3 : 2);

/**
 * What the nearest drill on hand would make of holes that are drilled to size: the clearance that it costs, or the
 * thread that it leaves.
 */
const instead = (holes: readonly PlateHole[], wanted: number, onHand: readonly Tool[], speech: Speech): string => {
  const l = lengths(speech);
  const [first] = holes;
  const byNearness = onHand.toSorted((a, b) => Math.abs(a.diameter - wanted) - Math.abs(b.diameter - wanted));
  const [nearest] = byNearness;
  if (first === undefined || nearest === undefined) return '';
  if (first.thread !== null) {
    const serving = byNearness.find((d) => {
      const share = shareOf(first, d.diameter);
      return share >= LEAST_THREAD && share <= MOST_THREAD;
    });
    const percent = (d: Tool): string => `${Math.round(100 * shareOf(first, d.diameter))} % of a full thread`;
    return serving === undefined
      ? `none on hand leaves a thread for ${first.thread.name}: ${nearest.name} would leave ${percent(nearest)}`
      : `${serving.name} serves, and leaves ${percent(serving)} where ` +
          `${Math.round(100 * shareOf(first, wanted))} % was meant`;
  }
  const larger = onHand.toSorted((a, b) => a.diameter - b.diameter).find((d) => d.diameter >= wanted - SAME);
  if (larger === undefined) return '';
  const more = larger.diameter - wanted;
  const fastener = first.fastener;
  const room =
    fastener === null
      ? ''
      : `: ${l(larger.diameter - fastener)} of clearance in place of ${l(wanted - fastener)}, so that a part may lie ` +
        `${l(more / 2)} farther off`;
  return `the nearest that serves is ${larger.name}, ${l(more)} larger${room}`;
};

/**
 * Drills that cut a hole of the plate to size and are not on hand, with the nearest that serves and what it costs.
 * Nothing where no drill is listed.
 */
export const lackedDrills = (
  plate: Plate,
  groups: readonly ToolGroup[],
  onHand: readonly Tool[],
  speech: Speech,
): readonly string[] =>
  groups.flatMap((g) => {
    const cut = g.cuts.find((c) => c.op === 'drill');
    if (cut === undefined || onHand.length === 0 || onHand.some((d) => Math.abs(d.diameter - cut.toolDiameter) < SAME))
      return [];
    const names = new Set(g.cuts.map((c) => c.hole));
    const toSize = plate.holes.filter((h) => names.has(h.id) && Math.abs(h.diameter - cut.toolDiameter) < SAME);
    const says = instead(toSize, cut.toolDiameter, onHand, speech);
    if (says !== '') return [`${cut.tool} is not among your drills; for ${sayAll(toSize.map((h) => h.id))} ${says}.`];
    const nearest = onHand.reduce((a, b) =>
      Math.abs(b.diameter - cut.toolDiameter) < Math.abs(a.diameter - cut.toolDiameter) ? b : a,
    );
    const off = nearest.diameter - cut.toolDiameter;
    return [
      `${cut.tool} is not among your drills; the nearest, ${nearest.name}, is ${lengths(speech)(Math.abs(off))} ` +
        `${off > 0 ? 'larger' : 'smaller'}.`,
    ];
  });

/**
 * Threads of the plate whose taps are not on hand, with those that are nearest to them; nothing where the job lists no
 * taps.
 */
export const lackedTaps = (plate: Plate, onHand: readonly string[] | null): readonly string[] => {
  if (onHand === null) return [];
  const have = onHand.flatMap((name) => parseThread(name) ?? []);
  const wanted = new Map<string, PlateHole[]>();
  for (const h of plate.holes)
    if (h.thread !== null && h.done !== true) wanted.set(h.thread.name, [...(wanted.get(h.thread.name) ?? []), h]);
  return [...wanted].flatMap(([name, holes]) => {
    const [thread] = holes.flatMap((h) => (h.thread === null ? [] : [h.thread]));
    const is = (t: (typeof have)[number]): boolean =>
      Math.abs(t.major - (thread?.major ?? 0)) < SAME && Math.abs(t.pitch - (thread?.pitch ?? 0)) < SAME;
    if (thread === undefined || have.some(is)) return [];
    const [nearest] = have.toSorted(
      (a, b) => Math.abs(a.major - thread.major) - Math.abs(b.major - thread.major) || a.major - b.major,
    );
    const other = nearest === undefined ? '' : `, or fasten by ${nearest.name}, the nearest that you have`;
    return [`A tap for ${name} (${sayAll(holes.map((h) => h.id))}) is not among yours: get one${other}.`];
  });
};
