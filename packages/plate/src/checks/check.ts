import type { Point } from '@fayplate/core';
import type { Check } from '../types.js';
import type { Rule } from './rules.js';

/** A check before its cures are looked for. */
export type Finding = Omit<Check, 'cures' | 'rule'> & { readonly rule: Rule };

/** Below this a shortfall is rounding, not metal: mm, diameters or degrees alike. */
export const SLACK = 1e-9;

export const finding = (
  rule: Rule,
  of: readonly string[],
  value: number,
  limit: number,
  more: {
    readonly source: string;
    readonly at?: Point | null;
    readonly unit?: Check['unit'];
    readonly sense?: Check['sense'];
  },
): Finding => {
  const sense = more.sense ?? 'least';
  const ok = sense === 'least' ? value >= limit - SLACK : value <= limit + SLACK;
  const at = more.at == null ? null : { x: more.at.x, y: more.at.y };
  return { rule, of, value, limit, unit: more.unit ?? 'mm', sense, ok, source: more.source, at };
};

/** How far a check is from its limit, in its own unit; negative where it fails. */
export const marginOf = (f: Finding): number => (f.sense === 'least' ? f.value - f.limit : f.limit - f.value);
