import { type Thread, leastEngagement } from '@fayplate/handbook';
import type { Placed } from '../desk.js';
import type { Draft } from '../draft.js';
import { knownGasket } from '../stack/gasket.js';
import { fastenOf } from '../treat/holes.js';
import { engagementOf } from '../treat/tapped.js';
import { stockLength, threadOf, washerUnder } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import { featureOf, grip } from './studs.js';

/** Lengths under the head that a fastener may have, mm: least for its engagement, most before it bottoms. */
interface Reach {
  readonly least: number;
  readonly most: number;
  readonly stock: number | null;
}

const reach = (thread: Thread, least: number, most: number): Reach => ({
  least,
  most,
  stock: stockLength(thread, least, most),
});

/** Metal that carries thread in a tapped hole of the plate, mm. */
export const threadLength = (hole: PlateHole): number =>
  Math.min(hole.thread?.depth ?? Infinity, hole.land[1] - hole.land[0]);

/**
 * What a part's own thread is cut in: the other piece of two is of the plate's metal, of a part it is taken to be no
 * softer than steel.
 */
export const metalOf = ({ desk }: Draft, p: Placed): string | null =>
  desk.spec.joint?.face === p.face.name ? desk.spec.material : 'steel';

/**
 * How long the bolt or screw of a hole may be; null where it depends on something that the job does not give (the
 * part's
 * `flange` for bolts into the plate, the `deep` of the part's tapped hole for screws into the part).
 */
export const reachOf = (draft: Draft, hole: PlateHole): Reach | null => {
  const p = featureOf(draft, hole);
  const thread = threadOf(hole.fastening?.thread ?? null);
  if (p === null || thread === null) return null;
  const spec = fastenOf(draft.desk, p.face.name);
  if (hole.as === 'tapped' && p.face.flange !== null) {
    const gasket = knownGasket(draft.desk.job, p.face.name);
    const before = p.face.flange + draft.desk.shims + gasket + washerUnder(spec, 'bolt', thread);
    const engagement = engagementOf(draft.desk, spec, thread.major).length;
    // In a blind hole the end stays a pitch short of the last full thread; through the plate it may come flush.
    const within = p.face.flangeWithin ?? 0;
    return reach(
      thread,
      before + within + engagement,
      before - within + threadLength(hole) - (hole.depth === null ? 0 : thread.pitch),
    );
  }
  if (hole.fastening?.kind === 'screw' && draft.made.tappedParts.has(hole.id) && p.feature.deep !== null) {
    const before = grip(draft, hole, p) + washerUnder(spec, hole.fastening.head?.kind ?? 'cap screw', thread);
    return reach(
      thread,
      before + leastEngagement(metalOf(draft, p)).value * thread.major,
      before + p.feature.deep - thread.pitch,
    );
  }
  return null;
};
