import type { Requirement } from '@fayplate/core';

/** One thing that was tried on the drilled plate. */
interface Tried {
  readonly id: string;
  readonly title: string;
  readonly ok: boolean;
  readonly because: string;
  readonly value?: number;
  readonly limit?: number;
  readonly unit?: Requirement['unit'];
  readonly cure?: string;
  readonly cureAtBench?: string;
}

/** A requirement of what was tried. */
export const tried = ({
  id,
  title,
  ok,
  because,
  value,
  limit,
  unit = 'mm',
  cure,
  cureAtBench,
}: Tried): Requirement => ({
  id,
  title,
  state: ok ? 'holds' : 'fails',
  value: value ?? null,
  limit: limit ?? null,
  margin: value === undefined || limit === undefined ? null : (ok ? 1 : -1) * Math.abs(value - limit),
  unit,
  source: 'the readings of the drilled plate',
  because,
  cure: ok ? null : (cure ?? null),
  ...(ok || cureAtBench === undefined ? {} : { cureAtBench }),
});
