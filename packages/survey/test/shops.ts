import { type Random, centroid, polar } from '@fayplate/core';
import type { Instrument, Reading } from '@fayplate/job';
import type { Survey } from '../src/index.js';
import type { Truth } from './simulate.js';
import { feature, instrument, reading, survey } from './support.js';

export interface Shop {
  /** The readings to take, their values still to be simulated. */
  readonly template: Survey;
  readonly truth: Truth;
}

/**
 * A ring of studs about a spigot, off their places by a few millimetres, read by caliper and rule as one would: to the
 * spigot, to the neighbours, across.
 */
export const ringShop = (count: number, random: Random, plusMinus = 0.1): Shop => {
  const radius = 60 + 60 * random.uniform();
  const truth = new Map([['S', { x: 0, y: 0, r: radius / 2 }]]);
  const ids = Array.from({ length: count }, (_, i) => `P${i + 1}`);
  for (const [i, id] of ids.entries()) {
    const p = polar(radius + 2 * random.normal(), Math.PI / 2 - (2 * Math.PI * i) / count + 0.02 * random.normal());
    truth.set(id, { ...p, r: 4 + random.uniform() });
  }
  const features = [
    feature('S', { kind: 'spigot', diameter: { value: radius, plusMinus: 0.02 } }),
    ...ids.map((id, i) =>
      feature(id, { diameter: { value: 9, plusMinus: 0.04 }, clock: Math.PI / 2 - (2 * Math.PI * i) / count }),
    ),
  ];
  const kinds = ['over', 'between', 'step', 'centres'] as const;
  const across = (step: number): readonly Reading[] =>
    ids.map((id, i) =>
      reading(`${kinds[(i + step) % 4] ?? 'over'} ${id} ${ids[(i + step) % count] ?? ''}`, 0, plusMinus),
    );
  const readings = [
    ...ids.map((id) => reading(`between ${id} S`, 0, plusMinus)),
    ...across(1),
    ...(count > 4 ? across(2) : []),
    ...(count > 6 ? across(Math.floor(count / 3)) : []),
  ];
  return { template: survey(features, readings, { centre: 'S', up: 'P1' }), truth };
};

/** A plate of holes on a rough square grid, each read to its neighbours: four readings a hole, for timing. */
export const gridShop = (holes: number, random: Random): Shop => {
  const side = Math.ceil(Math.sqrt(holes));
  const truth = new Map<string, { x: number; y: number; r: number }>();
  const id = (i: number, j: number): string => `H${i * side + j + 1}`;
  const where = new Map<string, readonly [number, number]>();
  for (let k = 0; k < holes; k++) {
    const i = Math.floor(k / side);
    const j = k % side;
    truth.set(id(i, j), { x: 40 * j + 2 * random.normal(), y: 40 * i + 2 * random.normal(), r: 5 });
    where.set(id(i, j), [i, j]);
  }
  const readings: Reading[] = [];
  const kinds = ['over', 'between', 'centres'] as const;
  for (const [a, [i, j]] of where) {
    for (const [di, dj] of [
      [0, 1],
      [1, 0],
      [1, 1],
      [1, -1],
    ] as const) {
      const b = id(i + di, j + dj);
      if (j + dj >= 0 && j + dj < side && truth.has(b))
        readings.push(reading(`${kinds[readings.length % 3] ?? 'over'} ${a} ${b}`, 0, 0.05));
    }
  }
  for (let k = 0; readings.length < 4 * holes && k < 20 * holes; k++) {
    const [i, j] = [random.below(side), random.below(side)];
    const [di, dj] = [1 + random.below(2), random.below(5) - 2];
    const [a, b] = [id(i, j), id(i + di, j + dj)];
    if (truth.has(a) && j + dj >= 0 && j + dj < side && truth.has(b))
      readings.push(reading(`centres ${a} ${b}`, 0, 0.05));
  }
  const middle = centroid([...truth.values()]);
  const features = [...truth].map(([name, t]) =>
    feature(name, {
      kind: 'hole',
      diameter: { value: 10, plusMinus: 0.02 },
      clock: Math.atan2(t.y - middle.y, t.x - middle.x),
    }),
  );
  return { template: survey(features, readings, { across: ['H1', `H${side}`] }), truth };
};

