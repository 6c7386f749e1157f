import { type Edge, type Point, byCodeUnit, distance, edgesOf } from '@fayplate/core';
import { type Plate, centreWords } from '@fayplate/plate';
import { type Instances, flag, instances, list, real, words } from './part21.js';
import { writeProduct } from './product.js';
import type { Ring } from './ring.js';
import { type Flat, type Skin, type Wall, skinOf } from './skin.js';

interface Point3 extends Point {
  readonly z: number;
}

/**
 * Writes the skin as one closed shell of planes, cylinders and cones and gives its instance. Loops run anticlockwise
 * about each face's own normal.
 */
const writeShell = (out: Instances, skin: Skin): string => {
  const faces = [...skin.walls.flatMap((w) => wallFaces(out, w)), ...skin.flats.map((f) => flatFace(out, f))];
  return out.add('CLOSED_SHELL', words(''), list(faces));
};

const point = (out: Instances, p: Point3): string =>
  out.add('CARTESIAN_POINT', words(''), list([real(p.x), real(p.y), real(p.z)]));
const direction = (out: Instances, x: number, y: number, z: number): string =>
  out.add('DIRECTION', words(''), list([real(x), real(y), real(z)]));
const axes = (out: Instances, at: Point3, axis: string, ref: string): string =>
  out.add('AXIS2_PLACEMENT_3D', words(''), point(out, at), axis, ref);
const up = (out: Instances): string => direction(out, 0, 0, 1);
const down = (out: Instances): string => direction(out, 0, 0, -1);
const right = (out: Instances): string => direction(out, 1, 0, 0);
const along = (out: Instances, ran: Ran, forward: boolean): string =>
  out.add('ORIENTED_EDGE', words(''), '*', '*', ran.edge, flag(forward === ran.forward));

/** A corner of a ring at a height: the start of one of its edges. */
interface Corner {
  readonly ring: Ring;
  readonly index: number;
  readonly z: number;
}

const cornersOf = (ring: Ring): readonly Point[] => edgesOf(ring.path).map(([from]) => from);

const placeOf = (c: Corner): Point3 => ({ ...(cornersOf(c.ring)[c.index] ?? c.ring.path.start), z: c.z });

/** Corners in one place are one corner, whatever rings they belong to. */
const cornerName = (c: Corner): string => {
  const { x, y, z } = placeOf(c);
  return `${x} ${y} ${z}`;
};

/** The end of an edge is the start of the next, so that a ring closes whatever its numbers round to. */
const endOf = (c: Corner): Corner => ({ ...c, index: (c.index + 1) % c.ring.path.edges.length });

/** A ring of no radius is one point. */
const isPoint = (ring: Ring): boolean => ring.capsule?.radius === 0;

const vertex = (out: Instances, c: Corner): string =>
  out.named(`vertex ${cornerName(c)}`, () => out.add('VERTEX_POINT', words(''), point(out, placeOf(c))));

/** An edge as it stands in a loop: `forward` where it was written in that direction. */
interface Ran {
  readonly edge: string;
  readonly forward: boolean;
}

/** Which corner each edge was written from: two faces that share it run it in opposite directions. */
const written = new WeakMap<Instances, Map<string, string>>();

/** An edge by a name that is the same from both its ends. */
const once = (out: Instances, name: string, from: Corner, write: () => string): Ran => {
  const starts = written.get(out) ?? new Map<string, string>();
  written.set(out, starts);
  const start = starts.get(name) ?? cornerName(from);
  starts.set(name, start);
  return { edge: out.named(name, write), forward: start === cornerName(from) };
};

const straightEdge = (out: Instances, from: Corner, to: Corner): Ran =>
  once(out, `edge ${[cornerName(from), cornerName(to)].sort(byCodeUnit).join(' to ')}`, from, () => {
    const [a, b] = [placeOf(from), placeOf(to)];
    const l = Math.hypot(b.x - a.x, b.y - a.y, b.z - a.z);
    const vector = out.add(
      'VECTOR',
      words(''),
      direction(out, (b.x - a.x) / l, (b.y - a.y) / l, (b.z - a.z) / l),
      real(1),
    );
    const line = out.add('LINE', words(''), point(out, a), vector);
    return out.add('EDGE_CURVE', words(''), vertex(out, from), vertex(out, to), line, '.T.');
  });

/**
 * An edge of a ring at its height, in the ring's own direction; a clockwise arc lies on a circle that is seen from
 * below.
 */
const ringEdge = (out: Instances, from: Corner): Ran => {
  const edge = from.ring.path.edges[from.index];
  const to = endOf(from);
  if (edge === undefined || edge.kind === 'line') return straightEdge(out, from, to);
  const [a, b] = edge.ccw ? [from, to] : [to, from];
  return once(out, `arc ${cornerName(a)} to ${cornerName(b)}`, from, () => {
    const place = axes(out, { ...edge.centre, z: from.z }, edge.ccw ? up(out) : down(out), right(out));
    const circle = out.add('CIRCLE', words(''), place, real(distance(placeOf(from), edge.centre)));
    return out.add('EDGE_CURVE', words(''), vertex(out, from), vertex(out, to), circle, '.T.');
  });
};

