import { describe, expect, test } from 'vitest';
import { type Survey, locateFace, locateJson } from '../src/index.js';
import { feature, hours, instrument, reading, survey } from './support.js';

const locate = (s: Survey) => {
  const f = locateFace(s);
  expect(JSON.stringify(locateJson([f]))).not.toMatch(/NaN|Infinity/);
  expect(f.stopped.converged).toBe(true);
  expect(f.fit.dof).toBeGreaterThanOrEqual(0);
  expect(f.fit.sumRedundancy).toBeCloseTo(f.fit.dof, 6);
  return f;
};
const centres = (pair: string, value: number) => reading(`centres ${pair}`, value, 0.1);
const three = () => ['A', 'B', 'C'].map((id, k) => feature(id, { clock: hours(4 * k) }));
const centred = { centre: 'A', up: 'B' };

describe('little, nothing and nonsense', () => {
  test('a face with no features', () => {
    expect(locate(survey([], [])).fit).toEqual({ dof: 0, chi2: 0, p: null, sumRedundancy: 0 });
  });

  test('one hole and no readings: at the origin where it is the centre, nowhere where it is not', () => {
    expect(locate(survey([feature('A')], [], { centre: 'A' })).features.get('A')).toMatchObject({ x: 0, y: 0 });
    expect(locate(survey([feature('A')], [])).undetermined).toEqual(['A']);
  });

  test('only diameters: sizes, no places', () => {
    const stated = { diameter: { value: 10, plusMinus: 0.05 } };
    const f = locate(
      survey(
        [feature('A', stated), feature('B', stated)],
        [reading('dia A', 10.02, 0.05), reading('dia B', 9.98, 0.05)],
        centred,
      ),
    );
    expect(f.undetermined).toEqual(['B']);
    expect(f.fit.dof).toBe(2);
    expect(f.features.get('A')?.radius).toBeCloseTo(5.005, 9);
    expect(f.readings.map((r) => r.id)).toEqual(['1', '2', 'diameter A', 'diameter B']);
  });

  test('no reading to spare: nothing checks them, nothing is suspect, no p', () => {
    const f = locate(survey(three(), [centres('A B', 50), centres('B C', 50), centres('C A', 60)], centred));
    expect(f.fit).toMatchObject({ dof: 0, p: null });
    expect(f.readings.map((r) => r.standardized)).toEqual([null, null, null]);
    expect(f.falseAlarm).toBe(0);
  });

  test('two holes are their own mirror image', () => {
    const f = locate(survey([feature('A'), feature('B')], [reading('over A B', 60, 0.1)], centred));
    expect(f.hand.settled).toBe(true);
    expect(f.warnings).toEqual([]);
    expect(f.features.get('B')).toMatchObject({ x: 0 });
    expect(f.features.get('B')?.y).toBeCloseTo(50, 9);
  });

  test('a triangle without clocks: the shape is found, its hand is said to be open', () => {
    const f = locate(
      survey(
        ['A', 'B', 'C'].map((id) => feature(id)),
        [centres('A B', 50), centres('B C', 50), centres('C A', 60)],
        centred,
      ),
    );
    expect(f.undetermined).toEqual([]);
    expect(f.hand.settled).toBe(false);
    expect(f.warnings.join()).toContain('mirror image');
  });

  test('a triangle that cannot close', () => {
    const f = locate(survey(three(), [centres('A B', 50), centres('B C', 20), centres('C A', 20)], centred));
    expect(f.fit.dof).toBe(1);
    expect(f.fit.chi2).toBeCloseTo((50 - 40) ** 2 / 3 / 0.05 ** 2, 3);
    const [one] = f.suspects;
    expect(new Set([one?.reading, ...(one?.tiedWith ?? [])])).toEqual(new Set(['1', '2', '3']));
    expect(f.explanations.map((e) => e.readings.length)).toEqual([1, 1, 1]);
    expect(f.undetermined).toEqual(['C']);
  });

  test('a triangle that only just closes', () => {
    expect(locate(survey(three(), [centres('A B', 40), centres('B C', 20), centres('C A', 20)], centred)).fit.dof).toBe(
      1,
    );
  });

  test('two features in one place', () => {
    const f = locate(
      survey(
        [feature('A'), feature('D'), feature('B', { clock: hours(12) })],
        [centres('A D', 0), centres('A B', 50), centres('D B', 50)],
        centred,
      ),
    );
    expect(f.features.get('B')?.y).toBeCloseTo(50, 9);
  });

  test.each([0, 180])('an angle of %d° keeps its two readings in line', (degrees) => {
    const features = [
      feature('A', { kind: 'spigot' }),
      feature('B', { clock: hours(12) }),
      feature('C', { clock: hours(degrees / 30 === 0 ? 12 : 6) }),
    ];
    const across = degrees === 0 ? 10.02 : 90.02;
    const f = locate(
      survey(
        features,
        [centres('A B', 50), centres('A C', 40), reading('angle B A C', degrees, 0.5), centres('B C', across)],
        centred,
      ),
    );
    expect(f.features.get('C')?.x).toBeCloseTo(0, 6);
    expect(f.undetermined).toEqual([]);
  });

  test('an exact diameter that a reading disputes is compared, and moves nothing', () => {
    const f = locate(
      survey([feature('A'), feature('B')], [reading('dia A', 10.2, 0.05), reading('over A B', 50, 0.1)], centred),
    );
    expect(f.features.get('A')).toMatchObject({ radius: 5, radiusSigma: 0 });
    expect(f.readings[0]).toMatchObject({ redundancy: 1 });
    expect(f.suspects.map((s) => s.reading)).toEqual(['1']);
  });

  test('thread limits give way to a `dia` reading', () => {
    const threaded = feature('A', { diameter: { value: 9.4, plusMinus: 0.1 }, diameterFrom: 'thread' });
    const f = locate(
      survey([threaded, feature('B')], [reading('dia A', 9.31, 0.02), reading('over A B', 60, 0.1)], centred),
    );
    expect(f.features.get('A')?.radius).toBeCloseTo(4.655, 9);
    expect(f.readings.map((r) => r.id)).toEqual(['1', '2']);
  });

  test('bench readings that say the opposite hand of the clocks', () => {
    const features = ['A', 'B', 'C', 'D'].map((id, k) => feature(id, { clock: hours((12 - 3 * k) % 12) }));
    const readings = [
      reading('at A', [10, 60], 0.1),
      reading('at B', [60, 10], 0.1),
      reading('at C', [10, -40], 0.1),
      reading('at D', [-40, 10], 0.1),
    ];
    const f = locate(survey(features, readings));
    expect(f.hand).toEqual({ settled: true, by: 'bench readings' });
    expect(f.warnings.join()).toContain('mirror images of each other');
  });

  test('one shared zero error: found where a reading without it crosses it, and reported with its ±', () => {
    const by = { instrument: 'rule' };
    const readings = [
      reading('centres A B', 50.3, 0.1, by),
      reading('centres B C', 50.3, 0.1, by),
      reading('centres C A', 60.3, 0.1, by),
      reading('centres C A', 60, 0.1),
    ];
    const f = locate(survey(three(), readings, centred, [instrument('rule', 0.1, 0.4)]));
    expect(f.fit.dof).toBe(1);
    expect(f.readings.at(-1)).toMatchObject({ id: 'zero rule', value: 0, sigma: 0.2 });
    // Weighted mean of 0.3 (σ² = 0.05² + 0.05²) and the prior 0 (σ = 0.2), by hand.
    const weight = [1 / 0.005, 1 / 0.04] as const;
    expect(f.zeros.get('rule')?.value).toBeCloseTo((0.3 * weight[0]) / (weight[0] + weight[1]), 9);
    expect(f.zeros.get('rule')?.plusMinus).toBeCloseTo(2 / Math.sqrt(weight[0] + weight[1]), 9);
  });

  test('a reading set aside in the file, or by the caller, takes no part', () => {
    const readings = [
      centres('A B', 50),
      centres('B C', 50),
      centres('C A', 60),
      { ...centres('C A', 66), aside: true },
    ];
    expect(locate(survey(three(), readings, centred)).readings.map((r) => r.id)).toEqual(['1', '2', '3']);
    const f = locateFace(
      survey(
        three(),
        readings.map((r) => ({ ...r, aside: false })),
        centred,
      ),
      { setAside: ['4'] },
    );
    expect(f.readings.map((r) => r.id)).toEqual(['1', '2', '3']);
  });

  test('one coordinate of an `at`, or a stated diameter, can be set aside by the id that a suspect bears', () => {
    const features = [
      ...three().slice(0, 2),
      feature('C', { diameter: { value: 9, plusMinus: 0.05 }, clock: hours(8) }),
    ];
    const readings = [
      reading('at A', [0, 50], 0.1),
      reading('at B', [40, -30], 0.1),
      reading('at C', [-40, -30], 0.1),
      reading('over C A', 99, 0.1),
    ];
    const f = locateFace(survey(features, readings), { setAside: ['2.x', 'diameter C'], next: false });
    expect(f.readings.map((r) => r.id)).toEqual(['1.x', '1.y', '2.y', '3.x', '3.y', '4']);
  });
});
