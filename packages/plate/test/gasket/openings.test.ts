import { MM_PER_INCH, type Path, pathBox, signedArea } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { type Gasket, gasketHolePath, gasketHoleSize, gasketRequirements, gasketsOf } from '../../src/index.js';
import { designedFrom } from '../support/from-text.js';

/** Two flanges on a table; `k` is what a millimetre is called in the job's unit. */
const job = (gasket: string, cuts: string, { units = 'mm', k = 1, viewed = 'from outside' } = {}): string => {
  const n = (v: number): string => (v / k).toFixed(9);
  const at = (name: string, x: number, y: number): string => `      - at ${name} = (${n(x)}, ${n(y)}) ± ${n(0.02)}`;
  const face = (name: string, kind: string, r: number): string => `  ${name}:
    centre: C
    up: ${name}1
    viewed: ${viewed}
    flange: ${n(12)}
    features:
      C: { kind: bore, diameter: ${n(30)}, vacant: true }
      ${name}1: { kind: hole, ${kind}, clock: 12 }
      ${name}2: { kind: hole, ${kind}, clock: 4 }
      ${name}3: { kind: hole, ${kind}, clock: 8 }
    readings:
${[at('C', 0, 0), ...[0, 1, 2].map((i) => at(`${name}${i + 1}`, r * Math.sin((i * 2 * Math.PI) / 3), r * Math.cos((i * 2 * Math.PI) / 3)))].join('\n')}
`;
  return `job: Sluice drive
units: ${units}
faces:
${face('pump', `thread: M8, deep: 20 mm`, 90)}${face('motor', 'diameter: 9 mm', 60)}plate:
  between: [pump, motor]
  clocking: 0 deg
  thickness: 20 mm
  bore: none
  drilling: ± 0.05 mm
  fasten: { pump: { as: clearance, thread: M8 }, motor: { as: tapped, thread: M8 } }
  outline: { shape: round, diameter: 240 mm }
  cuts:
${cuts}gaskets:
  pump: { hole clearance: 1 mm, ${gasket} }
`;
};

const pocket = '    box: { pocket: [40 mm, 16 mm], corner: 4 mm, depth: 5 mm, angle: 30 deg, at: [0 mm, 40 mm] }\n';
const slot = '    oil: { slot: 6 mm, length: 30 mm, angle: 90 deg, at: [40 mm, 5 mm] }\n';
const notch = '    lead: { notch: 14 mm, at: [-100 mm, 0 mm] }\n';
const floored = '    knob: { notch: 14 mm, depth: 6 mm, at: [-100 mm, 0 mm] }\n';

const gasketIn = (text: string): Gasket => {
  const drawn = gasketsOf(designedFrom(text));
  if (!drawn.ok) throw new Error(drawn.faults.join('\n'));
  return drawn.gaskets[0]!;
};

const failsIn = (text: string): readonly string[] =>
  gasketRequirements({ ...designedFrom(text), speech: { unit: 'mm', fraction: null } })
    .filter((r) => r.state !== 'holds')
    .map((r) => r.because);

const sizes = (path: Path): readonly number[] => {
  const box = pathBox(path);
  return [signedArea(path), box.right - box.left, box.top - box.bottom];
};

