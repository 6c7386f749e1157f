import { randomFrom } from '@fayplate/core';
import type { Face, LayoutSpec, StatedCircle } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { layoutFace, usedPattern } from '../src/index.js';
import { faceOf, measure } from './support/network.js';
import { INCH, everyDistance, named, onDivisions, shopOf } from './support/scenes.js';

const truth = named(onDivisions(7.5 * INCH, 12, [0, 1, 3, 4, 6, 8, 9]));
const ids = [...truth.keys()];
const made = shopOf(truth, everyDistance(ids, 0.02));
const { face, located } = faceOf(made, measure(made, randomFrom(21)));

const used = (layout: LayoutSpec, there: LocatedFace = located, on: Face = face) =>
  usedPattern({ ...on, layout }, there, layout.kind === 'intended' ? layoutFace(on, there) : null);
const circle: StatedCircle = { diameter: null, divisions: null, about: null, phase: null, features: null };
const stated = (
  circles: readonly Partial<StatedCircle>[],
  grid: { readonly step: number; readonly features: readonly string[] | null } | null = null,
): LayoutSpec => ({
  kind: 'stated',
  circles: circles.map((c) => ({ ...circle, ...c })),
  grid,
});
const patternOf = (u: ReturnType<typeof used>) => {
  if (!u.ok) throw new Error(u.why);
  return u.used.pattern;
};
const whyOf = (u: ReturnType<typeof used>): string => (u.ok ? 'taken' : u.why);
const widest = (covariance: readonly (readonly number[])[]): number =>
  Math.max(...covariance.map((row, i) => Math.sqrt(Math.max(row[i] ?? 0, 0))));

describe('measured', () => {
  test('the adjusted centres with their covariance, untouched', () => {
    const p = patternOf(used({ kind: 'measured' }));
    expect(p.ids).toEqual(ids);
    expect(p.points).toEqual(ids.map((id) => ({ x: located.features.get(id)?.x, y: located.features.get(id)?.y })));
    expect(p.covariance).toEqual(located.covarianceOf(ids));
  });
});

describe('intended', () => {
  test('the chosen layout: nothing free in it, so nothing uncertain', () => {
    const p = patternOf(used({ kind: 'intended' }));
    const p4 = p.points[p.ids.indexOf('P3')];
    expect(p4?.x).toBeCloseTo(95.25, 9);
    expect(p4?.y).toBeCloseTo(0, 9);
    expect(widest(p.covariance)).toBeLessThan(1e-6);
  });

  test('refused where nothing is chosen, with what to do', () => {
    const odd = shopOf(
      named(
        [
          [41, 33.3],
          [-47.2, 31.3],
          [60.2, -24.2],
          [-61.7, -27.7],
          [3, -72.7],
        ].map(([x = 0, y = 0]) => ({ x, y })),
      ),
      everyDistance(['spigot', 'P1', 'P2', 'P3', 'P4', 'P5'], 0.05),
    );
    const seen = faceOf(odd, measure(odd, randomFrom(3)));
    expect(whyOf(used({ kind: 'intended' }, seen.located, seen.face))).toMatch(/no layout is sure enough.*measured/);
    expect(whyOf(usedPattern({ ...face, layout: { kind: 'intended' } }, located, null))).toMatch(
      /no layout is sure enough/,
    );
  });
});

