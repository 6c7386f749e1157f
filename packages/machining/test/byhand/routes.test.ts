import type { Feature } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { routes } from '../../src/byhand/routes.js';
import { hole, job, simple } from '../fixture.js';

const feature = (id: string, kind: Feature['kind'], thread: string | null, diameter: number): Feature =>
  ({ id, kind, thread, diameter: { value: diameter, plusMinus: null }, diameterFrom: 'stated', vacant: false }) as unknown as Feature;

describe('routes', () => {
  const features = [feature('S', 'stud', 'M8', 7.9), feature('D', 'dowel', null, 8), feature('T', 'hole', 'M8', 6.7), feature('C', 'hole', 'M8', 9), feature('P', 'hole', null, 9)];
  const faces = job.faces.map((f) => (f.name === 'pump' ? { ...f, features } : f));
  const plate = simple(features.map((f, i) => hole(`H${i + 1}`, 20 * i, 0, { feature: `pump.${f.id}` })));
  const by = (name: string): readonly string[] => routes(plate, { ...job, faces }).find((r) => r.name === name)?.holes ?? [];

  // Geometry: there is no hole to spot through where a pin stands, and no thread for a transfer screw in a plain hole that only names its bolt.
  test.each([
    ['blued ends', ['H1', 'H2']],
    ['transfer screws', ['H3']],
    ['spotted through the part', ['H4', 'H5']],
    ['transfer punches', ['H4', 'H5']],
  ])('%s', (name, holes) => {
    expect(by(name)).toEqual(holes);
  });
});
