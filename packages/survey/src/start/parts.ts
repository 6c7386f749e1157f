import type { Face } from '@fayplate/job';
import { type Network, networkOf } from '../network/network.js';
import { blankOf, pointOf, setPoint, sketchOf } from './sketch.js';

/** Where to begin: a full vector of unknowns, and in words what it rests on. */
export interface Start {
  readonly values: Float64Array;
  readonly from: string;
  /**
   * What stands against it (see `weightOf`), readings that fit badly counted no more than a slip; by its χ² where not
   * said.
   */
  readonly weight?: number;
  /** Places of the observations that do not fit it; none where not said. */
  readonly left?: readonly number[];
  /** Places read on a table leave no other arrangement, nor its mirror image; false where not said. */
  readonly alone?: boolean;
  /** The search ended at its budget, so that another arrangement may fit better; false where not said. */
  readonly unfinished?: boolean;
}

/** Parts are laid side by side this far apart, mm, that no solids of theirs seem to overlap. */
const GAP = 100;

/**
 * Features that readings tie together, directly or by way of others, the largest part first; all that is read on the
 * bench is tied to it.
 */
export const partsOf = ({ unknowns, readings }: Network): readonly ReadonlySet<string>[] => {
  const part = new Map<string, Set<string>>([...unknowns.features.keys()].map((id) => [id, new Set([id])]));
  const join = (a: string, b: string): void => {
    const [one, two] = [part.get(a), part.get(b)];
    if (one === undefined || two === undefined || one === two) return;
    const [large, small] = one.size < two.size ? [two, one] : [one, two];
    for (const id of small) {
      large.add(id);
      part.set(id, large);
    }
  };
  const onBench = readings.filter((r) => r.point !== null).flatMap((r) => r.features);
  for (const group of [onBench, ...readings.map((r) => r.features)]) {
    const [first, ...others] = group.filter((id) => unknowns.features.has(id));
    for (const id of others) join(first ?? id, id);
  }
  return [...new Set(part.values())].sort((a, b) => b.size - a.size);
};

/**
 * One part as a face of its own. Its clocks run about a centre that it may lack: then they say nothing of it.
 */
const partOf = (network: Network, part: ReadonlySet<string>): Network => {
  const { face, instruments, aside } = network;
  const own = (id: string | null): string | null => (id !== null && part.has(id) ? id : null);
  const centre = own(face.centre);
  const features = face.features.filter((f) => part.has(f.id) || f.kind === 'edge');
  const alone: Face = {
    ...face,
    features: centre === null ? features.map((f) => ({ ...f, clock: null })) : features,
    readings: face.readings.filter((r) => r.features.some((id) => part.has(id))),
    centre,
    up: own(face.up),
    across: face.across?.every((id) => part.has(id)) === true ? face.across : null,
  };
  return networkOf(
    { face: alone, instruments },
    aside.map((a) => a.id),
  );
};

/**
 * Where the adjustment begins on a face of several parts that no reading ties together: each is looked for by itself,
 * and all are laid side by side. Other arrangements are kept of the part alone that the face's frame hangs on (else the
 * largest): where the others lie is not known anyway.
 */
export const startOfParts = (
  network: Network,
  parts: readonly ReadonlySet<string>[],
  startOf: (part: Network, rivals: boolean) => readonly Start[],
): readonly Start[] => {
  const sketch = sketchOf(network);
  const places = new Map(sketch.slots.map((s, f) => [s.id, f]));
  const values = blankOf(sketch);
  const { centre, up, across } = network.face;
  const frame = centre ?? up ?? across?.[0] ?? null;
  const first = Math.max(
    parts.findIndex((p) => frame !== null && p.has(frame)),
    0,
  );
  let right = 0;
  const looked = parts.map((part, k) => {
    const alone = partOf(network, part);
    const starts = startOf(alone, k === first);
    return { alone, own: sketchOf(alone), starts, at: 0 };
  });
  const numberOf = new Map(network.observations.map((o, i) => [o.id, i]));
  const left: number[] = [];
  let [weight, unfinished] = [0, false];
  /** One start of a part put into the values of all, its leftmost centre at `at`. */
  const lay = (into: Float64Array, { own }: (typeof looked)[number], start: Start, at: number): number => {
    const points = own.slots.map((_, f) => pointOf(own, start.values, f));
    const least = Math.min(...points.map((p) => p.x));
    for (const [f, s] of own.slots.entries()) {
      const p = points[f];
      const to = places.get(s.id);
      if (p === undefined || to === undefined) continue;
      setPoint(sketch, into, to, { x: p.x - least + at, y: p.y });
      const radius = network.unknowns.features.get(s.id)?.radius ?? null;
      if (radius !== null && s.radius !== null) into[radius] = start.values[s.radius] as number;
    }
    const widest = Math.max(...own.radii, 0);
    return at + Math.max(...points.map((p) => p.x)) - least + 2 * widest + GAP;
  };
  for (const each of looked) {
    const [start] = each.starts;
    if (start === undefined) continue;
    each.at = right;
    right = lay(values, each, start, right);
    weight += start.weight ?? 0;
    unfinished ||= start.unfinished === true;
    for (const i of start.left ?? []) {
      const there = numberOf.get(each.alone.observations[i]?.id ?? '');
      if (there !== undefined) left.push(there);
    }
  }
  const main = looked[first];
  const [best, ...others] = main?.starts ?? [];
  const from = best?.from ?? 'nothing';
  return [
    { values, from, weight, left, unfinished },
    ...(main === undefined
      ? []
      : others.map((other) => {
          const there = Float64Array.from(values);
          lay(there, main, other, main.at);
          return { ...other, values: there, weight: weight - (best?.weight ?? 0) + (other.weight ?? 0), unfinished };
        })),
  ];
};
