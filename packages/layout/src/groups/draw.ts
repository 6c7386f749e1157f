import { type Drafting, type Linear, type Position, type Term, linear, nothing } from '../fit/construction.js';
import { freeSize, sizeFamilies } from '../prior/length.js';
import {
  type Bearing,
  type Divided,
  type Drawn,
  type Grid,
  type Group,
  LOG_TURN,
  type Lattice,
  type Mirrored,
  type Opposite,
  type Ring,
  type PriorDensity,
  centreParameters,
} from './group.js';
import { along } from './near.js';

const freeSizeOf = (
  size: number,
  drafting: Drafting,
  density: PriorDensity,
): { readonly parameter: number; readonly size: number } => {
  const parameter = drafting.parameter(size, density.logSize);
  return { parameter, size: roundOf('size', linear(0, [parameter, 1]), drafting) };
};

/** A quantity that may have been set to a round figure. */
const roundOf = (what: 'size' | 'offset', value: Linear, drafting: Drafting): number =>
  drafting.quantity({ what, value, families: sizeFamilies, free: freeSize });

const left = (
  drafting: Drafting,
  group: Group,
  centre: Position,
  axis: Linear | null,
  bearing: Bearing | null,
  sizes: readonly number[],
  offset: Drawn['offset'] = null,
): Drawn => ({
  group,
  bearing,
  sizes,
  centre: [drafting.mark(centre[0]), drafting.mark(centre[1])],
  axis: axis === null ? null : drafting.mark(axis),
  offset,
  direction: null,
});

/** A direction: a parameter where it is found, a constant where it is held. */
const bearingOf = (parameter: number | null, held: number, turn: number): Linear =>
  parameter === null ? linear(held + turn) : linear(turn, [parameter, 1]);

const drawDivided = (group: Divided, drafting: Drafting, density: PriorDensity): Drawn => {
  const centre = centreParameters(group.about, drafting);
  const { parameter, size } = freeSizeOf(group.diameter, drafting, density);
  const heading = group.held ? null : drafting.parameter(group.heading, LOG_TURN);
  for (const [k, member] of group.members.entries()) {
    const turn = (-2 * Math.PI * (group.places[k] ?? Number.NaN)) / group.divisions;
    drafting.put(member, {
      from: centre,
      turn: bearingOf(heading, group.heading, turn),
      u: linear(0, [parameter, 0.5]),
      v: nothing,
    });
  }
  return left(
    drafting,
    group,
    centre,
    bearingOf(heading, group.heading, 0),
    heading === null ? null : { parameter: heading, fold: group.divisions },
    [size],
  );
};

const drawRing = (group: Ring, drafting: Drafting, density: PriorDensity): Drawn => {
  const centre = centreParameters(group.about, drafting);
  const { parameter, size } = freeSizeOf(group.diameter, drafting, density);
  for (const [k, member] of group.members.entries()) {
    const heading = drafting.parameter(group.headings[k] ?? Number.NaN, LOG_TURN);
    drafting.put(member, { from: centre, turn: linear(0, [heading, 1]), u: linear(0, [parameter, 0.5]), v: nothing });
  }
  return left(drafting, group, centre, null, null, [size]);
};

const drawGrid = (group: Grid, drafting: Drafting): Drawn => {
  const centre = centreParameters(group.about, drafting);
  const axis = group.held ? null : drafting.parameter(group.axis, LOG_TURN);
  for (const [k, member] of group.members.entries()) {
    const [i, j] = group.steps[k] ?? [Number.NaN, Number.NaN];
    drafting.put(member, {
      from: centre,
      turn: bearingOf(axis, group.axis, 0),
      u: linear(i * group.step),
      v: linear(j * group.step),
    });
  }
  return left(
    drafting,
    group,
    centre,
    bearingOf(axis, group.axis, 0),
    axis === null ? null : { parameter: axis, fold: 4 },
    [],
  );
};

/**
 * Where a pattern counts from: its centre, or, for one of its own beside a given centre, that one and how far it is set
 * off along and across its axis.
 */
const settingOf = (
  { about, axis }: Lattice,
  drafting: Drafting,
  density: PriorDensity,
): {
  readonly from: Position;
  readonly offset: Drawn['offset'];
  readonly off: readonly [readonly Term[], readonly Term[]];
} => {
  if (!('own' in about) || about.from === undefined)
    return { from: centreParameters(about, drafting), offset: null, off: [[], []] };
  const from = drafting.point(about.from.feature);
  const [u, v] = along(about.own, about.from.at, axis);
  // Both numbers together are one position in the plane.
  const [p, q] = [drafting.parameter(u, density.logPlane), drafting.parameter(v, 0)];
  return {
    from,
    offset: [roundOf('offset', linear(0, [p, 1]), drafting), roundOf('offset', linear(0, [q, 1]), drafting)],
    off: [[[p, 1]], [[q, 1]]],
  };
};

