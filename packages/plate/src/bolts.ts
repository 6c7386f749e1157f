import { reachOf } from './checks/threads.js';
import type { Draft } from './draft.js';
import type { BoltLength } from './types.js';

/** Lengths of bolts and screws, holes that take the same ones together. */
export const boltsOf = (draft: Draft): readonly BoltLength[] => {
  const groups = new Map<string, BoltLength>();
  for (const hole of draft.holes) {
    const reach = reachOf(draft, hole);
    const thread = hole.fastening?.thread ?? null;
    if (reach === null || thread === null) continue;
    const key = [thread, reach.least.toFixed(6), reach.most.toFixed(6)].join(' ');
    const known = groups.get(key);
    groups.set(key, { ...reach, thread, holes: [...(known?.holes ?? []), hole.id] });
  }
  return [...groups.values()];
};
