import { type Point, add, distance, heading, midpoint, polar, subtract, wrapAngle } from '@fayplate/core';
import { type Construction, quantityAt, valueOf } from '../fit/construction.js';
import type { Drawn, Group } from '../groups/group.js';
import type { Measured } from '../measured.js';
import { sayRound } from '../prior/length.js';
import type { Candidate, LaidArray, LaidCircle, LaidGrid, LaidOffset, LaidPair, Turned } from '../types.js';
import type { Settled } from './quantise.js';

/** A drawing as it was adjusted and brought into the face's frame. */
export interface Placed {
  readonly ids: readonly string[];
  readonly construction: Construction;
  readonly parameters: readonly number[];
  readonly way: Settled;
  /** Carries points and directions of the adjusted drawing into the face's frame. */
  readonly move: (p: Point) => Point;
  readonly turn: number;
  /** Every centre in the frame. */
  readonly framed: readonly Point[];
}

const idsOf = (placed: Placed, members: readonly number[]): readonly string[] =>
  members.map((m) => placed.ids[m] ?? '');

const aboutOf = (placed: Placed, group: Group): string | null =>
  'feature' in group.about ? (placed.ids[group.about.feature] ?? null) : null;

const markAt = (placed: Placed, mark: number): number =>
  valueOf(placed.construction.marks[mark] ?? { constant: Number.NaN, terms: [] }, placed.parameters);

const pointOf = (placed: Placed, at: readonly [number, number]): Point =>
  placed.move({ x: markAt(placed, at[0]), y: markAt(placed, at[1]) });

/** Direction of a group's axis, or of its division 0, in the frame. */
const axisOf = (placed: Placed, { axis }: Drawn): number =>
  axis === null ? Number.NaN : wrapAngle(markAt(placed, axis) + placed.turn);

const sizeOf = (
  placed: Placed,
  index: number | undefined,
): { readonly value: number; readonly says: string | null } => {
  if (index === undefined) return { value: Number.NaN, says: null };
  const value = quantityAt(placed.construction, index, placed.parameters);
  const unit = placed.way.unitOf[index] ?? null;
  return { value, says: (placed.way.values[index] ?? null) === null ? null : sayRound(Math.abs(value), unit ?? 'mm') };
};

/** How a group is turned against the first: its direction held at a whole step, half a step on, or free. */
const turnedOf = (placed: Placed, { direction }: Drawn): Turned | null => {
  if (direction === null) return null;
  const value = placed.way.values[direction] ?? null;
  const step = placed.construction.quantities[direction]?.families[0]?.step ?? 1;
  if (value === null) return 'free';
  return Math.abs(value / step - Math.round(value / step)) < 0.25 ? 'in line' : 'midway';
};

const modulo = (k: number, n: number): number => ((k % n) + n) % n;
/** Into (−half, half]. */
const fold = (a: number, half: number): number => {
  const t = a - 2 * half * Math.round(a / (2 * half));
  return t <= -half ? t + 2 * half : t;
};

export const circleOf = (placed: Placed, drawn: Drawn): LaidCircle | null => {
  const { group } = drawn;
  if (group.kind !== 'divided' && group.kind !== 'circle' && !(group.kind === 'mirrored' && group.diameter !== null))
    return null;
  const size = sizeOf(placed, drawn.sizes[0]);
  const base = {
    diameter: size.value,
    size: size.says,
    centre: pointOf(placed, drawn.centre),
    about: aboutOf(placed, group),
    features: idsOf(placed, group.members),
    turned: turnedOf(placed, drawn),
  };
  if (group.kind !== 'divided') return { ...base, divisions: null, clockwisePhase: 0, occupied: [] };
  const n = group.divisions;
  const part = (2 * Math.PI) / n;
  // Clockwise from 12 o'clock to the group's own division 0; counted again from the division nearest to 12 o'clock.
  const clockwise = Math.PI / 2 - axisOf(placed, drawn);
  const whole = Math.floor(clockwise / part + 0.5 + 1e-9);
  return {
    ...base,
    divisions: n,
    clockwisePhase: Math.max(clockwise - whole * part, -part / 2),
    occupied: group.places.map((p) => modulo(p + whole, n)),
  };
};

/**
 * The centre of a pattern, and how far it is set off where that is said; `turned`: told with its axis turned half
 * round.
 */
