import type { Plate, PlateBore, PlateHole } from '@fayplate/plate';

/** What the plate is measured from: A the flat of side A, B an axis, C what keeps it from turning; null where nothing does. */
export interface Datums {
  readonly b: PlateBore | PlateHole | null;
  readonly c: PlateHole | null;
}

const isRegister = (b: PlateBore): boolean => b.kind === 'recess' || b.kind === 'spigot';

/** The register of the first part, else its first dowel, else its first hole; then its next dowel or slot, else its first hole. */
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
