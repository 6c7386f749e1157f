import { speechFor } from '@fayplate/core';
import type { Face, Feature } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { type MatedFace, type PlateBore, type PlateHole, goesOn, goesOnJson, goesOnReport, locatedShaft, meeting, usualDrilling } from '../../src/index.js';

const feature = (id: string, kind: Feature['kind'], rest: Partial<Feature> = {}): Feature => ({
  id,
  kind,
  diameter: null,
  diameterFrom: null,
  thread: null,
  clock: null,
  vacant: false,
  stands: null,
  deep: null,
  lean: null,
  height: null,
  ...rest,
});

const face = (features: readonly Feature[]): Face => ({
  name: 'pump',
  viewed: 'from outside',
  centre: 'spigot',
  up: null,
  across: null,
  features,
  readings: [],
  layout: { kind: 'measured' },
  flange: null,
  shaft: null,
  rim: [],
});

/** Places of the pattern, radii and a covariance that tells its rows apart. */
const mated = (places: Readonly<Record<string, readonly [x: number, y: number, radius: number | null]>>): MatedFace => {
  const ids = Object.keys(places);
  const n = 2 * ids.length;
  return {
    face: 'pump',
    side: 'A',
    centre: { x: 0, y: 0 },
    motion: { turn: 0, shift: { x: 0, y: 0 }, mirrored: false },
    pattern: {
      ids,
      points: ids.map((id) => ({ x: places[id]?.[0] ?? 0, y: places[id]?.[1] ?? 0 })),
      radii: ids.map((id) => places[id]?.[2] ?? null),
      covariance: Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => (i === j ? 1e-4 * (i + 1) : 1e-6 * (i + j)))),
    },
  };
};

const hole = (id: string, as: PlateHole['as'], x: number, y: number, rest: Partial<PlateHole> = {}): PlateHole => ({
  id: `H${id}`,
  feature: `pump.${id}`,
  x,
  y,
  as,
  diameter: 11,
  limits: [11, 11.27],
  from: 'B',
  depth: null,
  thread: null,
  sink: null,
  slot: null,
  fastening: null,
  fastener: 9.968,
  drill: null,
  source: '',
  land: [0, 20],
  ...rest,
});

const recess: PlateBore = { id: 'C1', kind: 'recess', feature: 'pump.spigot', x: 0, y: 0, diameter: 60.05, limits: [60.04, 60.06], side: 'A', depth: 3 };
const places = { spigot: [0, 0, 30], P1: [0, 80, 4.98], P2: [80, 0, 5.25], D1: [-40, 0, 4], D2: [40, 0, 4] } as const;
const features = [feature('spigot', 'spigot', { diameter: { value: 60, plusMinus: 0.02 } }), feature('P1', 'stud', { thread: 'M10' }), feature('P2', 'hole'), feature('D1', 'dowel'), feature('D2', 'dowel')];
const meet = (holes: readonly PlateHole[], bores: readonly PlateBore[] = [], drilling: number | null = 0.05) => meeting({ face: face(features), mated: mated(places), holes, bores, drilling });

