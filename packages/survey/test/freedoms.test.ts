import { describe, expect, test } from 'vitest';
import { locateFace } from '../src/index.js';
import { feature, hours, reading, survey } from './support.js';

const centres = (pair: string, value: number) => reading(`centres ${pair}`, value, 0.1);
const named = (clocks: Readonly<Record<string, number | null>>) =>
  Object.entries(clocks).map(([id, clock]) =>
    feature(id, { clock: clock === null ? null : hours(clock), kind: clock === null ? 'spigot' : 'stud' }),
  );

describe('what the readings leave loose is named', () => {
  test('a stud that can turn about another', () => {
    const f = locateFace(
      survey(
        named({ S: null, A: 12, B: 3, C: 6 }),
        [centres('S A', 50), centres('S B', 50), centres('A B', 70), centres('B C', 60)],
        { centre: 'S', up: 'A' },
      ),
    );
    expect(f.undetermined).toEqual(['C']);
    expect(f.freedoms).toEqual(['C can still swing about B.']);
    expect(f.fit.dof).toBe(0);
    expect([...f.features.keys()]).toEqual(['S', 'A', 'B']);
    expect(f.readings).toHaveLength(4);
  });

  test('turning loose about the centre', () => {
    const f = locateFace(
      survey(
        named({ S: null, A: 12, B: 3, C: 6 }),
        [centres('S A', 50), centres('S B', 50), centres('A B', 70), centres('S C', 60)],
        { centre: 'S', up: 'A' },
      ),
    );
    expect(f.undetermined).toEqual(['C']);
    expect(f.freedoms).toEqual(['C can still swing about S.']);
  });

  test('two bodies on one pivot', () => {
    const readings = [
      centres('S A', 50),
      centres('S B', 50),
      centres('A B', 60),
      centres('C B', 60),
      centres('D C', 30),
      centres('D B', 60),
    ];
    const f = locateFace(survey(named({ S: null, A: 12, B: 4, C: 8, D: 9 }), readings, { centre: 'S', up: 'A' }));
    expect(f.undetermined).toEqual(['C', 'D']);
    expect(f.freedoms).toEqual(['C and D, held together, can still swing about B.']);
  });

  test('angles alone: the shape is fixed, its size is not; one length more and all is', () => {
    const at = { A: [0, 0], B: [80, 5], C: [60, 70], D: [-10, 50] } as const;
    const ids = ['A', 'B', 'C', 'D'] as const;
    const heading = (from: keyof typeof at, to: keyof typeof at): number =>
      Math.atan2(at[to][1] - at[from][1], at[to][0] - at[from][0]);
    const angles = ids.flatMap((v) => {
      const rest = ids.filter((i) => i !== v);
      return rest.flatMap((a, i) =>
        rest.slice(i + 1).map((b) => {
          const d = heading(v, b) - heading(v, a);
          return reading(`angle ${a} ${v} ${b}`, (Math.abs(Math.atan2(Math.sin(d), Math.cos(d))) * 180) / Math.PI, 0.2);
        }),
      );
    });
    const features = ids.map((id) => feature(id, { clock: Math.atan2(at[id][1] - 31, at[id][0] - 32) }));
    const f = locateFace(survey(features, angles, { centre: 'A', up: 'B' }));
    expect(f.undetermined).toEqual(['B', 'C', 'D']);
    expect(f.freedoms).toEqual(['The readings fix the shape but not its size: take one length.']);
    expect(
      locateFace(survey(features, [...angles, centres('A C', Math.hypot(60, 70))], { centre: 'A', up: 'B' }))
        .undetermined,
    ).toEqual([]);
  });

  test('no reading at all, and one reading short of two', () => {
    const f = locateFace(
      survey(
        named({ S: null, A: 12, B: 4, C: 8, D: 9 }),
        [centres('S A', 50), centres('S B', 50), centres('A B', 60), reading('angle A S C', 120, 1)],
        { centre: 'S', up: 'A' },
      ),
    );
    expect(f.undetermined).toEqual(['C', 'D']);
    expect(f.freedoms[0]).toBe('No reading says where D is.');
    expect(f.freedoms[1]).toMatch(/^C can still shift toward (?:\d+|\d+:\d\d) o'clock and back\.$/);
  });

  test('a centre that no reading reaches leaves the rest without a place', () => {
    const f = locateFace(
      survey(named({ S: null, A: 12, B: 4, C: 8 }), [centres('A B', 50), centres('B C', 50), centres('C A', 60)], {
        centre: 'S',
        up: 'A',
      }),
    );
    expect(f.undetermined).toEqual(['A', 'B', 'C']);
    expect(f.freedoms).toEqual(['S can still be anywhere about the rest: too few readings reach it.']);
  });

  test('a size that is not known', () => {
    const features = [...named({ S: null, A: 12, C: 8 }), feature('B', { clock: hours(4), diameter: null })];
    const f = locateFace(
      survey(
        features,
        [
          centres('S A', 50),
          centres('S C', 50),
          centres('A C', 60),
          reading('between B S', 40, 0.1),
          reading('between B A', 40, 0.1),
        ],
        { centre: 'S', up: 'A' },
      ),
    );
    expect(f.undetermined).toEqual(['B']);
    expect(f.freedoms).toContain('The diameter of B is not fixed: measure it, or state it.');
  });

  test('a vacant place is not missed, and a face that is all fixed says nothing', () => {
    const features = [...named({ S: null, A: 12, B: 4 }), feature('V', { vacant: true })];
    const f = locateFace(
      survey(features, [centres('S A', 50), centres('S B', 50), centres('A B', 60)], { centre: 'S', up: 'A' }),
    );
    expect(f.undetermined).toEqual([]);
    expect(f.freedoms).toEqual([]);
  });

  test.each([1e-3, 1, 1e4])('at a scale of %d', (k) => {
    const readings = [
      centres('S A', 50),
      centres('S B', 50),
      centres('A B', 70),
      centres('B C', 60),
      centres('C A', 60),
      centres('C D', 20),
    ];
    const scaled = readings.map((r) => ({ ...r, value: r.value * k, plusMinus: r.plusMinus * k }));
    const f = locateFace(survey(named({ S: null, A: 12, B: 3, C: 6, D: 9 }), scaled, { centre: 'S', up: 'A' }));
    expect(f.undetermined).toEqual(['D']);
    expect(f.freedoms).toEqual(['D can still swing about C.']);
    expect(f.fit.dof).toBe(0);
  });
});
