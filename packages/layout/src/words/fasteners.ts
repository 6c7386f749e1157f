import { sayAll } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';

const plain: Readonly<Record<FeatureKind, readonly [string, string]>> = {
  hole: ['hole', 'holes'],
  stud: ['stud', 'studs'],
  dowel: ['dowel', 'dowels'],
  bore: ['bore', 'bores'],
  spigot: ['spigot', 'spigots'],
  edge: ['edge', 'edges'],
  boss: ['boss', 'bosses'],
};

/** `7 studs`, `1 dowel`; several sorts together: `6 studs and 2 dowels`. */
export const sayFasteners = (kinds: readonly FeatureKind[]): string => {
  const counts = new Map<FeatureKind, number>();
  for (const k of kinds) counts.set(k, (counts.get(k) ?? 0) + 1);
  const parts = [...counts].map(([k, n]) => `${n} ${plain[k][n === 1 ? 0 : 1]}`);
  return sayAll(parts);
};
