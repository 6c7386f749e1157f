import { svgPathData, toDegrees } from '@fayplate/core';
import { alignmentJson } from '../alignment/report.js';
import type { Assembly } from '../assemble/types.js';
import { goesOnJson } from '../assembly/report.js';
import type { AngleSpan, Check, Plate, Step } from '../types.js';
import { sayCure } from './say.js';

/** `assembly` of the plate's document: lengths mm. */
const assemblyJson = (a: Assembly) => ({ ...a, enters: Object.fromEntries(a.enters) });

const span = (s: AngleSpan) => ({ from: toDegrees(s.from), to: toDegrees(s.to) });

const inDegrees = (step: Step): Step => (step.kind === 'turn' ? { ...step, by: toDegrees(step.by) } : step);

const check = (c: Check) => ({
  id: c.id,
  rule: c.rule,
  of: c.of,
  value: c.value,
  limit: c.limit,
  unit: c.unit,
  sense: c.sense,
  ok: c.ok,
  source: c.source,
  at: c.at === null ? null : [c.at.x, c.at.y],
  cure: c.cures[0] === undefined ? null : sayCure(c.cures[0], { unit: 'mm', fraction: null }),
  cures: c.cures.map((cure) => ({
    ...(cure.kind === 'together'
      ? { ...cure, steps: cure.steps.map(inDegrees) }
      : { ...inDegrees(cure), clean: cure.clean }),
    says: sayCure(cure, { unit: 'mm', fraction: null }),
  })),
});

/** What notches leave; the edge that they are cut from is drawn from their places. */
const outlineJson = (outline: Plate['outline']) => {
  const { whole, ...rest } = outline;
  return { ...rest, path: svgPathData((whole === undefined ? outline : rest).path) };
};

/** `plate` of results.md: lengths mm, angles degrees; `clocking` and `clockings` clockwise as in the job file. */
export const plateJson = (plate: Plate) => ({
  frame: 'seen from side B, looking at the first face',
  faces: plate.faces,
  thickness: plate.thickness,
  ...(plate.thicknessWithin === undefined ? {} : { thickness_plus_minus: plate.thicknessWithin }),
  centres: plate.centres,
  material: plate.material,
  clocking: toDegrees(plate.clocking),
  holes: plate.holes.map((h) => ({
    ...h,
    slot: h.slot === null ? null : { length: h.slot.length, angle: toDegrees(h.slot.angle) },
  })),
  bores: plate.bores.map((b) => (b.box === undefined ? b : { ...b, box: { ...b.box, angle: toDegrees(b.box.angle) } })),
  outline: outlineJson(plate.outline),
  checks: plate.checks.map(check),
  bolts: plate.bolts,
  goes_on: Object.fromEntries([...plate.goesOn].map(([face, g]) => [face, goesOnJson(g)])),
  clockings: plate.clockings === null ? null : plate.clockings.map(span),
  turning: {
    range: span(plate.turning.range),
    spans: plate.turning.spans.map(span),
    best:
      plate.turning.best === null
        ? null
        : { angle: toDegrees(plate.turning.best.angle), margin: plate.turning.best.margin },
    plot: plate.turning.plot.map((p) => ({ ...p, angle: toDegrees(p.angle) })),
  },
  alignment: plate.alignment === null ? null : alignmentJson(plate.alignment),
  assembly: assemblyJson(plate.assembly),
  work: plate.work ?? [],
  unknowns: plate.unknowns,
  ok: plate.ok,
});
