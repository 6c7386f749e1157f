import {
  type LengthUnit,
  type Point,
  add,
  distance,
  formatLength,
  heading,
  polar,
  scale,
  subtract,
} from '@fayplate/core';
import { type Shape, arrow, line, pens, text } from '@fayplate/drawing';
import type { Plate, PlateBore, PlateHole } from '@fayplate/plate';

/** How numbers stand on the sheet: ASME Y14.5 leaves the zero before an inch decimal out, and ISO 129-1 keeps it. */
export interface Numbers {
  readonly unit: LengthUnit;
  readonly asme: boolean;
}

/** A number to so many places, without its unit. */
export const numeral = (mm: number, { unit, asme }: Numbers, places = unit === 'in' ? 4 : 3): string => {
  const plain = formatLength(mm, unit, places);
  return asme && unit === 'in' ? plain.replace(/^(-?)0\./, '$1.') : plain;
};

/** A size to what a shop reads off: 0.01 mm, 0.001 in. */
export const size = (mm: number, n: Numbers): string => numeral(mm, n, n.unit === 'in' ? 3 : 2);

/** Limits of size, the least first; one number where both are the same. */
export const limits = ([least, most]: readonly [number, number], n: Numbers, places?: number): string => {
  const [a, b] = [numeral(least, n, places), numeral(most, n, places)];
  return a === b ? a : `${a} – ${b}`;
};

/**
 * What the plate is measured from: A the flat of side A, B an axis, C what keeps it from turning; null where nothing
 * does.
 */
interface Datums {
  readonly b: PlateBore | PlateHole | null;
  readonly c: PlateHole | null;
}

const isRegister = (b: PlateBore): boolean => b.kind === 'recess' || b.kind === 'spigot';

/**
 * The register of the first part, else its first dowel, else its first hole; then its next dowel or slot, else its
 * first hole.
 */
export const datumsOf = (plate: Plate): Datums => {
  const [first] = plate.faces;
  const register = plate.bores.find((b) => isRegister(b) && b.part?.face === first) ?? null;
  const own = plate.holes.filter((h) => h.part?.face === first);
  const pins = own.filter((h) => h.as === 'dowel' || h.as === 'slot');
  const [b = null] = register === null ? [...pins, ...own] : [register];
  const c = [...pins, ...own].find((h) => h !== b) ?? null;
  return { b, c };
};

/** The datums in words, each with what it is. */
export const datumWords = (plate: Plate, { b, c }: Datums): string =>
  [
    `Datum A: the flat of side A, which lies on ${plate.faces[0]}.`,
    ...(b === null ? [] : [`B: the axis of ${b.id}${b.feature === null ? '' : ` (${b.feature})`}.`]),
    ...(c === null ? [] : [`C: ${c.id}${c.feature === null ? '' : ` (${c.feature})`}, which keeps it from turning.`]),
  ].join(' ');

/** Letters of the datums that there are. */
export const datumLetters = ({ b, c }: Datums): readonly string[] => [
  'A',
  ...(b === null ? [] : ['B']),
  ...(c === null ? [] : ['C']),
];

/** Capitals on the sheet, mm: ISO 3098 has 2.5 and 3.5. */
export const CAPITAL = 2.5;
/**
 * An extension line starts this far off the outline and runs this far past its dimension line, mm (ISO 129-1, from
 * memory).
 */
const OFF = 1;
const PAST = 2;

/**
 * A length between two points with its dimension line `out` mm to the left of the way from the first to the second
 * (negative: to the right). `level`: the words stand level in a gap of the line (habit of ASME Y14.5), else along and
 * above it (ISO 129-1).
 */
export const dimension = (from: Point, to: Point, out: number, words: string, level: boolean): readonly Shape[] => {
  const along = heading(subtract(to, from));
  const side = Math.sign(out);
  const normal = polar(1, along + Math.PI / 2);
  const at = (p: Point, d: number): Point => add(p, scale(normal, d));
  const [a, b] = [at(from, out), at(to, out)];
  const middle = scale(add(a, b), 0.5);
  const turn = along > Math.PI / 2 + 1e-9 || along <= -Math.PI / 2 + 1e-9 ? along + Math.PI : along;
  const half = words.length * CAPITAL * 0.38 + 1;
  const upright = Math.abs(Math.sin(along)) > 0.7;
  const gap = level ? (upright ? CAPITAL : half) : 0;
  const unit = scale(subtract(b, a), 1 / Math.max(distance(a, b), 1e-9));
  return [
    line('note', at(from, side * OFF), at(from, out + side * PAST), pens.hair),
    line('note', at(to, side * OFF), at(to, out + side * PAST), pens.hair),
    ...arrow('note', add(middle, scale(unit, -gap)), a, pens.hair, CAPITAL),
    ...arrow('note', add(middle, scale(unit, gap)), b, pens.hair, CAPITAL),
    level
      ? text('note', { x: middle.x, y: middle.y - CAPITAL / 2 }, words, { capital: CAPITAL, anchor: 'middle' })
      : text('note', add(middle, polar(0.8, turn + Math.PI / 2)), words, { capital: CAPITAL, anchor: 'middle', turn }),
  ];
};

/**
 * A thin thing measured across, its arrows outside and the words beside: from `a` to `b`, both on the dimension line.
 */
export const narrowDimension = (a: Point, b: Point, words: string): readonly Shape[] => {
  const unit = scale(subtract(b, a), 1 / Math.max(distance(a, b), 1e-9));
  const outer = (p: Point, s: number): Point => add(p, scale(unit, s * 2.4 * CAPITAL));
  const end = outer(b, 1);
  return [
    ...arrow('note', outer(a, -1), a, pens.hair, CAPITAL),
    ...arrow('note', end, b, pens.hair, CAPITAL),
    line('note', a, b, pens.hair),
    text('note', { x: end.x + 0.8, y: end.y - CAPITAL / 2 }, words, { capital: CAPITAL }),
  ];
};
