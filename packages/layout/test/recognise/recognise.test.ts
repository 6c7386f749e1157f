import { describe, expect, test } from 'vitest';
import { randomFrom, speechFor } from '@fayplate/core';
import { type StandardFace, standardFace, standardFaces } from '@fayplate/handbook';
import { type Recognition, recognise, recognitionReport } from '../../src/index.js';
import { type Truth, measuredFace, ordinaryPart, standardPart } from '../support/standards.js';

const SEED = 2107;
const std = (name: string): StandardFace => {
  const found = standardFace(name);
  if (found === null) throw new Error(`no face ${name}`);
  return found;
};
const told = (truth: Truth, sigma = 0.03, random = randomFrom(SEED)): Recognition => {
  const { face, located } = measuredFace(truth, sigma, random);
  const found = recognise(face, located);
  if (found === null) throw new Error('nothing to compare');
  return found;
};

/** Public data, not from this repository: sizes as their makers publish them. */
describe('published faces are recognised from sizes alone', () => {
  const ring = (count: number, circle: number, turn = 0.3) =>
    Array.from({ length: count }, (_, i) => {
      const a = turn + (2 * Math.PI * i) / count;
      return { x: (circle / 2) * Math.cos(a), y: (circle / 2) * Math.sin(a) };
    });

  // TechLine 1 catalogue, 07/2007, p. 9: frame 90 in B5, M 165, N 130, S 11.5.
  test('a 90 frame flange motor', () => {
    const found = told({
      holes: ring(4, 165),
      size: 11.5,
      thread: null,
      kind: 'hole',
      register: { kind: 'spigot', diameter: 130 },
    });
    expect(found.candidates[0]?.face.name).toBe('IEC FF165');
    expect(found.sure).toBe(0);
  });
  // SAE Pump Standards table (powertorque.co.za/fpdpad.htm): B, pilot 101.60, K 146.05, M 14.27.
  test('an SAE B pump', () => {
    const found = told({
      holes: ring(2, 146.05),
      size: 14.27,
      thread: null,
      kind: 'hole',
      register: { kind: 'spigot', diameter: 101.58 },
    });
    expect(found.candidates[0]?.face.name).toBe('SAE B 2-bolt');
    expect(found.sure).toBe(0);
  });
  // iso9409_1_flange.scad, University of Hamburg: D1 50, D3 31.5, four M6.
  test('a robot wrist', () => {
    const found = told({
      holes: ring(4, 50),
      size: null,
      thread: 'M6',
      kind: 'hole',
      register: { kind: 'bore', diameter: 31.51 },
    });
    expect(found.candidates[0]?.face.name).toBe('ISO 9409-1-50-4-M6');
    expect(found.sure).toBe(0);
  });
  // bd_warehouse, drilling_class_150.csv: NPS 2, W 120.7, d 3/4 in, four.
  test('a pipe flange', () => {
    const found = told({ holes: ring(4, 120.7), size: 19.05, thread: null, kind: 'hole', register: null });
    expect(found.candidates[0]?.face.name).toBe('ASME B16.5 class 150 NPS 2');
  });
});

test('what takes a standard is told from the standard itself', () => {
  const part = {
    ...standardPart(std('FF165'), randomFrom(3)),
    thread: 'M10',
    size: null,
    register: { kind: 'bore', diameter: 130.03 },
  } as const;
  expect(told(part).candidates[0]).toMatchObject({ side: 'takes' });
});

test('turned, mirrored or renamed it is the same', () => {
  const truth = standardPart(std('NEMA 56C'), randomFrom(8));
  const turned = { ...truth, holes: truth.holes.map((p) => ({ x: p.y, y: -p.x })) };
  const mirrored = { ...truth, holes: truth.holes.map((p) => ({ x: -p.x, y: p.y })) };
  const renamed = { ...truth, holes: truth.holes.toReversed() };
  const odds = (t: Truth): readonly (readonly [string, number])[] =>
    told(t, 1e-4).candidates.map((c) => [c.face.name, Number(c.odds.toFixed(3))] as const);
  for (const other of [turned, mirrored, renamed]) expect(odds(other)).toEqual(odds(truth));
});

test('a size that contradicts is said, and the odds fall', () => {
  const truth = standardPart(std('FF215'), randomFrom(5));
  const right = told(truth);
  const wrong = told({ ...truth, register: { kind: 'spigot', diameter: 176 } });
  expect(right.candidates[0]?.odds).toBeGreaterThan(0.9);
  const held = wrong.candidates.find((c) => c.face.name === 'IEC FF215' && c.side === 'is');
  expect(held?.odds ?? 0).toBeLessThan(0.1);
  const words = JSON.stringify(recognitionReport(right, speechFor('mm')));
  expect(words).toContain('As IEC FF215');
  expect(words).toContain('For it: register');
});

test('a circle alone makes nothing sure', () => {
  const truth = { ...standardPart(std('FF165'), randomFrom(6)), size: null, register: null };
  const found = told({ ...truth, thread: null });
  expect(found.sure).toBeNull();
  expect(found.candidates.some((c) => c.face.name === 'IEC FF165')).toBe(true);
});

test('a face that names its standard, or has one hole, is not compared', () => {
  const truth = standardPart(std('FF165'), randomFrom(6));
  const { face, located } = measuredFace(truth, 0.03, randomFrom(1));
  expect(recognise({ ...face, standard: { name: 'IEC FF165' } as never }, located)).toBeNull();
  const one = measuredFace({ ...truth, holes: truth.holes.slice(0, 1) }, 0.03, randomFrom(1));
  expect(recognise(one.face, one.located)).toBeNull();
});

/** The small form of the bench's tables; its full form is `bench/recognise.ts`. */
describe('rates, by simulation', () => {
  test('parts that follow no standard are taken for one at most once in a hundred', () => {
    const random = randomFrom(SEED + 1);
    const runs = 400;
    let taken = 0;
    for (let i = 0; i < runs; i++) if (told(ordinaryPart(random), 0.05, random).sure !== null) taken++;
    expect(taken / runs).toBeLessThanOrEqual(0.01);
  });

  test('parts made to one are told, with register and holes measured', () => {
    const random = randomFrom(SEED + 2);
    const faces = standardFaces().filter((f) => f.register !== null);
    let right = 0;
    let wrong = 0;
    for (const f of faces) {
      const found = told(standardPart(f, random), 0.05, random);
      if (found.sure === null) continue;
      const best = found.candidates[0]?.face;
      if (best !== undefined && best.holes.circle === f.holes.circle && best.register?.nominal === f.register?.nominal)
        right++;
      else wrong++;
    }
    expect(right / faces.length).toBeGreaterThan(0.9);
    expect(wrong).toBe(0);
  });
});
