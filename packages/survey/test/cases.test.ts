import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { readJob } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { locateFace, locateJson } from '../src/index.js';

/**
 * Jobs solved by a separate program that shares no code with this one (numeric covariance by singular values, data
 * snooping); test/cases/README.md. Asked: coordinates 1e-4 mm, covariances 0.1 %, standardized residuals 1e-3; held
 * here a hundred times closer.
 */
interface Face {
  readonly features: Readonly<
    Record<
      string,
      {
        x: number;
        y: number;
        radius: number | null;
        radius_sigma?: number;
        covariance: number[][];
        ellipse95: { major: number; minor: number; angle: number };
      }
    >
  >;
  readonly readings: readonly {
    id: string;
    value: number;
    residual: number;
    sigma: number;
    standardized: number | null;
    redundancy: number;
  }[];
  readonly fit: { dof: number; chi2: number; p: number | null; sum_redundancy: number };
  readonly suspects: readonly { reading: string; standardized: number; error: number }[];
  readonly undetermined: readonly string[];
}

const folder = join(import.meta.dirname, '../../../test/cases');
const names = readdirSync(folder)
  .filter((f) => f.endsWith('.yaml') && f !== 'stk02-inches.yaml') // A chain of lengths, with no face.
  .map((f) => f.slice(0, -5));

const readCase = (name: string) => {
  const read = readJob(readFileSync(join(folder, `${name}.yaml`), 'utf8'));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const want = JSON.parse(readFileSync(join(folder, `${name}.json`), 'utf8')) as {
    faces: Readonly<Record<string, Face>>;
  };
  return { job: read.job, want: want.faces };
};

const trace = (m: readonly (readonly number[])[] | undefined): number =>
  (m?.[0]?.[0] ?? Number.NaN) + (m?.[1]?.[1] ?? Number.NaN);

/** Largest disagreement of two faces, each kind in the measure that `test/cases/README.md` asks for. */
const differences = (got: Face, want: Face) => {
  const features = Object.entries(want.features).map(([id, w]) => ({ w, g: got.features[id] }));
  const most = (f: (x: (typeof features)[number]) => number): number => Math.max(0, ...features.map(f));
  const readings = want.readings.map((w) => ({ w, g: got.readings.find((r) => r.id === w.id) }));
  return {
    coordinates: most(({ w, g }) =>
      Math.max(Math.abs((g?.x ?? Number.NaN) - w.x), Math.abs((g?.y ?? Number.NaN) - w.y)),
    ),
    covariances: most(({ w, g }) =>
      trace(w.covariance) === 0
        ? trace(g?.covariance)
        : Math.max(
            ...w.covariance.flatMap((line, i) =>
              line.map((v, j) => Math.abs((g?.covariance[i]?.[j] ?? Number.NaN) - v)),
            ),
          ) / trace(w.covariance),
    ),
    ellipses: most(({ w, g }) =>
      Math.max(
        Math.abs((g?.ellipse95.major ?? Number.NaN) - w.ellipse95.major),
        Math.abs((g?.ellipse95.minor ?? Number.NaN) - w.ellipse95.minor),
      ),
    ),
    radii: most(({ w, g }) => Math.abs((g?.radius ?? 0) - (w.radius ?? 0))),
    residuals: Math.max(0, ...readings.map(({ w, g }) => Math.abs((g?.residual ?? Number.NaN) - w.residual) / w.sigma)),
    standardized: Math.max(0, ...readings.map(({ w, g }) => Math.abs((g?.standardized ?? 0) - (w.standardized ?? 0)))),
    redundancies: Math.max(0, ...readings.map(({ w, g }) => Math.abs((g?.redundancy ?? Number.NaN) - w.redundancy))),
    chi2: Math.abs(got.fit.chi2 - want.fit.chi2) / Math.max(want.fit.chi2, 1),
  };
};

describe.each(names)('%s', (name) => {
  const { job, want } = readCase(name);
  test.each(Object.keys(want))('face %s agrees with the independent program', (faceName) => {
    const face = job.faces.find((f) => f.name === faceName);
    const w = want[faceName];
    if (face === undefined || w === undefined) throw new Error(`no face ${faceName}`);
    const located = locateFace({ face, instruments: job.instruments }, { next: false });
    const got = locateJson([located]).faces[faceName] as unknown as Face;
    expect(located.stopped.converged).toBe(true);
    const off = differences(got, w);
    expect(off.coordinates).toBeLessThan(1e-6);
    expect(off.covariances).toBeLessThan(1e-6);
    expect(off.ellipses).toBeLessThan(1e-6);
    expect(off.radii).toBeLessThan(1e-6);
    expect(off.residuals).toBeLessThan(1e-5);
    expect(off.standardized).toBeLessThan(1e-5);
    expect(off.redundancies).toBeLessThan(1e-6);
    expect(off.chi2).toBeLessThan(1e-9);
    expect(got.fit.dof).toBe(w.fit.dof);
    expect(got.fit.p ?? -1).toBeCloseTo(w.fit.p ?? -1, 9);
    expect(got.fit.sum_redundancy).toBeCloseTo(w.fit.dof, 8);
    expect(got.undetermined).toEqual(w.undetermined);
    expect(got.suspects.map((s) => s.reading)).toEqual(w.suspects.map((s) => s.reading));
    for (const [i, s] of w.suspects.entries()) {
      expect(Math.abs((got.suspects[i]?.standardized ?? Number.NaN) - s.standardized)).toBeLessThan(1e-4);
      expect(got.suspects[i]?.error).toBeCloseTo(s.error, 7);
    }
  });
});

test('the comparison sees a hundredth of what is asked', () => {
  const { want } = readCase('loc13-every-kind');
  const w = want['head'];
  if (w === undefined) throw new Error('no head');
  const nudged: Face = { ...w, features: { ...w.features, A: { ...w.features['A']!, y: w.features['A']!.y + 1e-6 } } };
  expect(differences(nudged, w).coordinates).toBeGreaterThan(0.9e-6);
});