describe('what meets what', () => {
  test('a stud through a clearance hole: half of hole less stud, the hole between its limits', () => {
    const [j] = meet([hole('P1', 'clearance', 0.1, 80)]).joints;
    expect(j).toMatchObject({ id: 'P1', role: 'fastener', plate: { x: 0.1, y: 80 }, part: { x: 0, y: 80 }, along: null, made: 0.05 });
    expect(j?.room[0]).toBeCloseTo((11 - 9.968) / 2, 9);
    expect(j?.room[1]).toBeCloseTo((11.27 - 9.968) / 2, 9);
  });
  test('a bolt through a plain hole of the part floats: both rooms', () => {
    const [j] = meet([hole('P2', 'clearance', 80, 0)]).joints;
    expect(j?.room[0]).toBeCloseTo((11 - 9.968) / 2 + (10.5 - 9.968) / 2, 9);
  });
  test('a bolt into the plate is fixed: only the part’s hole gives', () => {
    const [j] = meet([hole('P2', 'tapped', 80, 0, { diameter: 8.5, limits: null })]).joints;
    expect(j?.room).toEqual([expect.closeTo((10.5 - 9.968) / 2, 9), expect.closeTo((10.5 - 9.968) / 2, 9)]);
  });
  test('a register and dowels locate; a slot frees its own direction', () => {
    const slot = hole('D2', 'slot', 40, 0, { diameter: 8, limits: [8, 8.015], fastener: 8.003, slot: { length: 1, angle: 0.3 } });
    const { joints } = meet([hole('D1', 'dowel', -40, 0, { diameter: 8, limits: [8, 8.015], fastener: 8.003 }), slot], [recess]);
    expect(joints.map((j) => [j.id, j.role, j.along, j.made])).toEqual([
      ['spigot', 'locator', null, 0],
      ['D1', 'locator', null, 0.05],
      ['D2', 'locator', 0.3, 0.05],
    ]);
    expect(joints[0]?.room).toEqual([expect.closeTo(0.02, 9), expect.closeTo(0.03, 9)]);
  });
  test('a raised spigot of the plate in the part’s bore', () => {
    const raised: PlateBore = { ...recess, kind: 'spigot', diameter: 59.96, limits: [59.95, 59.97] };
    expect(meet([], [raised]).joints[0]?.room).toEqual([expect.closeTo(0.015, 9), expect.closeTo(0.025, 9)]);
  });
  test('holes of the other face, of the plate alone and with no known bolt take no part', () => {
    expect(meet([hole('P1', 'clearance', 0, 80, { feature: 'motor.P1' }), hole('P1', 'jacking', 5, 5, { feature: null }), hole('P1', 'clearance', 0, 80, { fastener: null })]).joints).toEqual([]);
  });
  test('the covariance keeps its rows with their features', () => {
    const { joints, covariance } = meet([hole('P2', 'clearance', 80, 0), hole('P1', 'clearance', 0, 80)]);
    expect(joints.map((j) => j.id)).toEqual(['P2', 'P1']);
    expect(covariance.map((r, i) => r[i])).toEqual([expect.closeTo(5e-4, 12), expect.closeTo(6e-4, 12), expect.closeTo(3e-4, 12), expect.closeTo(4e-4, 12)]);
    expect(covariance[0]?.[2]).toBeCloseTo(6e-6, 12);
  });
  test('drilling not stated is paper and punch', () => expect(meet([hole('P1', 'clearance', 0, 80)], [], null).joints[0]?.made).toBe(usualDrilling));
});

describe('in words and JSON', () => {
  const spec = meet([hole('P1', 'clearance', 0, 80), hole('P2', 'tapped', 80, 0, { diameter: 8.5, limits: null })], [recess], 0.5);
  const g = goesOn(spec, { trials: 1000 });
  test('the verdict gives the chance, then what would help', () => {
    const [first, second] = goesOnReport('pump', g, speechFor('mm'));
    expect(first).toMatchObject({ kind: 'verdict', ok: g.probability >= 0.997 });
    expect(second?.kind === 'paragraph' && second.text).toMatch(/P2 stops it most often\. Holes larger by [\d.]+ mm would reach 99\.7/);
  });
  test('JSON has the agreed fields', () => {
    const json = goesOnJson(g);
    expect(json).toMatchObject({ probability: g.probability, trials: 1000, worst: 'P2' });
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
  });
  test('the shaft of a face with a register is its centre, located by it', () => {
    const m = { face: face(features), mated: mated(places), holes: [hole('P1', 'clearance', 0, 80)], bores: [recess], drilling: 0.05 };
    const s = locatedShaft(m, { as: 'register', diameter: { value: 60.05, plusMinus: null }, depth: 3, fit: null });
    expect(s).toMatchObject({ face: 'pump', feature: 'spigot', by: 'register', shaft: { x: 0, y: 0 } });
    expect(s.covariance).toHaveLength(6);
    expect(locatedShaft(m, undefined).by).toBe('fasteners');
  });
});
