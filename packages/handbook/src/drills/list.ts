import { MM_PER_INCH, formatFraction, once } from '@fayplate/core';
import type { Source } from '../source.js';
import { numberedDrills } from './numbered.js';
import { type Run, fractionalDrills, metricDrills } from './stepped.js';

export type DrillKind = 'number' | 'letter' | 'fraction' | 'metric';

/** `name` as the trade writes it: `#7`, `F`, `13/32`, `10.3 mm`; diameter mm. */
export interface Drill {
  readonly name: string;
  readonly diameter: number;
  readonly kind: DrillKind;
  readonly source: Source;
}

const sizes = (runs: readonly Run[]): readonly number[] => [
  ...new Set(
    runs.flatMap(({ from, to, step }) =>
      Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => Math.round((from + i * step) * 1e6) / 1e6),
    ),
  ),
];

const fractions = (): readonly Drill[] =>
  sizes(fractionalDrills.rows).map((inches) => {
    const parts = Math.round(inches * 64);
    return {
      name: formatFraction((parts / 64) * MM_PER_INCH, 64),
      diameter: (parts / 64) * MM_PER_INCH,
      kind: 'fraction',
      source: fractionalDrills.source,
    };
  });

const metric = (): readonly Drill[] =>
  sizes(metricDrills.rows).map((mm) => ({
    name: `${mm} mm`,
    diameter: mm,
    kind: 'metric',
    source: metricDrills.source,
  }));

const numbered = (): readonly Drill[] =>
  numberedDrills.rows.map(([name, inches]) => ({
    name,
    diameter: inches * MM_PER_INCH,
    kind: name.startsWith('#') ? 'number' : 'letter',
    source: numberedDrills.source,
  }));

/** Every drill of the tables, from the smallest up; of two of one size the fraction stands first (1/4 before E). Listed when first asked for. */
export const drills = once((): readonly Drill[] =>
  [...fractions(), ...numbered(), ...metric()].sort((a, b) => a.diameter - b.diameter),
);

export const inchDrills = once((): readonly Drill[] => drills().filter((d) => d.kind !== 'metric'));
export const millimetreDrills = once((): readonly Drill[] => drills().filter((d) => d.kind === 'metric'));
