import { type Random, apply, type Motion } from '@fayplate/core';
import type { Feature, Reading } from '@fayplate/job';
import type { Survey } from '../src/index.js';
import { type Network, networkOf } from '../src/network/network.js';

/** What the features really are, mm, in a frame of our choosing. */
export type Truth = ReadonlyMap<string, { readonly x: number; readonly y: number; readonly r: number }>;

/** The truth as a vector of a network's unknowns, zero errors as given. */
export const truthVector = (
  { unknowns }: Network,
  truth: Truth,
  zeros: ReadonlyMap<string, number> = new Map(),
): Float64Array => {
  const x = new Float64Array(unknowns.count);
  for (const [id, slots] of unknowns.features) {
    const t = truth.get(id) ?? { x: 0, y: 0, r: 0 };
    x[slots.x] = t.x;
    x[slots.y] = t.y;
    if (slots.radius !== null) x[slots.radius] = t.r;
  }
  for (const [name, slot] of unknowns.zeros) x[slot] = zeros.get(name) ?? 0;
  return x;
};

/** The same truth seen in the bench frame. */
export const moved = (truth: Truth, bench: Motion): Truth =>
  new Map([...truth].map(([id, t]) => [id, { ...apply(bench, t), r: t.r }]));

export interface Simulation {
  readonly survey: Survey;
  /** The truth with the shared zero errors that were drawn, as a start. */
  readonly start: Float64Array;
}

/**
 * Readings and stated diameters of a survey as a shop would take them: what the truth says, the shared zero error, and
 * an error of the reading's own, normal with half its ±. `noise` 0 gives readings without error.
 */
export const simulate = (template: Survey, truth: Truth, random: Random, noise = 1): Simulation => {
  const network = networkOf(template);
  const zeros = new Map(
    [...network.unknowns.zeros.keys()].map((name) => [
      name,
      ((template.instruments.get(name)?.zero ?? 0) / 2) * noise * random.normal(),
    ]),
  );
  const start = truthVector(network, truth, zeros);
  const read = new Map<string, number>();
  for (const o of network.observations)
    if (o.kind !== 'zero') read.set(o.id, o.model(start) + noise * o.sigma * random.normal());
  const readings = template.face.readings.map((r) => readingFrom(r, read, truth));
  const features = template.face.features.map((f): Feature => {
    const value = read.get(`diameter ${f.id}`);
    return f.diameter === null || value === undefined ? f : { ...f, diameter: { ...f.diameter, value } };
  });
  return { survey: { ...template, face: { ...template.face, features, readings } }, start };
};

const readingFrom = (r: Reading, read: ReadonlyMap<string, number>, truth: Truth): Reading => {
  if (r.kind === 'at') return { ...r, point: { x: read.get(`${r.id}.x`) ?? 0, y: read.get(`${r.id}.y`) ?? 0 } };
  // A square or a straightedge always reads the same: the truth of the template holds its error.
  if (r.kind === 'square' || r.kind === 'line' || r.kind === 'flush') return r;
  const value = read.get(r.id) ?? r.value;
  if (r.kind === 'touch') {
    // The point written in the template says from which side the rim is touched; `value` is how far off it the reading
    // lies.
    const c = truth.get(r.features[0] ?? '') ?? { x: 0, y: 0, r: 0 };
    const toward = { x: (r.point?.x ?? 0) - c.x, y: (r.point?.y ?? 0) - c.y };
    const d = Math.hypot(toward.x, toward.y);
    const off = Math.hypot((r.point?.x ?? 0) - c.x, (r.point?.y ?? 0) - c.y) - c.r;
    const reach = c.r + value - off;
    return { ...r, point: { x: c.x + (toward.x / d) * reach, y: c.y + (toward.y / d) * reach } };
  }
  // An unsigned angle or offset is read as such.
  const folded = r.kind === 'angle' && value > Math.PI ? 2 * Math.PI - value : value;
  return { ...r, value: r.kind === 'angle' || r.kind === 'offset' ? Math.abs(folded) : folded };
};
