import { type Point, add, distance, polar } from '@fayplate/core';
import { type Lettering, type TextShape, text } from '@fayplate/drawing';
import type { Ring } from './polygon.js';

/** Bare metal round every letter, mm: a beam's burn or a nozzle's width lies within it. */
const BARE = 0.8;
/**
 * Sizes of letters that are tried, the largest first, mm. Below 2.5 mm a nozzle of 0.4 mm fills them in (common
 * practice).
 */
const CAPITALS = [5, 4, 3.2, 2.5] as const;
/** Line to line, in capitals. */
const LEAD = 1.7;
/** Words are looked for room on places this far apart, mm. */
const STEP = 3;

/** A box that may stand at any angle: its centre, half its sides, its turn. */
interface Slab {
  readonly at: Point;
  readonly wide: number;
  readonly high: number;
  readonly turn: number;
}

/** Points of the metal's edges, and what letters already take: what new letters keep clear of. */
export interface Ground {
  readonly edges: readonly Point[];
  readonly isMetal: (p: Point) => boolean;
  readonly taken: readonly Slab[];
}

const local = (s: Slab, p: Point): Point => {
  const [c, n] = [Math.cos(s.turn), Math.sin(s.turn)];
  const [x, y] = [p.x - s.at.x, p.y - s.at.y];
  return { x: c * x + n * y, y: -n * x + c * y };
};

const holds = (s: Slab, p: Point, more: number): boolean => {
  const q = local(s, p);
  return Math.abs(q.x) <= s.wide + more && Math.abs(q.y) <= s.high + more;
};

/** Points over a box, near enough together that no other box of lettering slips between. */
const spread = (s: Slab): readonly Point[] => {
  const [nx, ny] = [Math.ceil(s.wide), Math.ceil(s.high)];
  const out: Point[] = [];
  for (let i = -nx; i <= nx; i++)
    for (let j = -ny; j <= ny; j++) {
      const along = polar((s.wide * i) / nx, s.turn);
      out.push(add(s.at, add(along, polar((s.high * j) / ny, s.turn + Math.PI / 2))));
    }
  return out;
};

const fits = (s: Slab, ground: Ground): boolean => {
  if (!ground.isMetal(s.at)) return false;
  const reach = Math.hypot(s.wide, s.high) + BARE;
  for (const p of ground.edges) if (distance(p, s.at) <= reach && holds(s, p, BARE)) return false;
  const rivals = ground.taken.filter((t) => distance(t.at, s.at) <= reach + Math.hypot(t.wide, t.high));
  return rivals.length === 0 || spread(s).every((p) => rivals.every((t) => !holds(t, p, BARE)));
};

/** A block of lines, all of one size, about a place. */
interface Block {
  readonly lines: readonly string[];
  readonly weight: TextShape['weight'];
}

const sized = ({ lines, weight }: Block, capital: number, letters: Lettering): Omit<Slab, 'at' | 'turn'> => ({
  wide: Math.max(...lines.map((l) => letters.width(l, capital, weight))) / 2,
  // Descenders below the last line and accents above the first.
  high: ((lines.length - 1) * LEAD * capital + 1.35 * capital) / 2,
});

const shapesOf = (block: Block, capital: number, slab: Slab): readonly TextShape[] =>
  block.lines.map((line, i) => {
    const up = ((block.lines.length - 1) / 2 - i) * LEAD * capital - capital / 2;
    return text('mark', add(slab.at, polar(up, slab.turn + Math.PI / 2)), line, {
      capital,
      weight: block.weight,
      anchor: 'middle',
      turn: slab.turn,
    });
  });

/** What was set, and the ground with it; null where there is no room. */
export type Placed = { readonly shapes: readonly TextShape[]; readonly ground: Ground } | null;

const settle = (block: Block, capital: number, slab: Slab, ground: Ground): Placed => ({
  shapes: shapesOf(block, capital, slab),
  ground: { ...ground, taken: [...ground.taken, slab] },
});

/** A name beside what it names: at the nearest of 24 places round it where there is metal, as large as goes. */
export const nameBeside = (
  name: string,
  centre: Point,
  radius: number,
  toward: Point,
  ground: Ground,
  letters: Lettering,
): Placed => {
  const block: Block = { lines: [name], weight: 'bold' };
  const out = Math.atan2(centre.y - toward.y, centre.x - toward.x);
  for (const capital of CAPITALS.slice(1)) {
    const size = sized(block, capital, letters);
    for (let far = 0; far <= 3; far++) {
      for (let k = 0; k < 24; k++) {
        // To the sides of the way outward first: there a hole circle leaves most metal.
        const angle = out + Math.PI / 2 + (k % 2 === 0 ? 1 : -1) * Math.ceil(k / 2) * (Math.PI / 12);
        const c = [Math.abs(Math.cos(angle)), Math.abs(Math.sin(angle))] as const;
        const room = Math.min(c[0] < 1e-9 ? Infinity : size.wide / c[0], c[1] < 1e-9 ? Infinity : size.high / c[1]);
        const slab = { ...size, at: add(centre, polar(radius + room + BARE * 1.2 + far * capital, angle)), turn: 0 };
        if (fits(slab, ground)) return settle(block, capital, slab, ground);
      }
    }
  }
  return null;
};

/**
 * Words wherever there is room for them, level if that is possible, as large as goes and as near to `near` as may be.
 */
export const wordsWherever = (
  settings: readonly (readonly string[])[],
  near: Point,
  ground: Ground,
  letters: Lettering,
): Placed => {
  const box = ground.edges.reduce((b, p) => ({ r: Math.max(b.r, distance(p, near)) }), { r: 0 });
  const places: Point[] = [];
  for (let x = -box.r; x <= box.r; x += STEP)
    for (let y = -box.r; y <= box.r; y += STEP) {
      const p = { x: near.x + x, y: near.y + y };
      if (ground.isMetal(p)) places.push(p);
    }
  places.sort((a, b) => distance(a, near) - distance(b, near));
  for (const capital of CAPITALS) {
    for (const turn of [0, Math.PI / 2, Math.PI / 4, -Math.PI / 4]) {
      for (const lines of settings) {
        const block: Block = { lines, weight: 'bold' };
        const size = sized(block, capital, letters);
        const at = places.find((p) => fits({ ...size, at: p, turn }, ground));
        if (at !== undefined) return settle(block, capital, { ...size, at, turn }, ground);
      }
    }
  }
  return null;
};

/** The ground of a piece: its edges as points no more than half a millimetre apart. */
export const groundOf = (rings: readonly Ring[]): Ground => {
  const edges = rings.flatMap((ring) =>
    ring.flatMap((p, i) => {
      const q = ring[(i + 1) % ring.length] ?? p;
      const n = Math.max(1, Math.ceil(distance(p, q) / 0.5));
      return Array.from({ length: n }, (_, k) => ({
        x: p.x + ((q.x - p.x) * k) / n,
        y: p.y + ((q.y - p.y) * k) / n,
      }));
    }),
  );
  const isMetal = (p: Point): boolean => {
    let odd = false;
    for (const ring of rings)
      for (const [i, a] of ring.entries()) {
        const b = ring[(i + 1) % ring.length] ?? a;
        if (a.y > p.y !== b.y > p.y && p.x < ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y) + a.x) odd = !odd;
      }
    return odd;
  };
  return { edges, isMetal, taken: [] };
};
