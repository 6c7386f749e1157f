import { drills, inchDrills, millimetreDrills, nearestDrill } from '../drills/list.js';
import type { Thread } from '../threads/forms.js';
import { classLimits } from '../threads/limits.js';

/** What a wire thread insert asks of its hole, mm. */
export interface WireInsert {
  /** The thread that is tapped for it: larger by the wire on either side, of the same pitch. */
  readonly tapped: Thread;
  readonly drill: { readonly name: string; readonly diameter: number };
  /** Least and most that the drilled hole may measure. */
  readonly limits: readonly [number, number];
  readonly source: string;
}

/** How much larger the tapped thread is than the bolt's, in pitches: twice 0.75 of the height of the sharp triangle. */
const LARGER = 1.299038;

const source =
  'thread for wire inserts: the bolt’s moved out by the wire, D + 1.299 P (DIN 8140-2, ASME B18.29.1 and B18.29.2M as read in two places); the drill nearest above its least minor diameter';

/** Hole and tap for a wire thread insert; null for a thread that is not of 60 degrees, for which none is held. */
export const wireInsert = (thread: Thread): WireInsert | null => {
  if (thread.form !== 'metric' && thread.form !== 'unified') return null;
  const by = LARGER * thread.pitch;
  const tapped: Thread = {
    ...thread,
    major: thread.major + by,
    pitchDiameter: thread.pitchDiameter + by,
    minor: thread.minor + by,
  };
  const { least, most } = classLimits(tapped).internal;
  const own = thread.form === 'unified' ? inchDrills() : millimetreDrills();
  const drill =
    [own, drills()]
      .map((list) => nearestDrill(least, list, 'at least')?.drill)
      .find((d) => d !== undefined && d.diameter <= most) ?? null;
  return drill === null ? null : { tapped, drill, limits: [least, most], source };
};
