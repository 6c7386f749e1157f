import { toDegrees } from '@fayplate/core';
import type { Frame, LocatedFace } from './types.js';

/** A length as it is, an angle in degrees. */
const said = (measures: 'length' | 'angle', value: number): number => (measures === 'angle' ? toDegrees(value) : value);

const frameJson = (frame: Frame): object =>
  'direction' in frame && typeof frame.direction === 'object'
    ? { origin: frame.origin, up: frame.direction.up }
    : Object.fromEntries(Object.entries(frame).filter(([key]) => key !== 'circled'));

const faceJson = (face: LocatedFace): object => ({
  frame: frameJson(face.frame),
  features: Object.fromEntries(
    [...face.features].map(([id, f]) => [
      id,
      {
        x: f.x,
        y: f.y,
        radius: f.radius,
        radius_sigma: f.radiusSigma,
        covariance: f.covariance,
        ellipse95: { ...f.ellipse95, angle: toDegrees(f.ellipse95.angle) },
      },
    ]),
  ),
  readings: face.readings.map((r) => ({
    id: r.id,
    text: r.text,
    kind: r.kind,
    value: said(r.measures, r.value),
    fitted: said(r.measures, r.fitted),
    residual: said(r.measures, r.residual),
    sigma: said(r.measures, r.sigma),
    standardized: r.standardized,
    redundancy: r.redundancy,
    detectable: r.detectable === null ? null : said(r.measures, r.detectable),
  })),
  fit: { dof: face.fit.dof, chi2: face.fit.chi2, p: face.fit.p, sum_redundancy: face.fit.sumRedundancy },
  suspects: face.suspects.map((s) => ({
    reading: s.reading,
    standardized: s.standardized,
    error: said(s.measures, s.error),
    detectable: said(s.measures, s.detectable),
    guess: s.guess,
    moves: Object.fromEntries(s.moves),
    ties: [s.reading, ...s.tiedWith],
    slips: s.slips.map((t) => ({ reading: t.reading, error: said(t.measures, t.error), guess: t.guess })),
  })),
  explanations: face.explanations.map((e) => ({
    readings: e.readings,
    odds: e.odds,
    errors: e.errors.map((x) => ({ error: said(x.measures, x.error), guess: x.guess })),
    p: e.p,
  })),
  telling:
    face.telling === null
      ? null
      : {
          reading: face.telling.reading,
          again: face.telling.again,
          instrument: face.telling.instrument,
          foreseen: face.telling.foreseen.map((v) => said(face.telling?.measures ?? 'length', v)),
        },
  left_out: face.leftOut,
  unchecked: face.unchecked.map((u) => ({
    reading: u.reading,
    detectable: u.detectable === null ? null : said(u.measures, u.detectable),
    check: u.check,
  })),
  false_alarm: face.falseAlarm,
  undetermined: face.undetermined,
  aside: face.aside.map((a) => a.id),
  freedoms: face.freedoms,
  next: face.next.map((n) => ({
    reading: n.reading,
    instrument: n.instrument,
    reduces: Object.fromEntries(n.reduces),
  })),
  zeros: Object.fromEntries(
    [...face.zeros].map(([name, z]) => [
      name,
      { value: said(z.measures, z.value), plus_minus: said(z.measures, z.plusMinus) },
    ]),
  ),
  arrangements: {
    odds: face.arrangements.odds,
    rivals: face.arrangements.rivals.map((r) => ({
      odds: r.odds,
      chi2: r.chi2,
      features: Object.fromEntries(r.places),
      moved: r.moved,
    })),
    settle: face.arrangements.settle,
    overlaps: face.arrangements.overlaps,
    searched: face.arrangements.searched,
  },
  hand: face.hand,
  stopped: { converged: face.stopped.converged, why: face.stopped.why, turns: face.stopped.iterations },
  warnings: face.warnings,
});

/** The `locate` document's own part: mm and degrees, numbers not rounded. */
export const locateJson = (faces: readonly LocatedFace[]): { readonly faces: Readonly<Record<string, object>> } => ({
  faces: Object.fromEntries(faces.map((f) => [f.name, faceJson(f)])),
});
