import { speechFor } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { goesOn, goesOnJson, goesOnReport } from '../../src/index.js';
import { fastener, locator, loose, ring } from './support.js';

const joints = [
  ...ring(4, 50).map((p, i) => fastener(`P${i + 1}`, p, i === 1 ? 0.1 : 0.4)),
  locator('spigot', { x: 0, y: 0 }, 0.02),
];
const at = (sigma: number) =>
  goesOn(
    loose(
      joints,
      joints.map((j) => (j.role === 'locator' ? 0 : sigma)),
    ),
    {
      trials: 1000,
      fits: [{ name: 'loose', clearances: joints.map((j) => (j.role === 'locator' ? j.clearance : [2, 2])) }],
    },
  );
const words = (sigma: number): readonly string[] =>
  goesOnReport('pump', at(sigma), speechFor('mm')).flatMap((b) => ('text' in b ? [b.text] : []));

describe('in words and JSON', () => {
  test('the verdict gives the chance, then what stops it and what would help', () => {
    expect(goesOnReport('pump', at(0.1), speechFor('mm'))[0]).toMatchObject({ kind: 'verdict', ok: false });
    expect(words(0.1)[0]).toMatch(
      /^pump: all fasteners enter together [\d.]+ times in 100 \([\d.]+ to [\d.]+, by 1,000 trials\)$/,
    );
    expect(words(0.1)[1]).toMatch(
      /P2 stops it most often\. With holes [\d.]+ mm larger it is 99\.7 times in 100; the smallest fit that does it is loose\./,
    );
  });
  test('where all is well no cure is offered', () => {
    expect(goesOnReport('pump', at(0.01), speechFor('mm'))[0]).toMatchObject({ ok: true });
    expect(words(0.01)[0]).toBe(
      'pump: all fasteners enter together in all of 1,000 trials, so at least 99.62 times in 100',
    );
    expect(words(0.01).join(' ')).not.toMatch(/larger|stops/);
  });
  test('locators that do not meet are not cured by larger holes', () => {
    const dowels = [
      locator('D1', { x: -40, y: 0 }, 0.01),
      locator('D2', { x: 40, y: 0 }, 0.01),
      fastener('A', { x: 0, y: 20 }, 0.5),
    ];
    const g = goesOn(loose(dowels, [0, 0.2, 0]), { trials: 500 });
    const text = goesOnReport('pump', g, speechFor('mm'))
      .flatMap((b) => ('text' in b ? [b.text] : []))
      .join(' ');
    expect(text).toMatch(/Larger holes do not help/);
  });
  test('JSON has the agreed fields', () => {
    const json = goesOnJson(at(0.1));
    expect(json).toMatchObject({ trials: 1000, worst: 'P2', proposal: 'loose' });
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
  });
});
