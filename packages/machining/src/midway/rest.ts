import { distance } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { machinistTable } from '../table/table.js';
import { WHOLE_FACE } from '../table/sides.js';
import type { TableMade, TableOptions } from '../types.js';
import type { Way } from './types.js';

/**
 * The table of what is left to do: zero on one drilled hole and X along the line to another, the two farthest apart
 * that are not `wrong`, so that what is drilled next lies right to what is there. Null where the way leaves nothing to
 * drill.
 */
export const restTable = (
  way: Way,
  wrong: readonly string[],
  job: Job,
  options: Pick<TableOptions, 'unit'> = {},
): TableMade | null => {
  if (way.made === null || way.left.length === 0) return null;
  const { plate, mated } = way.made;
  const cut = [...plate.holes, ...plate.bores].filter(
    (h) => h.done === true && !h.id.startsWith('X') && !way.works.some((w) => w.hole === h.id),
  );
  const right = cut.filter((h) => !wrong.includes(h.id));
  const done = right.length >= 2 ? right : cut;
  const pairs = done.flatMap((a, i) => done.slice(i + 1).map((b) => [a, b] as const));
  const far = pairs.reduce<(typeof pairs)[number] | null>(
    (best, p) => (best === null || distance(p[0], p[1]) > distance(best[0], best[1]) + 1e-9 ? p : best),
    null,
  );
  const made = machinistTable(
    plate,
    job,
    {
      ...options,
      origin: far?.[0].id ?? done[0]?.id ?? null,
      horizontal: far === null ? null : [far[0].id, far[1].id],
    },
    mated,
  );
  if (!made.ok) return made;
  // The blank is faced by now.
  const rows = made.table.rows.filter((r) => r.hole !== WHOLE_FACE).map((r, i) => ({ ...r, n: i + 1 }));
  return { ok: true, table: { ...made.table, rows } };
};
