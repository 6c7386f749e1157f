import type { Group } from '../groups/group.js';
import type { Composition, Weighed } from './weigh.js';

/** A size or an offset of the likeliest drawing: which group's, and which of its own. */
export interface Ref {
  readonly group: number;
  readonly what: 'sizes' | 'offset';
  readonly which: number;
}

/** The group of a composition that lays out the same features by the same kind of rule; −1 where none does. */
const matching = (group: Group, composition: Composition): number =>
  composition.groups.findIndex(
    (g) =>
      g.kind === group.kind && 2 * g.members.filter((m) => group.members.includes(m)).length > group.members.length,
  );

/** What a hypothesis says of a size: a round value, 'free', or something else altogether. */
export const valueOf = (ref: Ref, base: Composition, { composition: c, way }: Weighed): string => {
  const group = base.groups[ref.group];
  const quantity = base.drawn[ref.group]?.[ref.what]?.[ref.which];
  const j = group === undefined ? -1 : matching(group, c);
  const mine = c.drawn[j]?.[ref.what] ?? [];
  if (quantity === undefined || mine.length === 0) return 'other';
  const free = base.quantities.at[quantity] ?? Number.NaN;
  // A rectangle may be told with its sides the other way round: the size that is nearest is meant.
  const [nearest] = [...mine].sort(
    (p, q) =>
      Math.abs(Math.abs(c.quantities.at[p] ?? 0) - Math.abs(free)) -
      Math.abs(Math.abs(c.quantities.at[q] ?? 0) - Math.abs(free)),
  );
  const told = ref.what === 'sizes' && mine.length > 1 ? nearest : mine[Math.min(ref.which, mine.length - 1)];
  const value = way.values[told ?? -1] ?? null;
  return value === null ? 'free' : Math.abs(value).toFixed(5);
};

/** What a hypothesis says of how the groups are turned against the first. */
export const turns = (base: Composition, { composition: c, way }: Weighed): string =>
  base.groups
    .map((g, i) => {
      if ((base.drawn[i]?.direction ?? null) === null) return '';
      const direction = c.drawn[matching(g, c)]?.direction ?? null;
      const value = direction === null ? null : (way.values[direction] ?? null);
      return direction === null ? 'other' : value === null ? 'free' : value.toFixed(6);
    })
    .join(' ');