/**
 * A ring read in every way that the job file knows: two instruments with a shared zero error, bench readings of several
 * holes, angles, lines and edges.
 */
export const everyKindShop = (count: number, random: Random): Shop => {
  const ring = ringShop(count, random);
  const { template } = ring;
  const truth = new Map(ring.truth);
  const id = (i: number): string => `P${(((i % count) + count) % count) + 1}`;
  const c = (name: string): { readonly x: number; readonly y: number; readonly r: number } =>
    truth.get(name) ?? { x: 0, y: 0, r: 0 };
  const rim = (name: string, angle: number): readonly [number, number] => [
    c(name).x + c(name).r * Math.cos(angle),
    c(name).y + c(name).r * Math.sin(angle),
  ];
  const outer = 1.5 * Math.hypot(c('P1').x, c('P1').y);
  const skew = 0.1 * random.normal();
  for (const [k, name] of ['L1', 'L2', 'L3'].entries())
    truth.set(name, {
      x: 30 * (k - 1) * Math.cos(0.4),
      y: -0.6 * outer + 30 * (k - 1) * Math.sin(0.4) + (k === 1 ? skew : 0),
      r: 5,
    });
  // Q is square to P1–P2 from P2, but for the error of the square.
  const along = Math.atan2(c('P2').y - c('P1').y, c('P2').x - c('P1').x) - Math.PI / 2 + 0.0025 * random.normal();
  truth.set('Q', { x: c('P2').x + 40 * Math.cos(along), y: c('P2').y + 40 * Math.sin(along), r: 5 });
  truth.set('B', { x: 0.3, y: -0.2, r: outer });
  const by = { instrument: 'rule' };
  const readings = [
    ...template.face.readings.filter((_, i) => i % 5 !== 4),
    reading('wall P2 B', 0, 0.2, by),
    reading('wall P4 B', 0, 0.2, by),
    reading('wall P5 B', 0, 0.2),
    reading('dia P3', 0, 0.05),
    reading('angle P1 S P2', 0, 0.4),
    reading('angle P2 P4 P5', 0, 0.4, { instrument: 'protractor' }),
    reading('angle P5 P1 P3', 0, 0.4, { instrument: 'protractor' }),
    reading('square P1-P2 P2-Q', 90, 0.3),
    reading('line L1 L2 L3', 0, 0.2),
    reading('flush L3 L2 L1', 0, 0.2),
    ...['L1', 'L2', 'L3', 'Q'].flatMap((l) => ['P3', 'P4', 'P1'].map((p) => reading(`over ${l} ${p}`, 0, 0.2))),
    reading('offset P4 P1-P2', 0, 0.2, by),
    reading('offset P1 P3-P5', 0, 0.2),
    reading('at P1', 0, 0.1, { point: { x: 0, y: 0 } }),
    reading('at P3', 0, 0.1, { point: { x: 0, y: 0 } }),
    reading('at P6', 0, 0.1, { point: { x: 0, y: 0 }, instrument: 'table' }),
    ...[0, 2, 4].map((a) => reading('touch P2', rim('P2', a), 0.05)),
    ...[1, 3, 5].map((a) => reading('touch B', rim('B', a), 0.05)),
    reading(`over P1 ${id(3)}`, 0, 0.3, by),
    reading(`centres P2 ${id(4)}`, 0, 0.3, by),
  ];
  const instruments = [wornRule, instrument('protractor', 0.007, 0.007, 'angle'), instrument('table', 0.1)];
  const features = [
    ...template.face.features.map((f) => (f.id === 'P3' ? { ...f, diameter: null } : f)),
    feature('B', { kind: 'bore', diameter: null }),
    ...['L1', 'L2', 'L3', 'Q'].map((l) => feature(l, { diameter: { value: 10, plusMinus: 0.05 } })),
  ];
  return {
    template: survey(
      features,
      readings.map((r) => ({ ...r, id: '' })),
      { centre: 'S', up: 'P1' },
      instruments,
    ),
    truth,
  };
};

/** Instruments for shops that want shared zero errors. */
export const wornRule: Instrument = instrument('rule', 0.4, 0.4);
