import { systemOf } from '../adjust/system.js';
import { lineThrough, mirroredIn } from './locus.js';
import { reflectIn } from './separation-pairs.js';
import { type Sketch, type Tie, pointOf, setPoint, strain2 } from './sketch.js';

/**
 * A group that hangs on two features and by one more tie: reflected in the line of the two, that tie alone is strained
 * again.
 */
interface PartialReflection {
  readonly pins: readonly [number, number];
  readonly part: readonly number[];
  /** Place in the sketch's ties. */
  readonly tie: number;
}

/** Above so many features partial reflections are not looked for: the search grows with the cube of their number. */
const MOST = 80;

/**
 * The graph of features (0 … n − 1), ties (n …) and the bench (last): a tie stands between the features that it names.
 */
const neighbours = (sketch: Sketch): readonly (readonly number[])[] => {
  const n = sketch.slots.length;
  const ground = n + sketch.ties.length;
  const near: number[][] = Array.from({ length: ground + 1 }, () => []);
  for (const [t, tie] of sketch.ties.entries()) {
    const ends = tie.ends.length === 1 ? [...tie.ends, ground] : tie.ends;
    for (const e of ends) {
      near[e]?.push(n + t);
      near[n + t]?.push(e);
    }
  }
  return near;
};

/**
 * Ties whose loss would part the graph without its two pins, each with the features on the side away from the root: the
 * cut vertices among ties (Hopcroft & Tarjan 1973, CACM 16(6), from memory), without recursion.
 */
const cuts = (
  near: readonly (readonly number[])[],
  features: number,
  a: number,
  b: number,
): readonly { readonly tie: number; readonly side: readonly number[] }[] => {
  const order = new Int32Array(near.length).fill(-1);
  const low = new Int32Array(near.length);
  const visited: number[] = [];
  const found: { readonly tie: number; readonly side: readonly number[] }[] = [];
  const ground = near.length - 1;
  const root = (near[ground]?.length ?? 0) > 0 ? ground : [0, 1, 2].find((f) => f !== a && f !== b && f < features);
  if (root === undefined) return [];
  const stack: { readonly node: number; readonly parent: number; next: number }[] = [];
  const enter = (node: number, parent: number): void => {
    order[node] = low[node] = visited.length;
    visited.push(node);
    stack.push({ node, parent, next: 0 });
  };
  enter(root, -1);
  for (;;) {
    const top = stack.at(-1);
    if (top === undefined) return found;
    const child = near[top.node]?.[top.next++];
    if (child !== undefined) {
      if (child === a || child === b || child === top.parent) continue;
      if (order[child] === -1) enter(child, top.node);
      else low[top.node] = Math.min(low[top.node] as number, order[child] as number);
      continue;
    }
    stack.pop();
    if (top.parent < 0) continue;
    low[top.parent] = Math.min(low[top.parent] as number, low[top.node] as number);
    if (top.parent >= features && top.parent !== ground && (low[top.node] as number) >= (order[top.parent] as number)) {
      found.push({ tie: top.parent - features, side: visited.slice(order[top.node]).filter((v) => v < features) });
    }
  }
};

/** Every partial reflection of the face, single features too. */
const partialReflectionsOf = (sketch: Sketch): readonly PartialReflection[] => {
  const n = sketch.slots.length;
  if (n > MOST) return [];
  const near = neighbours(sketch);
  const reflections: PartialReflection[] = [];
  for (let a = 0; a < n; a++) {
    for (let b = a + 1; b < n; b++) {
      for (const { tie, side } of cuts(near, n, a, b)) {
        const hangsOn = (pin: number): boolean =>
          side.some((f) => (sketch.tiesOf[f] ?? []).some((t) => sketch.ties[t]?.ends.includes(pin) === true));
        if (side.length < n - 3 && hangsOn(a) && hangsOn(b)) reflections.push({ pins: [a, b], part: side, tie });
      }
    }
  }
  return reflections;
};

/** Partial reflections made at once, and the tie that alone is strained again. */
export interface JointReflection {
  readonly reflections: readonly PartialReflection[];
  readonly tie: Tie;
}

/** Pairs are looked at up to so many. */
const MOST_PAIRS = 5000;

/**
 * Every partial reflection alone (a single feature has its other places tried elsewhere), and every two held by the
 * same tie: either strains it, both together perhaps not.
 */
export const jointReflectionsOf = (sketch: Sketch): readonly JointReflection[] => {
  const reflections = partialReflectionsOf(sketch);
  const pairs = reflections.flatMap((f, i) =>
    reflections.slice(i + 1).flatMap((g) => (g.tie === f.tie ? [[f, g]] : [])),
  );
  return [...reflections.flatMap((f) => (f.part.length > 1 ? [[f]] : [])), ...pairs.slice(0, MOST_PAIRS)].flatMap(
    (joint) => {
      const tie = sketch.ties[joint[0]?.tie ?? -1];
      return tie === undefined ? [] : [{ reflections: joint, tie }];
    },
  );
};

/** What one joint reflection takes to be looked at, in products. */
const LOOK = 300;

/** Arrangements with one joint reflection made, the least strained first, no more than `most`. */
export const reflectedLeastStrained = (
  sketch: Sketch,
  reflections: readonly JointReflection[],
  x: Float64Array,
  most: number,
): readonly Float64Array[] => {
  systemOf(sketch.network).meter.spent += LOOK * reflections.length;
  const scratch = Float64Array.from(x);
  /**
   * What its tie alone is strained: only the tie's own features, and the pins of later reflections, need be moved to
   * see it.
   */
  const strainOver = ({ reflections: parts, tie }: JointReflection): number => {
    const seen = new Set([...tie.ends, ...parts.flatMap((p) => p.pins)]);
    for (const { pins, part } of parts) {
      const line = lineThrough(pointOf(sketch, scratch, pins[0]), pointOf(sketch, scratch, pins[1]));
      if (line === null) continue;
      for (const f of part)
        if (seen.has(f)) setPoint(sketch, scratch, f, mirroredIn(line, pointOf(sketch, scratch, f)));
    }
    const strain = strain2(tie, scratch);
    for (const f of seen) setPoint(sketch, scratch, f, pointOf(sketch, x, f));
    return strain;
  };
  return reflections
    .map((joint) => ({ joint, strain: strainOver(joint) }))
    .sort((p, q) => p.strain - q.strain)
    .slice(0, most)
    .map(({ joint }) => joint.reflections.reduce((at, part) => reflectIn(sketch, at, part), x));
};
