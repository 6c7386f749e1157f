import { toDegrees } from '@fayplate/core';
import { recognitionJson } from './recognise/words.js';
import type { Candidate, FaceLayout } from './types.js';

const candidateJson = (c: Candidate): Record<string, unknown> => ({
  says: c.says,
  circles: c.circles.map((k) => ({
    diameter: k.diameter,
    size: k.size,
    centre: [k.centre.x, k.centre.y],
    about: k.about,
    divisions: k.divisions,
    phase: toDegrees(k.clockwisePhase),
    occupied: k.occupied,
    features: k.features,
    turned: k.turned,
  })),
  arrays: c.arrays.map((a) => ({ ...a, centre: [a.centre.x, a.centre.y], axis: toDegrees(a.axis) })),
  grid: c.grid === null ? null : { ...c.grid, axis: toDegrees(c.grid.axis) },
  mirror:
    c.mirror === null
      ? null
      : { ...c.mirror, axis: toDegrees(c.mirror.axis), through: [c.mirror.through.x, c.mirror.through.y] },
  opposite: c.opposite,
  as_measured: c.asMeasured,
  moved: c.moved,
  level: c.level,
  finer: c.finer.map(candidateJson),
  chi2: c.chi2,
  dof: c.dof,
  p: c.p,
  odds: c.odds,
  features: Object.fromEntries(
    [...c.features].map(([id, f]) => [
      id,
      { x: f.x, y: f.y, shift: f.shift, within: f.within, plus_minus: f.plusMinus },
    ]),
  ),
});

/** The `layout` document's faces: mm and degrees, see the results contract. */
export const layoutJson = (layouts: readonly FaceLayout[]): { readonly faces: Readonly<Record<string, unknown>> } => ({
  faces: Object.fromEntries(
    layouts.map((l) => [
      l.name,
      {
        candidates: l.candidates.map(candidateJson),
        as_measured: l.asMeasured,
        chosen: l.chosen,
        levels: l.levels,
        units: l.units,
        rough: l.rough,
        standard: recognitionJson(l.recognised),
        telling:
          l.telling === null
            ? null
            : {
                reading: l.telling.reading,
                instrument: l.telling.instrument,
                plus_minus: l.telling.plusMinus,
                now: l.telling.now,
                expected: l.telling.expected,
                predicts: l.telling.predicts.map(([candidate, value]) => ({ candidate, value })),
              },
      },
    ]),
  ),
});
