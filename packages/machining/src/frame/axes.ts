import {
  type LengthUnit,
  type Motion,
  apply,
  compose,
  distance,
  heading,
  movePath,
  pathBox,
  rotation,
  say,
  sayNumber,
  subtract,
  translation,
} from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { MatedFace, Plate } from '@fayplate/plate';
import type { Blank, TableOptions } from '../types.js';
import { blankAround, cornerOf, cornerPoint } from './blank.js';
import { type NamedPlace, placeNames, placeOf } from './places.js';

export interface TableAxes {
  readonly origin: string;
  readonly horizontal: string | null;
  /** Plate frame → table axes. */
  readonly motion: Motion;
  readonly blank: Blank;
}

export type AxesMade =
  | { readonly ok: true; readonly axes: TableAxes }
  | { readonly ok: false; readonly faults: readonly string[] };

/** The table's axes from the origin and horizontal line asked for; what is wrong with them otherwise. */
export const tableAxes = (
  plate: Plate,
  job: Job,
  options: TableOptions,
  mated: readonly MatedFace[] = [],
): AxesMade => {
  const faults: string[] = [];
  const find = (text: string): NamedPlace | null => {
    const place = placeOf(text, plate, job, mated);
    if (place === null)
      faults.push(
        `there is no place “${text}” on the plate; say one of ${placeNames(plate).join(', ')}, “middle H1 H2” or “lower left corner”`,
      );
    return place;
  };
  const [from, to] = options.horizontal ?? [null, null];
  const a = from === null ? null : find(from);
  const b = to === null ? null : find(to);
  const level = a !== null && b !== null;
  if (level && distance(a.at, b.at) < 1e-6)
    faults.push(`“${a.name}” and “${b.name}” lie in one place: a line needs two`);
  const turned = level ? rotation(-heading(subtract(b.at, a.at))) : rotation(0);
  const text = options.origin ?? plate.faces[0];
  const corner = cornerOf(text);
  const place = corner === null ? find(text) : null;
  const around = blankAround(plate.outline.path, turned, job.machine, job.units);
  if (around === null) faults.push(tooSmall(plate, turned, job, options.unit ?? job.units));
  if (faults.length > 0 || around === null || (corner === null && place === null)) return { ok: false, faults };
  const zero = corner === null ? apply(turned, place?.at ?? { x: 0, y: 0 }) : cornerPoint(around, corner);
  return {
    ok: true,
    axes: {
      origin: corner === null ? (place?.name ?? text) : `${corner} corner of the blank`,
      horizontal: level ? `${a.name} to ${b.name}` : null,
      motion: compose(translation(-zero.x, -zero.y), turned),
      blank: { ...around, left: around.left - zero.x, bottom: around.bottom - zero.y },
    },
  };
};

const tooSmall = (plate: Plate, turned: Motion, job: Job, unit: LengthUnit): string => {
  const own = job.machine?.blank ?? { width: 0, height: 0 };
  const box = pathBox(movePath(turned, plate.outline.path));
  const size = (w: number, h: number): string =>
    `${sayNumber(w, { unit, fraction: null }, unit === 'in' ? 2 : 1)} × ${say(h, { unit, fraction: null }, unit === 'in' ? 2 : 1)}`;
  return `the blank of ${size(own.width, own.height)} does not hold the plate as it lies, ${size(box.right - box.left, box.top - box.bottom)}: give a larger blank, or turn the plate by another horizontal line`;
};
