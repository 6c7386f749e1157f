import type { Point } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { type MatedFace, locatedShaft } from '../../src/index.js';
import { fastener, locator } from '../assembly/support.js';

const face: Face = {
  name: 'pump',
  viewed: 'from outside',
  centre: 'spigot',
  up: null,
  across: null,
  features: [],
  readings: [],
  layout: { kind: 'measured' },
  flange: null,
  shaft: null,
  shaftSizes: null,
  rim: [],
  standard: null,
};
const mated: MatedFace = {
  face: 'pump',
  side: 'A',
  centre: { x: 1, y: 2 },
  motion: { turn: 0, shift: { x: 0, y: 0 }, mirrored: false },
  axis: null,
  radiusSigmas: new Map(),
  pattern: {
    ids: ['spigot', 'P1', 'shaft'],
    points: [
      { x: 0, y: 0 },
      { x: 0, y: 50 },
      { x: 7, y: 0 },
    ],
    radii: [30, 5, null],
    covariance: Array.from({ length: 6 }, (_, i) => Array.from({ length: 6 }, (__, j) => (i === j ? i + 1 : 0))),
  },
};
const on = (by: 'shaft' | 'centre', feature: string, at: Point): MatedFace => ({ ...mated, axis: { at, by, feature } });
const joints = [fastener('P1', { x: 0, y: 50 }, 0.5), locator('spigot', { x: 0, y: 0 }, 0.03)];
const register = { as: 'register', diameter: { value: 60.05, plusMinus: null }, depth: 3, fit: null } as const;

describe('the shaft of a face', () => {
  test('is its centre, located by what the job says', () => {
    expect(locatedShaft(face, on('centre', 'spigot', { x: 0, y: 0 }), joints, register)).toMatchObject({
      face: 'pump',
      feature: 'spigot',
      by: 'register',
      shaft: { x: 0, y: 0 },
    });
    expect(locatedShaft(face, mated, joints, undefined).by).toBe('fasteners');
    expect(locatedShaft(face, mated, joints, { as: 'new dowels', count: 2, diameter: 8 }).by).toBe('set at assembly');
  });
  test('or the feature named as its shaft; the covariance keeps joints and shaft in order', () => {
    const s = locatedShaft({ ...face, shaft: 'shaft' }, on('shaft', 'shaft', { x: 7, y: 0 }), joints, register);
    expect(s.shaft).toEqual({ x: 7, y: 0 });
    expect(s.covariance.map((r, i) => r[i])).toEqual([3, 4, 1, 2, 5, 6]);
  });
  test('or, with neither, the origin of the face, taken as exact', () => {
    const s = locatedShaft({ ...face, centre: null }, mated, joints, undefined);
    expect(s.shaft).toEqual({ x: 1, y: 2 });
    expect(s.covariance.at(-1)?.at(-1)).toBe(0);
  });
});
