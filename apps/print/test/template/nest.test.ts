import { type Path, circlePath, distance, flatten, pathBox } from '@fayplate/core';
import { expect, test } from 'vitest';
import { carry, carryPath, mirrored, unchanged } from '../../src/geometry/affine.js';
import type { Gasket } from '@fayplate/plate';
import { nest } from '../../src/template/gasket.js';

const gasket = (
  name: string,
  outline: Path,
  bore: { readonly x: number; readonly y: number; readonly diameter: number } | null,
): Gasket => ({ name, outline, bore }) as unknown as Gasket;

// Off the plate's origin, so that a middle taken for another shows.
const large = gasket('large', circlePath({ x: 20, y: -10 }, 100), { x: 30, y: 5, diameter: 120 });
const small = gasket('small', circlePath({ x: -15, y: 40 }, 50), { x: -15, y: 40, diameter: 60 });
const other = gasket('other', circlePath({ x: 7, y: 3 }, 50), null);

test.each([
  ['B', unchanged],
  ['A', mirrored],
] as const)(
  'side %s: a small gasket lies in the bore of a larger, the next beside it, none over another',
  (_, seen) => {
    const laid = nest([small, large, other], seen);
    expect(laid.map((l) => l.gasket)).toEqual([large, small, other]);
    const [host, inner, beside] = laid;
    if (host === undefined || inner === undefined || beside === undefined) throw new Error('three gaskets');
    const hole = carry(host.place, { x: 30, y: 5 });
    for (const p of flatten(carryPath(inner.place, small.outline), 0.01))
      expect(distance(p, hole)).toBeLessThan(60 - 6);
    const [a, b] = [pathBox(carryPath(host.place, large.outline)), pathBox(carryPath(beside.place, other.outline))];
    expect(b.left - a.right).toBeCloseTo(6, 6);
  },
);