const ringLoop = (out: Instances, ring: Ring, z: number, forward: boolean): string => {
  const edges = ring.path.edges.map((_, index) => along(out, ringEdge(out, { ring, index, z }), forward));
  return out.add('EDGE_LOOP', words(''), list(forward ? edges : edges.reverse()));
};

const flatFace = (out: Instances, f: Flat): string => {
  const plane = out.add('PLANE', words(''), axes(out, { x: 0, y: 0, z: f.z }, f.up ? up(out) : down(out), right(out)));
  const bounds = [
    out.add('FACE_OUTER_BOUND', words(''), ringLoop(out, f.outer, f.z, f.up), '.T.'),
    ...f.inner.map((r) => out.add('FACE_BOUND', words(''), ringLoop(out, r, f.z, !f.up), '.T.')),
  ];
  return out.add('ADVANCED_FACE', words(f.outer.name), list(bounds), plane, '.T.');
};

/** One face for each edge of the wall's ring. Seen from outside a ring of metal, its edges run to the right. */
const wallFaces = (out: Instances, w: Wall): readonly string[] => {
  const lower = edgesOf(w.lower.path);
  const upper = edgesOf(w.upper.path);
  return lower.flatMap(([a, low], i) => {
    const [b, high] = upper[i] ?? [a, low];
    const below: Corner = { ring: w.lower, index: i, z: w.from };
    const above: Corner = { ring: w.upper, index: i, z: w.to };
    const bottom = isPoint(w.lower) ? [] : [along(out, ringEdge(out, below), w.outward)];
    const top = isPoint(w.upper) ? [] : [along(out, ringEdge(out, above), !w.outward)];
    const start = straightEdge(out, below, above);
    const end = straightEdge(out, endOf(below), endOf(above));
    const loop = w.outward
      ? [...bottom, along(out, end, true), ...top, along(out, start, false)]
      : [...bottom, along(out, start, true), ...top, along(out, end, false)];
    const bound = out.add('FACE_OUTER_BOUND', words(''), out.add('EDGE_LOOP', words(''), list(loop)), '.T.');
    const sense = low.kind === 'line' ? true : low.ccw === w.outward;
    return [out.add('ADVANCED_FACE', words(w.name), list([bound]), wallSurface(out, w, a, low, b, high), flag(sense))];
  });
};

const wallSurface = (out: Instances, w: Wall, a: Point, low: Edge, b: Point, high: Edge): string => {
  if (low.kind === 'line' || high.kind === 'line') {
    const l = distance(a, low.to) * (w.outward ? 1 : -1);
    const normal = direction(out, (low.to.y - a.y) / l, -(low.to.x - a.x) / l, 0);
    return out.add('PLANE', words(''), axes(out, { ...a, z: w.from }, normal, up(out)));
  }
  const small = distance(a, low.centre);
  const large = distance(b, high.centre);
  if (small === large)
    return out.add(
      'CYLINDRICAL_SURFACE',
      words(''),
      axes(out, { ...low.centre, z: w.from }, up(out), right(out)),
      real(small),
    );
  const half = Math.atan(Math.abs(large - small) / (w.to - w.from));
  const wide =
    large > small
      ? axes(out, { ...high.centre, z: w.to }, up(out), right(out))
      : axes(out, { ...low.centre, z: w.from }, down(out), right(out));
  return out.add('CONICAL_SURFACE', words(''), wide, real(Math.max(small, large)), real(half));
};

/** The text of a STEP file, or why no solid can be made. */
export type SolidMade =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly faults: readonly string[] };

/**
 * The plate as one exact solid in an ISO 10303-21 exchange file (schema AUTOMOTIVE_DESIGN of ISO 10303-214, which
 * general CAD programs read): planes, cylinders and cones in the plate's own frame, mm, z from side A to side B. Walls
 * carry the names of their holes; a thread is the cylinder of its tapping hole. `stamp`: time of writing, ISO 8601, for
 * the header. Faults name cuts that break into each other or out of the outline.
 */
export const stepSolid = (
  plate: Plate,
  options: { readonly name?: string; readonly stamp?: string } = {},
): SolidMade => {
  const made = skinOf(plate);
  if (!made.ok) return made;
  const out = instances();
  const name = words(options.name ?? 'adapter plate');
  const said = centreWords({ centres: plate.centres ?? [] }, { unit: 'mm', fraction: null });
  const solid = out.add('MANIFOLD_SOLID_BREP', name, writeShell(out, made.skin));
  writeProduct(out, name, solid);
  const text = [
    'ISO-10303-21;',
    'HEADER;',
    `FILE_DESCRIPTION((${['adapter plate, solid', ...(said === '' ? [] : [said])].map(words).join(',')}),'2;1');`,
    `FILE_NAME(${name},${words(options.stamp ?? '2000-01-01T00:00:00')},(''),(''),'fayplate','fayplate','');`,
    `FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));`,
    'ENDSEC;',
    'DATA;',
    ...out.lines(),
    'ENDSEC;',
    'END-ISO-10303-21;',
    '',
  ].join('\n');
  return { ok: true, text };
};
