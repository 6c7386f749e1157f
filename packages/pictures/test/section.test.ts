import { circlePath } from '@fayplate/core';
import type { Plate } from '@fayplate/plate';
import { expect, test } from 'vitest';
import { sectionProfile } from '../src/section-profile.js';

const plate = (side: 'A' | 'B'): Plate => ({
  faces: ['pump', 'motor'], thickness: 20, material: null, clocking: 0, holes: [],
  bores: [
    { id: 'C1', kind: 'bore', feature: null, x: 0, y: 0, diameter: 40, limits: null, side: 'through', depth: null },
    { id: 'C2', kind: 'spigot', feature: 'pump.bore', x: 0, y: 0, diameter: 60, limits: null, side, depth: 3 },
  ],
  outline: { shape: 'round', path: circlePath({ x: 0, y: 0 }, 80), area: Math.PI * 6400, mass: null, blank: { width: 160, height: 160 } },
  checks: [], bolts: [], goesOn: new Map(), clockings: null, turning: { range: { from: 0, to: 1 }, spans: [], best: null, plot: [] }, alignment: null, unknowns: [], ok: true,
});

test.each([['A', -3, 20], ['B', 0, 23]] as const)('a bore through a spigot raised from side %s runs from %d to %d mm and no further', (side, low, high) => {
  const heights = sectionProfile(plate(side)).voids.flat().map((p) => p.y);
  expect([Math.min(...heights), Math.max(...heights)]).toEqual([low, high]);
});