describe('stated', () => {
  test("size and divisions: the maker's positions, exact", () => {
    const p = patternOf(used(stated([{ diameter: 190.5, divisions: 12 }])));
    const at = (id: string) => p.points[p.ids.indexOf(id)];
    expect(at('P2')?.x).toBeCloseTo(95.25 / 2, 9);
    expect(at('P5')?.y).toBeCloseTo(-95.25, 9);
    expect(widest(p.covariance)).toBeLessThan(1e-6);
  });

  test('divisions alone: the diameter is free, as well known as all the readings together make it', () => {
    const p = patternOf(used(stated([{ divisions: 12 }])));
    const i = p.ids.indexOf('P1');
    const r = p.points[i]?.y ?? 0;
    const sigma = Math.sqrt(p.covariance[2 * i + 1]?.[2 * i + 1] ?? 0);
    expect(Math.abs(r - 95.25)).toBeLessThan(4 * sigma);
    expect(sigma).toBeGreaterThan(1e-4);
    expect(sigma).toBeLessThan(Math.sqrt(located.features.get('P1')?.covariance[1][1] ?? 0));
    // All holes grow together: the covariance has one direction only.
    const j = p.ids.indexOf('P5');
    expect(p.covariance[2 * i + 1]?.[2 * j + 1]).toBeCloseTo(-(sigma ** 2), 9);
  });

  test('a phase that the `up` feature cannot have is refused; the right one is taken', () => {
    expect(used(stated([{ diameter: 190.5, divisions: 12, phase: 0 }])).ok).toBe(true);
    expect(used(stated([{ diameter: 190.5, divisions: 12, phase: Math.PI / 6 }])).ok).toBe(true);
    expect(whyOf(used(stated([{ diameter: 190.5, divisions: 12, phase: Math.PI / 12 }])))).toMatch(
      /P1 stands at 12 o'clock, for the face says `up: P1`; a phase of 15° leaves no division there/,
    );
  });

  test('the wrong size is refused, with the features that disagree and by how much', () => {
    expect(whyOf(used(stated([{ diameter: 191.5, divisions: 12 }])))).toMatch(
      /does not fit the readings: P\d would move 0\.\d+ mm against its ± 0\.\d+.*would be this bad less than once in a million \(χ² /,
    );
  });

  test('the wrong divisions are refused before they are tried', () => {
    expect(whyOf(used(stated([{ divisions: 6 }])))).toMatch(/would share one/);
    expect(whyOf(used(stated([{ divisions: 11 }])))).toMatch(/share|does not fit/);
  });

  test('two open circles are refused: whose holes are whose must be said', () => {
    expect(whyOf(used(stated([{ divisions: 12 }, { divisions: 4 }])))).toMatch(/say which features/);
  });

  test('features that are not there, or not located, are named', () => {
    expect(whyOf(used(stated([{ divisions: 12, features: ['P1', 'P99'] }])))).toMatch(/P99 is not located/);
    expect(whyOf(used(stated([{ divisions: 12, about: 'P98' }])))).toMatch(/P98 is not located/);
  });

  test('a circle for some, the rest as measured', () => {
    const p = patternOf(used(stated([{ diameter: 190.5, divisions: 12, features: ['P1', 'P2', 'P3'] }])));
    const p7 = p.ids.indexOf('P7');
    expect(p.points[p7]?.x).not.toBeCloseTo(-95.25, 4);
    expect(Math.sqrt(p.covariance[2 * p7]?.[2 * p7] ?? 0)).toBeGreaterThan(0.003);
  });

  test('a circle and a grid together', () => {
    const more = new Map([...truth, ['D', { x: 1.5 * INCH, y: 1.125 * INCH }] as const]);
    const shop = shopOf(more, everyDistance([...more.keys()], 0.02), (id) => (id === 'D' ? 'dowel' : 'stud'));
    const seen = faceOf(shop, measure(shop, randomFrom(4)));
    const p = patternOf(
      used(
        stated([{ diameter: 190.5, divisions: 12, features: ['P1', 'P2', 'P3', 'P4', 'P5', 'P6', 'P7'] }], {
          step: INCH / 8,
          features: ['D'],
        }),
        seen.located,
        seen.face,
      ),
    );
    expect(p.points[p.ids.indexOf('D')]?.x).toBeCloseTo(1.5 * INCH, 7);
    expect(p.points[p.ids.indexOf('D')]?.y).toBeCloseTo(1.125 * INCH, 7);
    const coarse = used(
      stated([{ diameter: 190.5, divisions: 12, features: ['P1', 'P2', 'P3', 'P4', 'P5', 'P6', 'P7'] }], {
        step: INCH,
        features: ['D'],
      }),
      seen.located,
      seen.face,
    );
    expect(whyOf(coarse)).toMatch(/does not fit/);
  });

  test('a true statement is refused about as often as p < 0.001 says, not oftener', () => {
    const random = randomFrom(5);
    let refused = 0;
    for (let k = 0; k < 300; k++) {
      const seen = faceOf(made, measure(made, random));
      if (!used(stated([{ diameter: 190.5, divisions: 12 }]), seen.located, seen.face).ok) refused++;
    }
    expect(refused).toBeLessThanOrEqual(3);
  });
});
