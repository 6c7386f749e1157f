import type { StackResult } from '../types.js';

/** The `stack` document, mm. */
export const stackJson = (r: StackResult): object => ({
  unknown: r.unknown,
  worst: r.worst,
  statistical: r.statistical,
  chosen: r.chosen,
  spacer: r.spacer,
  shims: r.shims,
  total: r.total,
  limits: r.limits,
  costs: r.costs.map((c) => ({ link: c.link, plus_minus: c.plusMinus, worst: c.worst, statistical: c.statistical })),
  conflict:
    r.conflict === null
      ? null
      : { between: r.conflict.between, by: r.conflict.by, even_when_exact: r.conflict.evenWhenExact },
  ok: r.ok,
});
