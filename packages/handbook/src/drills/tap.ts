import { threadForms } from '../threads/forms.js';
import { classLimits } from '../threads/limits.js';
import type { Thread } from '../threads/forms.js';
import { drills, inchDrills, millimetreDrills } from './list.js';
import { nearestDrill } from './list.js';
import { printedTapDrill } from './printed.js';

/** Height of thread left by a hole, as a share of the form's full height: 0.75 is the usual 75 %. */
export const threadShare = (thread: Thread, hole: number): number =>
  (thread.major - hole) / (2 * threadForms[thread.form].full * thread.pitch);

/** The hole that leaves `share` of full thread, mm. */
export const holeForShare = (thread: Thread, share: number): number =>
  thread.major - share * 2 * threadForms[thread.form].full * thread.pitch;

/** The share of full thread that is tapped where nothing is said. Source: common practice. */
const usualShare = 0.75;

/** A drill for a tapped hole, and what it leaves; mm. */
export interface TapDrill<D = { readonly name: string; readonly diameter: number }> {
  readonly drill: D;
  /** Share of full thread that it leaves. */
  readonly share: number;
  /** Hole that leaves exactly the share asked for, mm. */
  readonly ideal: number;
  /** Whether the hole lies within the class limits of the internal thread's minor diameter. */
  readonly withinClass: boolean;
  readonly source: string;
}

/**
 * Tap drill for a thread. With `share` (0.75 for 75 %) or with drills on hand it is the nearest real drill to the
 * computed hole; with neither it is the one that the charts print, where they do. Inch threads take inch drills, the
 * others metric ones, unless drills on hand are given. Null only where the list on hand is empty.
 */
export function tapDrill(thread: Thread): TapDrill;
export function tapDrill(
  thread: Thread,
  options: {
    readonly share?: number;
    readonly onHand?: readonly { readonly name: string; readonly diameter: number }[];
  },
): TapDrill | null;
export function tapDrill(
  thread: Thread,
  options: {
    readonly share?: number;
    readonly onHand?: readonly { readonly name: string; readonly diameter: number }[];
  } = {},
): TapDrill | null {
  const { share = usualShare, onHand } = options;
  const ideal = holeForShare(thread, share);
  const limits = classLimits(thread).internal;
  const chart = options.share === undefined && onHand === undefined ? printedTapDrill(thread.name) : null;
  const charted = chart === null ? undefined : drills().find((d) => d.name === chart.drill);
  const drill =
    charted ?? nearestDrill(ideal, onHand ?? (thread.form === 'unified' ? inchDrills() : millimetreDrills()))?.drill;
  if (drill === undefined) return null;
  return {
    drill,
    share: threadShare(thread, drill.diameter),
    ideal,
    withinClass: drill.diameter >= limits.least - 1e-6 && drill.diameter <= limits.most + 1e-6,
    source:
      chart !== null && charted !== undefined
        ? chart.source
        : `computed from the thread form (${threadForms[thread.form].source})`,
  };
}