describe('what a gasket leaves open has the shape of the cut', () => {
  // By hand: each wall lies half the clearance farther out, the corners too, so a rectangle of 41 × 17 with corners of
  // 4.5.
  test('a pocket with straight sides', () => {
    const hole = gasketIn(job('outline: plate, open: [box]', pocket)).holes.find((h) => h.id === 'box')!;
    expect(signedArea(gasketHolePath(hole))).toBeCloseTo(41 * 17 - (4 - Math.PI) * 4.5 ** 2, 6);
    expect(gasketHoleSize(hole)).toEqual({
      length: expect.closeTo(41, 9),
      width: expect.closeTo(17, 9),
      corner: expect.closeTo(4.5, 9),
    });
  });

  // By hand: 7 wide, its end centres 30 apart, upright: 7 × 37 over all.
  test('a slot, between its end centres', () => {
    const hole = gasketIn(job('outline: plate, open: [oil]', slot)).holes.find((h) => h.id === 'oil')!;
    const [area, width, height] = sizes(gasketHolePath(hole));
    expect(area).toBeCloseTo(30 * 7 + Math.PI * 3.5 ** 2, 6);
    expect(width).toBeCloseTo(7, 9);
    expect(height).toBeCloseTo(37, 9);
  });

  test('a round hole stays round', () => {
    const hole = gasketIn(job('outline: plate, open: [drain]', '    drain: { hole: 8 mm, at: [0 mm, 40 mm] }\n'));
    const drain = hole.holes.find((h) => h.id === 'drain')!;
    expect(drain).toMatchObject({ diameter: 9 });
    expect(gasketHoleSize(drain)).toBeNull();
    expect(signedArea(gasketHolePath(drain))).toBeCloseTo(Math.PI * 4.5 ** 2, 6);
  });

  // By hand: a strip 15 wide from the rim to a half circle of 7.5 about a place 100 from the middle of a disc of 120.
  test('a notch with a floor is taken out of the edge, one that goes through is gone from the plate', () => {
    const disc = Math.PI * 120 ** 2;
    const strip = (w: number): number => {
      const r = w / 2;
      const under = r * Math.sqrt(120 ** 2 - r ** 2) + 120 ** 2 * Math.asin(r / 120);
      return under - 100 * w + (Math.PI * r ** 2) / 2;
    };
    const area = (gasket: string, cut: string): number => signedArea(gasketIn(job(gasket, cut)).outline);
    expect(area('outline: plate', floored)).toBeCloseTo(disc, 6);
    expect(area('outline: plate, open: [knob]', floored)).toBeCloseTo(disc - strip(15), 6);
    expect(area('outline: plate, open: [lead]', notch)).toBeCloseTo(disc - strip(14), 6);
  });

  test('the same in inches, and of a part that is seen from behind', () => {
    const own = gasketIn(job('outline: follow, open: [box, oil]', pocket + slot));
    const inch = gasketIn(job('outline: follow, open: [box, oil]', pocket + slot, { units: 'in', k: MM_PER_INCH }));
    const behind = gasketIn(job('outline: follow, open: [box, oil]', pocket + slot, { viewed: 'from behind' }));
    const measures = (g: Gasket): readonly number[] => [
      signedArea(g.outline),
      ...g.holes.map((h) => signedArea(gasketHolePath(h))),
    ];
    for (const other of [inch, behind])
      for (const [i, v] of measures(other).entries()) expect(v).toBeCloseTo(measures(own)[i]!, 4);
  });
});

describe('what is asked of a gasket holds its openings to the shape of the cuts', () => {
  test('one that leaves them open holds, one that does not is No by their names', () => {
    expect(failsIn(job('outline: plate, open: [box, oil, knob]', pocket + slot + floored))).toEqual([]);
    const fails = failsIn(job('outline: plate', pocket + slot + floored)).join('\n');
    for (const name of ['box', 'oil', 'knob']) expect(fails).toContain(`covers ${name}: `);
  });

  // A drain 4.2 mm past the end of the slot, beside its flank: a circle round the slot would break into it.
  test('a port beside the flank of a slot is none of its business; one that lies on it is', () => {
    const beside = '    drain: { hole: 8 mm, at: [55 mm, 5 mm] }\n';
    expect(failsIn(job('outline: plate, open: [oil, drain]', slot + beside))).toEqual([]);
    // Holes of 7 and 9, 8.4 between their centres: 0.4 mm is left of the 1 mm that seals.
    const near = '    drain: { hole: 8 mm, at: [48.4 mm, 5 mm] }\n';
    expect(failsIn(job('outline: plate, open: [oil, drain]', slot + near)).join('\n')).toMatch(
      /only 0\.40 mm wide between drain and oil|only 0\.40 mm wide between oil and drain/,
    );
  });

  test('a cut is not called vacant: that is a word for features', () => {
    const design = designedFrom(job('outline: plate', pocket));
    const [asked] = gasketRequirements({ ...design, speech: { unit: 'mm', fraction: null } }).filter(
      (r) => r.state !== 'holds',
    );
    expect(asked?.cure).toBe('add box to its `open`');
  });
});
