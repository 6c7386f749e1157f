import type { StackSpec } from '@fayplate/job';

/**
 * One link where it lies along the shaft, mm from the plane where the unknown begins; `low` to `high`: its share of the
 * height, 0 … 1.
 */
export interface Laid {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
}

/**
 * What one limit measures: from the end of what lies against the shaft to the end of what lies along it, mm, at a share
 * of the height.
 */
interface Gap {
  readonly limit: string;
  readonly from: number;
  readonly to: number;
  readonly at: number;
}

interface StackPlanes {
  /** What carries the unknown: the plate and what is clamped with it. */
  readonly around: readonly Laid[];
  /** What runs through it: the shaft, as a rule. */
  readonly along: readonly Laid[];
  readonly gaps: readonly Gap[];
}

type Link = readonly [name: string, length: number];

/** Links from one plane onward, those that start alike drawn once. */
const laid = (rails: readonly (readonly Link[])[], from: number, low: number, high: number): readonly Laid[] => {
  const names = [...new Set(rails.flatMap((r) => r[0]?.[0] ?? []))];
  const groups = names.map((name) => rails.filter((r) => r[0]?.[0] === name));
  const all = groups.reduce((n, g) => n + g.length, 0);
  let at = low;
  return groups.flatMap((group) => {
    const top = at + ((high - low) * group.length) / all;
    const [name, length] = group[0]?.[0] ?? ['', 0];
    const block: Laid = { name, from, to: from + length, low: at, high: top };
    const rest = laid(
      group.map((r) => r.slice(1)),
      from + length,
      at,
      top,
    );
    at = top;
    return [block, ...rest];
  });
};

const ends = (links: readonly Link[]): number => links.reduce((sum, [, length]) => sum + length, 0);
const keyOf = (links: readonly Link[]): string => JSON.stringify(links.map(([name]) => name));

/**
 * Where every link of a chain lies along the shaft. Each limit is a sum: what it adds and what it takes away begin in
 * one plane, and the limit is what lies between their ends. `total`: the unknown, mm.
 */
export const stackPlanes = ({ links, limits, unknown }: StackSpec, total: number): StackPlanes => {
  const shared = (name: string): number => limits.filter((l) => l.sum.has(name)).length;
  const order = [unknown.name, ...links.map((l) => l.name)];
  const valueOf = (name: string): number =>
    name === unknown.name ? total : (links.find((l) => l.name === name)?.value ?? 0);
  const rank = (name: string): number => (name === unknown.name ? -Infinity : -shared(name) * order.length);
  const sides = limits.map((limit) => {
    const side = (sign: 1 | -1): readonly Link[] =>
      [...limit.sum]
        .flatMap(([name, factor]): readonly Link[] =>
          Math.sign(factor) === sign ? [[name, Math.abs(factor) * valueOf(name)]] : [],
        )
        .sort(([a], [b]) => rank(a) + order.indexOf(a) - (rank(b) + order.indexOf(b)));
    const [plus, less] = [side(1), side(-1)];
    const first = plus.some(([name]) => name === unknown.name);
    const [around, along] = first || less.every(([name]) => name !== unknown.name) ? [plus, less] : [less, plus];
    return { limit: limit.name, around, along };
  });
  const unique = (rails: readonly (readonly Link[])[]): readonly (readonly Link[])[] => [
    ...new Map(rails.filter((r) => r.length > 0).map((r) => [keyOf(r), r])).values(),
  ];
  const rails = unique(sides.map((s) => s.around));
  const through = unique(sides.map((s) => s.along));
  const around = laid(rails, 0, 0, 1);
  return {
    around,
    along: laid(through, 0, 0, 1),
    gaps: sides.map((s) => {
      const end = ends(s.around);
      const last = around.filter((b) => b.name === s.around.at(-1)?.[0] && Math.abs(b.to - end) < 1e-9).at(-1);
      return {
        limit: s.limit,
        from: ends(s.along),
        to: end,
        at: last === undefined ? 0.5 : (last.low + last.high) / 2,
      };
    }),
  };
};