const drawLattice = (group: Lattice, drafting: Drafting, density: PriorDensity): Drawn => {
  const { from, offset, off } = settingOf(group, drafting, density);
  const axis = drafting.parameter(group.axis, LOG_TURN);
  const first = freeSizeOf(group.pitch[0], drafting, density);
  const second = group.rows === 1 || group.square ? first : freeSizeOf(group.pitch[1], drafting, density);
  for (const [k, member] of group.members.entries()) {
    const [i, j] = group.places[k] ?? [Number.NaN, Number.NaN];
    const across: readonly Term[] = group.rows === 1 ? [] : [[second.parameter, j - (group.rows - 1) / 2]];
    drafting.put(member, {
      from,
      turn: linear(0, [axis, 1]),
      u: linear(0, ...off[0], [first.parameter, i - (group.columns - 1) / 2]),
      v: linear(0, ...off[1], ...across),
    });
  }
  return left(
    drafting,
    group,
    from,
    linear(0, [axis, 1]),
    { parameter: axis, fold: 4 },
    second === first ? [first.size] : [first.size, second.size],
    offset,
  );
};

const drawMirrored = (group: Mirrored, drafting: Drafting, density: PriorDensity): Drawn => {
  const own = 'own' in group.about;
  const centre: Position =
    'own' in group.about && group.diameter === null
      ? [linear(group.about.own.x), linear(group.about.own.y)]
      : centreParameters(group.about, drafting);
  // A line is the same after half a turn: two ways to name one axis.
  const axis = drafting.parameter(group.axis, LOG_TURN + Math.log(2));
  if (group.diameter !== null) {
    const { parameter, size } = freeSizeOf(group.diameter, drafting, density);
    const put = (member: number, turn: Linear): void =>
      drafting.put(member, { from: centre, turn, u: linear(0, [parameter, 0.5]), v: nothing });
    for (const pair of group.pairs) {
      const half = drafting.parameter(Math.atan2(pair.across, pair.along), LOG_TURN);
      put(pair.left, linear(0, [axis, 1], [half, 1]));
      put(pair.right, linear(0, [axis, 1], [half, -1]));
    }
    for (const on of group.on) put(on.feature, linear(on.along < 0 ? Math.PI : 0, [axis, 1]));
    return left(drafting, group, centre, linear(0, [axis, 1]), { parameter: axis, fold: 2 }, [size]);
  }
  const offset = own ? drafting.parameter(group.offset, density.logSize + Math.log(2)) : null;
  const across = (w: number, k: number): Linear =>
    offset === null ? linear(0, [w, k]) : linear(0, [w, k], [offset, 1]);
  const turn = linear(0, [axis, 1]);
  const sizes: number[] = [];
  for (const pair of group.pairs) {
    // Both numbers together are one position in the plane.
    const u = drafting.parameter(pair.along, density.logPlane);
    const w = drafting.parameter(pair.across, 0);
    if (!own && group.members.length === 2)
      sizes.push(roundOf('size', linear(0, [w, 2]), drafting), roundOf('offset', linear(0, [u, 1]), drafting));
    drafting.put(pair.left, { from: centre, turn, u: linear(0, [u, 1]), v: across(w, 1) });
    drafting.put(pair.right, { from: centre, turn, u: linear(0, [u, 1]), v: across(w, -1) });
  }
  for (const on of group.on) {
    const u = drafting.parameter(on.along, density.logSize + Math.log(2));
    drafting.put(on.feature, {
      from: centre,
      turn,
      u: linear(0, [u, 1]),
      v: offset === null ? nothing : linear(0, [offset, 1]),
    });
  }
  return left(drafting, group, centre, turn, { parameter: axis, fold: 2 }, sizes);
};

const drawOpposite = (group: Opposite, drafting: Drafting): Drawn => {
  const centre = centreParameters(group.about, drafting);
  const through = (c: Linear, p: Linear): Linear =>
    linear(0, ...c.terms.map(([q, k]): Term => [q, 2 * k]), ...p.terms.map(([q, k]): Term => [q, -k]));
  for (const [one, other] of group.pairs) {
    const at = drafting.point(one);
    drafting.put(other, {
      from: [through(centre[0], at[0]), through(centre[1], at[1])],
      turn: nothing,
      u: nothing,
      v: nothing,
    });
  }
  return left(drafting, group, centre, null, null, []);
};

/** Adds a group's parameters, places and sizes to a drawing. */
export const drawGroup = (group: Group, drafting: Drafting, density: PriorDensity): Drawn => {
  switch (group.kind) {
    case 'divided':
      return drawDivided(group, drafting, density);
    case 'circle':
      return drawRing(group, drafting, density);
    case 'grid':
      return drawGrid(group, drafting);
    case 'array':
      return drawLattice(group, drafting, density);
    case 'opposite':
      return drawOpposite(group, drafting);
    default:
      return drawMirrored(group, drafting, density);
  }
};
