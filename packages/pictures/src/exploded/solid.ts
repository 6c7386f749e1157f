import { type Box, type Path, type Point, boxOf, circlePath, distance, edgesOf } from '@fayplate/core';

/** A place in space, mm: x right and y up as seen from side B, z toward the eye of side B. */
export interface Spot extends Point {
  readonly z: number;
}

/** A closed path as chords; `corner`: not smooth there. */
interface Ring {
  readonly points: readonly Point[];
  readonly corner: readonly boolean[];
  readonly box: Box;
}

/** What a ring encloses from one level to another: metal, or a cut in all the metal of its body. */
export interface Prism {
  readonly ring: Ring;
  readonly from: number;
  readonly to: number;
  readonly cut: boolean;
}

/** One piece: metal from all its prisms that are no cuts, less those that are. */
export type Body = readonly Prism[];

/** A line in space through its places in turn. */
export type Chain = readonly Spot[];

/** Metal is looked for so far to either side of an edge, mm. */
const NEAR = 2e-3;
/** Two chords that meet at a greater angle make a corner, radians. */
const CORNER = 0.09;

/**
 * Where a wall of the view turns from the eye: the directions in the plane that are square to the line of sight (see
 * `project`).
 */
const TANGENT = Math.PI / 4;

const around = (turn: number): number => ((turn % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);

/**
 * A closed path as chords that stray no more than `tolerance` mm. An arc has a place of its own wherever its wall turns
 * from the eye, so that the outline of a cylinder starts at the very ellipse.
 */
export const ringOf = (path: Path, tolerance: number): Ring => {
  const points: Point[] = [];
  const leaving: number[] = [];
  const arriving: number[] = [];
  for (const [from, edge] of edgesOf(path)) {
    if (edge.kind === 'line') {
      if (distance(from, edge.to) < 1e-9) continue;
      const a = Math.atan2(edge.to.y - from.y, edge.to.x - from.x);
      points.push(from);
      leaving.push(a);
      arriving.push(a);
      continue;
    }
    const { centre, ccw } = edge;
    const r = distance(from, centre);
    const sign = ccw ? 1 : -1;
    const a = Math.atan2(from.y - centre.y, from.x - centre.x);
    const b = Math.atan2(edge.to.y - centre.y, edge.to.x - centre.x);
    const turn = around(sign * (b - a));
    const sweep = turn < 1e-9 ? 2 * Math.PI : turn;
    const most = r <= tolerance ? Math.PI / 2 : 2 * Math.acos(1 - tolerance / r);
    const n = Math.max(2, Math.ceil(sweep / most));
    const turns = Array.from({ length: n }, (_, i) => (sweep * i) / n);
    for (const t of [TANGENT, TANGENT + Math.PI].map((x) => around(sign * (x - a))))
      if (t > 1e-6 && t < sweep - 1e-6 && turns.every((u) => Math.abs(u - t) > 1e-6)) turns.push(t);
    turns.sort((u, v) => u - v);
    for (const [i, t] of turns.entries()) {
      const at = a + sign * t;
      points.push(i === 0 ? from : { x: centre.x + r * Math.cos(at), y: centre.y + r * Math.sin(at) });
      leaving.push(at + (sign * Math.PI) / 2);
      arriving.push(a + sign * (turns[i + 1] ?? sweep) + (sign * Math.PI) / 2);
    }
  }
  const corner = points.map((_, i) => {
    const before = arriving[(i + points.length - 1) % points.length] ?? 0;
    const bend = around((leaving[i] ?? 0) - before);
    return Math.min(bend, 2 * Math.PI - bend) > CORNER;
  });
  return { points, corner, box: boxOf(points) };
};

/** A round hole or pin. */
export const disc = (at: Point, diameter: number, tolerance: number): Ring =>
  ringOf(circlePath({ x: at.x, y: at.y }, diameter / 2), tolerance);

/** Whether a place lies in a ring. */
export const holds = ({ points, box }: Ring, p: Point): boolean => {
  if (p.x < box.left || p.x > box.right || p.y < box.bottom || p.y > box.top) return false;
  let odd = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const [a, b] = [points[i], points[j]];
    if (a === undefined || b === undefined || a.y > p.y === b.y > p.y) continue;
    if (p.x < ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y) + a.x) odd = !odd;
  }
  return odd;
};

/** What of a body lies over and under a place; `isMetal` then tells it of one level. */
const over = (body: Body, p: Point): Body => body.filter((q) => holds(q.ring, p));

const isMetal = (column: Body, z: number): boolean => {
  let metal = false;
  for (const { from, to, cut } of column) {
    if (z < from || z > to) continue;
    if (cut) return false;
    metal = true;
  }
  return metal;
};

