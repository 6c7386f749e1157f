import { adjust } from '../adjust/adjust.js';
import type { Adjustment } from '../adjust/adjustment.js';
import type { System } from '../adjust/system.js';
import { CRITICAL, isTied, wOf } from './standardized.js';
import type { SetAside } from './set-aside.js';

/**
 * Iterative data snooping (Baarda 1968; Teunissen 2006): the largest |w| above the critical value is set aside and the rest solved
 * again, until none exceeds it; then each is tried again, last first, and taken back where its |w| no longer exceeds it.
 */
export const snoop = (start: Adjustment, system: System): readonly SetAside[] => {
  const { network } = start;
  const active = network.observations.map(() => true);
  const again = (from: Adjustment): Adjustment =>
    adjust(network, from.values, { system, active: [...active], from: 'near' });
  let now = start;
  let found: SetAside[] = [];
  for (;;) {
    const ws = active.map((on, i) => (on ? Math.abs(wOf(now, i) ?? 0) : 0));
    const most = Math.max(...ws, 0);
    if (!(most > CRITICAL)) break;
    const tied = ws.flatMap((w, i) => (w > 0 && isTied(w, most) ? [i] : []));
    const [index] = tied;
    if (index === undefined) break;
    active[index] = false;
    const after = again(now);
    found.push({
      index,
      w: wOf(now, index) ?? 0,
      redundancy: now.redundancy[index] as number,
      tied: tied.slice(1),
      before: now,
      after,
    });
    now = after;
  }
  for (const one of [...found].reverse()) {
    active[one.index] = true;
    const back = again(now);
    if (Math.abs(wOf(back, one.index) ?? 0) > CRITICAL) {
      active[one.index] = false;
      continue;
    }
    now = back;
    found = found.filter((f) => f !== one);
  }
  return found;
};
