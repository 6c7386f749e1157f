import {
  type LengthUnit,
  MM_PER_INCH,
  type Motion,
  type Path,
  type Point,
  type Requirement,
  type Speech,
  movePath,
  pathBox,
  say,
} from '@fayplate/core';
import type { Job, MachineSpec } from '@fayplate/job';
import { plateStock } from '@fayplate/handbook';
import type { Plate, Side } from '@fayplate/plate';
import type { Blank, Stock } from '../types.js';

const corners = ['lower left', 'lower right', 'upper left', 'upper right'] as const;
type Corner = (typeof corners)[number];

/** `lower left corner`, `corner` (the lower left) and the like, `of the blank` or not; null for anything else. */
export const cornerOf = (text: string): Corner | null => {
  const m = /^(?:(lower|upper) (left|right) )?corner(?: of the blank)?$/.exec(text.trim());
  if (m === null) return null;
  return corners.find((c) => c === `${m[1] ?? 'lower'} ${m[2] ?? 'left'}`) ?? null;
};

/** Metal left round the outline until it is sawn, mm a side, where the job does not say (common practice). */
const ALLOWANCE = 3;

/** A blank is sawn to whole eighths of an inch or whole millimetres. */
const sawn = (mm: number, unit: LengthUnit): number => {
  const step = unit === 'in' ? MM_PER_INCH / 8 : 1;
  return Math.ceil(mm / step - 1e-6) * step;
};

/**
 * The blank, sides along the axes that `motion` leads to, with the plate in its middle: the shop's own, or the next
 * sawn size that leaves the allowance all round. Null where the shop's does not hold the plate.
 */
export const blankAround = (
  outline: Path,
  motion: Motion,
  machine: MachineSpec | null,
  unit: LengthUnit,
): Blank | null => {
  const box = pathBox(movePath(motion, outline));
  const finished = { width: box.right - box.left, height: box.top - box.bottom };
  const own = machine?.blank ?? null;
  const room = machine?.allowance ?? ALLOWANCE;
  const width = own?.width ?? sawn(finished.width + 2 * room, unit);
  const height = own?.height ?? sawn(finished.height + 2 * room, unit);
  if (width < finished.width - 1e-9 || height < finished.height - 1e-9) return null;
  return {
    left: box.left - (width - finished.width) / 2,
    bottom: box.bottom - (height - finished.height) / 2,
    width,
    height,
    from: own === null ? 'outline' : 'job',
    allowance: Math.min(width - finished.width, height - finished.height) / 2,
    finished,
  };
};

export const cornerPoint = (blank: Blank, corner: Corner): Point => ({
  x: blank.left + (corner.endsWith('right') ? blank.width : 0),
  y: blank.bottom + (corner.startsWith('upper') ? blank.height : 0),
});

/**
 * What the plate is bought as: the thinnest that is sold in the job's system, or what the job has, and what is faced
 * off on the side that is cut first: down to its flat, or to the top of a raised spigot, round which the flat is milled
 * next.
 */
export const stockFor = (
  plate: Plate,
  machine: MachineSpec | null,
  unit: LengthUnit,
  side: Side,
  window: readonly [number, number] | null,
): Stock => {
  const whole = plate.outline.blank.thickness;
  const own = machine?.blank?.thickness ?? null;
  const bought =
    own === null ? plateStock(unit).find((s) => s.thickness >= whole - AS_BOUGHT) : { name: null, thickness: own };
  const thickness = bought?.thickness ?? whole;
  const over = thickness - whole;
  return {
    name: bought?.name ?? null,
    ...(own === null ? {} : { own: true as const }),
    thickness,
    faced: over <= AS_BOUGHT ? 0 : over,
    side,
    finished: plate.thickness,
    window,
  };
};

/**
 * The blank that the job names must hold the plate, lying one way or the other, and be as thick: a requirement for each
 * that it does not. Nothing where the job names none.
 */
export const blankRequirements = (job: Job, plate: Plate, speech: Speech): readonly Requirement[] => {
  const own = job.machine?.blank ?? null;
  if (own === null) return [];
  const box = pathBox(plate.outline.whole ?? plate.outline.path);
  const [less, more] = [box.right - box.left, box.top - box.bottom].toSorted((a, b) => a - b) as [number, number];
  const [narrow, wide] = [own.width, own.height].toSorted((a, b) => a - b) as [number, number];
  // Of two pieces each has a blank of its own.
  const whole = job.plate?.pieces === undefined ? plate.outline.blank.thickness : 0;
  const places = speech.unit === 'in' ? 3 : 2;
  const l = (mm: number): string => say(mm, speech, places);
  const asked = (title: string, value: number, limit: number, because: string, cure: string): readonly Requirement[] =>
    value >= limit - AS_BOUGHT
      ? []
      : [
          {
            id: 'blank',
            title,
            state: 'fails',
            value,
            limit,
            margin: value - limit,
            unit: 'mm',
            source: 'geometry',
            because,
            cure,
          },
        ];
  return [
    ...asked(
      'the blank is as thick as the plate',
      own.thickness ?? whole,
      whole,
      `the blank is ${l(own.thickness ?? whole)} thick, and the plate needs ${l(whole)}`,
      'take a thicker blank',
    ),
    ...asked(
      'the blank holds the plate',
      Math.min(narrow - less, wide - more),
      0,
      `the blank of ${l(own.width)} × ${l(own.height)} does not hold the plate of ${l(box.right - box.left)} × ` +
        l(box.top - box.bottom),
      'take a larger blank',
    ),
  ];
};

/** Bought stock that is this near serves as it is, mm (common practice). */
const AS_BOUGHT = 0.05;