/** Levels at which anything of a body begins or ends, from below. */
export const levelsOf = (body: Body): readonly number[] =>
  [...new Set(body.flatMap((p) => [p.from, p.to]))].sort((a, b) => a - b);

const meet = (a: Box, b: Box): boolean =>
  a.left <= b.right && b.left <= a.right && a.bottom <= b.top && b.bottom <= a.top;

/** How far along the chord from a to b others cross it, 0 to 1. */
const crossedAt = (a: Point, b: Point, others: readonly Ring[]): readonly number[] => {
  const box = boxOf([a, b]);
  const out: number[] = [];
  for (const ring of others) {
    if (!meet(box, ring.box)) continue;
    for (let i = 0, j = ring.points.length - 1; i < ring.points.length; j = i++) {
      const [c, d] = [ring.points[j], ring.points[i]];
      if (c === undefined || d === undefined) continue;
      const w = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
      if (Math.abs(w) < 1e-12) continue;
      const t = ((c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x)) / w;
      const u = ((c.x - a.x) * (b.y - a.y) - (c.y - a.y) * (b.x - a.x)) / w;
      if (t > 1e-9 && t < 1 - 1e-9 && u >= 0 && u <= 1) out.push(t);
    }
  }
  return out.sort((x, y) => x - y);
};

/**
 * Every edge of a body that the eye could see, prism by prism: where two of its faces meet, and where a round wall
 * turns from the eye. A chord counts where the metal on its four sides (within and without the ring, above and below
 * the level) is neither a flat face nor a smooth wall.
 */
export const chainsOf = (body: Body): readonly (readonly Chain[])[] => {
  const levels = levelsOf(body);
  return body.map(({ ring, from, to }) => {
    const chains: Chain[] = [];
    const others = body.filter((p) => p.ring !== ring && meet(p.ring.box, ring.box)).map((p) => p.ring);
    const n = ring.points.length;
    const at = (i: number): Point => ring.points[(i + n) % n] ?? { x: 0, y: 0 };
    const chords = ring.points.map((a, i) => {
      const b = at(i + 1);
      const cuts = [0, ...crossedAt(a, b, others), 1];
      return cuts.map((t) => ({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) }));
    });
    const own = levels.filter((z) => z >= from && z <= to);
    // The columns of metal to either side of each chord.
    const beside = chords.map((places) =>
      places.slice(1).map((b, k) => {
        const a = places[k] ?? b;
        const long = Math.max(distance(a, b), 1e-12);
        const [nx, ny] = [(NEAR * (b.y - a.y)) / long, (-NEAR * (b.x - a.x)) / long];
        const m = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
        return [over(body, { x: m.x + nx, y: m.y + ny }), over(body, { x: m.x - nx, y: m.y - ny })] as const;
      }),
    );
    for (const z of own) {
      let run: Spot[] = [];
      const end = (): void => {
        if (run.length > 1) chains.push(run);
        run = [];
      };
      for (const [i, places] of chords.entries())
        for (const [k, b] of places.slice(1).entries()) {
          const a = places[k] ?? b;
          const [p, q] = beside[i]?.[k] ?? [[], []];
          const [pu, pd] = [isMetal(p, z + NEAR), isMetal(p, z - NEAR)];
          const [qu, qd] = [isMetal(q, z + NEAR), isMetal(q, z - NEAR)];
          if ((pu === pd && qu === qd) || (pu === qu && pd === qd)) end();
          else run.push(...(run.length === 0 ? [{ ...a, z }] : []), { ...b, z });
        }
      end();
    }
    const upright = (p: Point): void => {
      const about = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => {
        const a = (i + 0.5) * TANGENT;
        return over(body, { x: p.x + NEAR * Math.cos(a), y: p.y + NEAR * Math.sin(a) });
      });
      for (const [k, z] of own.entries()) {
        const next = own[k + 1];
        if (next === undefined) continue;
        const metal = about.map((column) => isMetal(column, (z + next) / 2));
        if (!metal.includes(true) || !metal.includes(false)) continue;
        const last = chains.at(-1);
        const low = last?.[0];
        // One line, though other things begin or end beside it.
        if (last?.[1]?.z === z && low?.x === p.x && low.y === p.y) chains[chains.length - 1] = [low, { ...p, z: next }];
        else
          chains.push([
            { ...p, z },
            { ...p, z: next },
          ]);
      }
    };
    for (const [i, places] of chords.entries()) {
      const [a, before, b] = [at(i), at(i - 1), at(i + 1)];
      // A wall faces the eye where its outward normal has a share of the line of sight (-1, 1).
      const faces = (p: Point, q: Point): boolean => -(q.y - p.y) - (q.x - p.x) > 0;
      if (ring.corner[i] === true || faces(before, a) !== faces(a, b)) upright(a);
      for (const p of places.slice(1, -1)) upright(p);
    }
    return chains;
  });
};
