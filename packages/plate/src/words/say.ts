import {
  type LengthUnit,
  type Speech,
  exactFraction,
  forReader,
  perUnit,
  say,
  sayAll,
  sayApart,
  sayNumber,
  toDegrees,
} from '@fayplate/core';
import type { Check, Cure, Plate, Step } from '../types.js';

/** Decimal places for what a hand tool can hold: 0.01 mm, 0.001 in. */
export const places = (speech: Speech): number => (speech.unit === 'in' ? 3 : 2);

/** A length across the bench: 0.1 mm, 0.001 in. */
export const short = (mm: number, speech: Speech): string => say(mm, speech, speech.unit === 'in' ? 3 : 1);

/** What is made, by its name: `the plate`, or of two pieces `the ring`. */
export const nameOfPlate = ({ joint }: Pick<Plate, 'joint'>): string => `the ${joint?.piece ?? 'plate'}`;

/** A word at the head of a line or a sentence. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/**
 * A pin, drill or reamer by the size that it is sold by, whatever the job's unit: `8 mm`, `3/8 in`; any other in that
 * unit.
 */
export const soldWords = (mm: number, { unit }: Pick<Speech, 'unit'>): string => {
  if (Math.abs(10 * mm - Math.round(10 * mm)) < 1e-9) return `${Number(mm.toFixed(1))} mm`;
  const inches = exactFraction(mm);
  return `${inches ?? Number((mm / perUnit(unit)).toFixed(unit === 'in' ? 4 : 3))} ${inches === null ? unit : 'in'}`;
};

/** The finished outline, the same wherever it is said: `9.321 × 8.818 in`, `264.02 × 264.02 mm`. */
export const outlineSize = (
  { width, height }: { readonly width: number; readonly height: number },
  speech: Pick<Speech, 'unit'>,
): string => {
  const own = { ...speech, fraction: null };
  // A hair more than it is, as below.
  const side = (mm: number): string => String(Number(sayNumber(mm + 1e-9, own, places(own))));
  return `${side(width)} × ${side(height)} ${own.unit}`;
};

/** A value with its unit, as its check counts it. */
export const sayValue = (c: Pick<Check, 'unit'>, value: number, speech: Speech): string => {
  // A hair more than it is, so that what comes out a hair below a half does not round apart from what was written.
  if (c.unit === 'mm') return say(value + Math.sign(value) * 1e-9, speech, places(speech));
  if (c.unit === 'deg') return `${Number(value.toFixed(2))}°`;
  if (c.unit === '%') return `${value > 99 ? value.toFixed(2) : value.toFixed(1)} %`;
  return c.unit === 'd' ? `${value.toFixed(2)} d` : String(Math.round(value));
};

/** What a check found and what it asks, with as many places as it takes that two which differ are not printed alike. */
export const sayBoth = (
  c: Pick<Check, 'unit' | 'value' | 'limit'>,
  speech: Speech,
): readonly [value: string, limit: string] => {
  // A hair more than it is, as above.
  const hair = (v: number): number => v + Math.sign(v) * 1e-9;
  if (c.unit === 'mm') return sayApart(hair(c.value), hair(c.limit), speech, places(speech));
  const both = [sayValue(c, c.value, speech), sayValue(c, c.limit, speech)] as const;
  if (both[0] !== both[1] || Math.abs(c.value - c.limit) < 1e-6) return both;
  const suffix = c.unit === 'deg' ? '°' : c.unit === '1' ? '' : ` ${c.unit}`;
  return [`${c.value.toFixed(4)}${suffix}`, `${c.limit.toFixed(4)}${suffix}`];
};

/** A hole to drill, in the job's own unit, with its drill where that is sold in another: `0.413 in (10.5 mm drill)`. */
export const sayOpened = (diameter: number, drill: string | null, unit: LengthUnit): string => {
  const size = say(diameter, { unit, fraction: null }, unit === 'in' ? 3 : 2);
  if (drill === null) return size;
  if (drill.endsWith(' mm')) return unit === 'mm' ? drill : `${size} (${drill} drill)`;
  return unit === 'in' && drill.includes('/') ? `${drill} in` : `${size} (drill ${drill})`;
};

export const names = (c: Pick<Check, 'of'>): string => sayAll(c.of);

/** A failure whose check has no words of its own. */
export const sayPlain = (c: Omit<Check, 'cures'>, speech: Speech): string => {
  const [value, limit] = sayBoth(c, speech);
  return `${c.rule}, ${names(c)}: ${value} where ${c.sense === 'least' ? 'at least' : 'at most'} ${limit} is needed`;
};

/** What is said where every change tried leaves it as it is. */
const nothingCures = 'no single change cures it, nor do two together';

/** Cures that break nothing else; those that do only where there are no others, and then it is said. */
export const sayCures = (c: Check, speech: Speech, most: number): string => {
  if (c.cures.length === 0) return c.ok ? '' : nothingCures;
  const clean = c.cures.filter((cure) => cure.clean);
  if (clean.length > 0)
    return clean
      .slice(0, most)
      .map((cure) => sayCure(cure, speech))
      .join(' or ');
  return c.cures
    .slice(0, most)
    .map((cure) => `${sayCure(cure, speech)} (other checks then fail)`)
    .join(' or ');
};

/** Degrees as few places as they need, two at most. */
export const sayDegrees = (radians: number): string => `${Number(toDegrees(radians).toFixed(2))}°`;

/** A cure as an order: `turn 4°`, `use M8`, `make the plate 24 mm thick`. */
export const sayCure = (cure: Cure | Step, speech: Speech): string => {
  switch (cure.kind) {
    case 'turn':
      return `turn ${sayDegrees(Math.abs(cure.by))} ${cure.by < 0 ? 'anticlockwise' : 'clockwise'}`;
    case 'thickness':
      return `make the plate ${say(cure.to, speech, speech.unit === 'in' ? 3 : 1)} thick`;
    case 'thread':
      return `use ${cure.thread} for ${cure.face}`;
    case 'fit':
      return `use the ${cure.fit} fit for ${cure.face}`;
    case 'margin':
      return `make the margin ${say(cure.to, speech, speech.unit === 'in' ? 3 : 1)}`;
    case 'together':
      return cure.steps.map((step) => sayCure(step, speech)).join(' and ');
    default:
      return cure.written === undefined
        ? cure.says
        : forReader(`${cure.says} (\`${cure.written}\`)`, cure.says, speech);
  }
};
