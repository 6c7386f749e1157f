import { DEGREE, MM_PER_INCH, formatFraction, once, parseLength } from '@fayplate/core';
import { type Run, fractionalDrills, metricDrills, numberedDrills } from './sizes.js';
import { type Source } from '../source.js';

/** Numbers, letters, fractions of an inch, millimetres. */
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

/**
 * Every drill of the tables, from the smallest up; of two of one size the fraction stands first (1/4 before E). Listed
 * when first asked for.
 */
export const drills = once((): readonly Drill[] =>
  [...fractions(), ...numbered(), ...metric()].sort((a, b) => a.diameter - b.diameter),
);

/** Number, letter and fraction drills, from the smallest up. */
export const inchDrills = once((): readonly Drill[] => drills().filter((d) => d.kind !== 'metric'));
/** Metric drills, from the smallest up. */
export const millimetreDrills = once((): readonly Drill[] => drills().filter((d) => d.kind === 'metric'));

/**
 * A drill as people write it: `#7`, `no 7`, `F`, `letter F`, `13/32`, `13/32 in`, `10.3 mm`, `10.3` (mm), `.201 in`.
 * Null where the tables have no such drill.
 */
export const parseDrill = (text: string): Drill | null => {
  if (text.length > 40) return null;
  const t = text.trim().replace(/\s+/g, ' ');
  const number = /^(?:#|no\.?|number) ?(\d{1,2})$/i.exec(t);
  if (number !== null) return drills().find((d) => d.name === `#${Number(number[1])}`) ?? null;
  const letter = /^(?:letter )?([a-z])$/i.exec(t);
  if (letter !== null) return drills().find((d) => d.name === letter[1]?.toUpperCase()) ?? null;
  const inches = /[/⁄½¼¾⅛⅜⅝⅞]/.test(t);
  const length = parseLength(t, inches ? 25.4 : 1);
  return length.ok ? (drills().find((d) => Math.abs(d.diameter - length.value) < 1e-6) ?? null) : null;
};

/** A drill, and how much larger it is than what was wanted, mm. */
export interface NearestDrill<D> {
  readonly drill: D;
  readonly error: number;
}

/** Whether the drill may lie on either side of the size wanted, or must be at least or at most it. */
export type Bound = 'either' | 'at least' | 'at most';

/**
 * The drill nearest to `mm`, of those on hand (default: all of the tables); of two equally near the smaller, since a
 * hole is easier eased than filled. Null where none meets the bound.
 */
export function nearestDrill(mm: number): NearestDrill<Drill>;
export function nearestDrill<D extends { readonly diameter: number }>(
  mm: number,
  onHand: readonly D[],
  bound?: Bound,
): NearestDrill<D> | null;
export function nearestDrill(
  mm: number,
  onHand: readonly { readonly diameter: number }[] = drills(),
  bound: Bound = 'either',
): unknown {
  const within = 1e-6;
  let best: NearestDrill<{ readonly diameter: number }> | null = null;
  for (const drill of onHand) {
    const error = drill.diameter - mm;
    if ((bound === 'at least' && error < -within) || (bound === 'at most' && error > within)) continue;
    const nearer = best === null ? Infinity : Math.abs(best.error) - Math.abs(error);
    if (nearer > within || (nearer > -within && best !== null && drill.diameter < best.drill.diameter))
      best = { drill, error };
  }
  return best;
}

/** The usual point of a twist drill. Source: common practice. */
const usualPoint = 118 * DEGREE;

/** How far the cone of a drill's point reaches beyond its full diameter, mm; `angle` is the included angle, radians. */
export const pointLength = (diameter: number, angle = usualPoint): number => diameter / 2 / Math.tan(angle / 2);