const settingOf = (
  placed: Placed,
  drawn: Drawn,
  axis: number,
  turned: boolean,
): { readonly centre: Point; readonly offset: LaidOffset | null } => {
  const from = pointOf(placed, drawn.centre);
  const { offset, group } = drawn;
  if (offset === null || !('own' in group.about) || group.about.from === undefined)
    return { centre: from, offset: null };
  const [u, v] = [sizeOf(placed, offset[0]), sizeOf(placed, offset[1])];
  const sign = turned ? -1 : 1;
  const centre = add(from, add(polar(u.value, axis), polar(v.value, axis + Math.PI / 2)));
  return {
    centre,
    offset: {
      from: placed.ids[group.about.from.feature] ?? '',
      by: [sign * u.value, sign * v.value],
      size: [u.says, v.says],
    },
  };
};

export const arrayOf = (placed: Placed, drawn: Drawn): LaidArray | null => {
  const { group, sizes } = drawn;
  if (group.kind !== 'array') return null;
  const first = sizeOf(placed, sizes[0]);
  const second = group.rows === 1 ? null : sizeOf(placed, sizes[1] ?? sizes[0]);
  const axis = axisOf(placed, drawn);
  const kept = fold(axis, Math.PI / 2);
  // Turned half round: places count from the other corner.
  const turned = Math.abs(wrapAngle(axis - kept)) > 1;
  const { centre, offset } = settingOf(placed, drawn, axis, turned);
  return {
    columns: group.columns,
    rows: group.rows,
    pitch: [first.value, second?.value ?? null],
    size: [first.says, second?.says ?? null],
    centre,
    about: aboutOf(placed, group),
    offset,
    axis: kept,
    occupied: group.places.map(([i, j]) => (turned ? [group.columns - 1 - i, group.rows - 1 - j] : [i, j])),
    features: idsOf(placed, group.members),
    turned: turnedOf(placed, drawn),
  };
};

export const gridOf = (placed: Placed, drawn: Drawn): LaidGrid | null => {
  const { group } = drawn;
  if (group.kind !== 'grid') return null;
  const axis = fold(axisOf(placed, drawn), Math.PI / 4);
  return {
    step: group.step,
    says: sayRound(group.step, group.unit),
    features: idsOf(placed, group.members),
    from: aboutOf(placed, group) ?? '',
    axis,
    turned: turnedOf(placed, drawn),
  };
};

const pairOf = (placed: Placed, { sizes, group }: Drawn): LaidPair | null => {
  if (sizes.length < 2) return null;
  const [apart, along] = [sizeOf(placed, sizes[0]), sizeOf(placed, sizes[1])];
  return {
    from: aboutOf(placed, group) ?? '',
    apart: Math.abs(apart.value),
    along: Math.abs(along.value),
    size: { apart: apart.says, along: along.says },
  };
};

/** The line that a group says it is symmetrical about. */
export const mirrorOf = (placed: Placed, drawn: Drawn): Candidate['mirror'] => {
  const { group } = drawn;
  if (group.kind !== 'mirrored') return null;
  const axis = modulo(axisOf(placed, drawn), Math.PI);
  const [from] = group.pairs;
  const [one, other] = [placed.framed[from?.left ?? -1], placed.framed[from?.right ?? -1]];
  const own = 'own' in group.about && group.diameter === null;
  const through =
    own && one !== undefined && other !== undefined ? midpoint(one, other) : pointOf(placed, drawn.centre);
  return { axis, through, said: true, features: idsOf(placed, group.members), pair: pairOf(placed, drawn) };
};

/**
 * A line through the centre that all fasteners, not all of them on it, are symmetrical about as they are laid out, to
 * rounding: the one nearest to upright.
 */
export const followingMirror = (measured: Measured, points: readonly Point[], centre: Point): Candidate['mirror'] => {
  const some = measured.fasteners.map((f) => points[f] ?? centre);
  const [first] = some;
  if (first === undefined || some.length < 2) return null;
  const angle = (p: Point): number => heading(subtract(p, centre));
  const axes = some
    .flatMap((p) => [(angle(first) + angle(p)) / 2, (angle(first) + angle(p) + Math.PI) / 2])
    .map((a) => a - Math.PI * Math.floor(a / Math.PI));
  const near = 1e-7 * measured.extent;
  const holds = (axis: number): boolean =>
    some.some((p) => distance(p, centre) * Math.abs(Math.sin(angle(p) - axis)) > near) &&
    some.every((p) => {
      const image = add(centre, polar(distance(p, centre), 2 * axis - angle(p)));
      return some.some((q) => distance(q, image) < near);
    });
  const [axis] = axes.filter(holds).sort((a, b) => Math.abs(a - Math.PI / 2) - Math.abs(b - Math.PI / 2));
  return axis === undefined
    ? null
    : {
        axis,
        through: centre,
        said: false,
        features: measured.fasteners.map((f) => measured.ids[f] ?? ''),
        pair: null,
      };
};
