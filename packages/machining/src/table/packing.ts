import { type LengthUnit, MM_PER_INCH, type Speech, exactFraction, sayAll } from '@fayplate/core';
import type { Plate, Side } from '@fayplate/plate';
import type { ToolGroup } from '../operations/plan.js';
import type { Operation } from '../types.js';

/** What may run out of the far face; the cone of a chamfer stops well short of where its point would be. */
const comesThrough: ReadonlySet<Operation> = new Set(['spot', 'pilot', 'drill', 'ream', 'tap', 'mill', 'bore']);

/** Whether a spigot stands proud of a side. */
export const isRaised = (plate: Plate, side: Side): boolean => raisedOn(plate, side).length > 0;

const raisedOn = (plate: Plate, side: Side): Plate['bores'] =>
  plate.bores.filter((b) => b.kind === 'spigot' && b.side === side);

/** `9 5/8` where it is that fraction of an inch exactly, else a decimal. */
export const plain = (mm: number, speech: Speech): string =>
  (speech.unit === 'in' ? exactFraction(mm) : null) ??
  String(Number((mm / (speech.unit === 'in' ? MM_PER_INCH : 1)).toFixed(speech.unit === 'in' ? 2 : 1)));

/**
 * Room under the plate in one setting, to the next eighth of an inch or millimetre: for what comes through, and in the
 * second setting, when `side` was cut last, for a spigot that stands out below.
 */
export const packingWords = (
  plate: Plate,
  groups: readonly ToolGroup[],
  side: Side,
  unit: LengthUnit,
): readonly string[] => {
  const through = groups
    .filter((g) => g.side === side)
    .flatMap((g) => g.cuts)
    .filter((c) => comesThrough.has(c.op))
    .map((c) => c.depth - plate.thickness);
  const isSecond = groups[0] !== undefined && groups[0].side !== side;
  const below = isSecond ? raisedOn(plate, side === 'A' ? 'B' : 'A') : [];
  const stands = Math.max(0, ...below.map((b) => b.depth ?? 0));
  const most = Math.max(0, stands, ...through);
  if (most <= 0) return [];
  const step = unit === 'in' ? MM_PER_INCH / 8 : 1;
  const speech = { unit, fraction: null };
  const room = `${plain(Math.ceil(most / step + 1e-9) * step, speech)} ${unit}`;
  const holes = through.some((d) => d > 0) ? 'clear of every hole' : null;
  if (below.length === 0) return [`Pack the plate up at least ${room}, ${holes ?? 'level'}.`];
  const names = sayAll(below.map((b) => b.id));
  return [
    `Pack the plate up at least ${room} under its flat: ${names} ${below.length === 1 ? 'stands' : 'stand'} ` +
      `${plain(stands, speech)} ${unit} out below${holes === null ? '' : `; keep the packing ${holes}`}.`,
  ];
};
