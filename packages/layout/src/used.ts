import {
  type Point,
  type Speech,
  distance,
  forReader,
  heading,
  say,
  sayAll,
  sayNumber,
  speechFor,
  subtract,
  sayOdds,
} from '@fayplate/core';
import type { Face, FeatureKind } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import { factorOf, solveWith } from './fit/dense.js';
import { wholePattern } from './reporting.js';
import { statedLayout } from './stated.js';
import type { Candidate, FaceLayout, UsedPattern } from './types.js';
import { sayLayout } from './words/candidate.js';

/** A stated layout is refused where a misfit as great would come by chance less than once in a thousand. */
const REFUSED = 0.001;

/** The positions to use, or why there are none, in words for the person who wrote the job. */
export type Used = { readonly ok: true; readonly used: UsedPattern } | { readonly ok: false; readonly why: string };

/**
 * The positions that the plate uses for a face, in its frame, every located feature in the job's order:
 * `measured`, the adjusted centres as they are; `intended`, the chosen layout, refused where none is; `stated`, the
 * layout that the job states, adjusted with its constraints and tested by χ² (refused at p < 0.001, with the features
 * that disagree). An intended or stated position has the covariance of its free parameters only.
 */
export const usedPattern = (
  face: Face,
  located: LocatedFace,
  layout: FaceLayout | null,
  speech: Speech = speechFor('mm'),
): Used => {
  const spec = face.layout;
  // The standard's own places are its layout, and its tolerance their ±, which an exact drawing would make zero.
  if (face.standard !== null && spec.kind !== 'stated')
    return {
      ok: true,
      used: { source: 'measured', pattern: wholePattern(face, located), differs: null, undecided: null },
    };
  const chosen = layout === null || layout.chosen === null ? undefined : layout.candidates[layout.chosen];
  const radiusSigmas = new Map(
    [...located.features].flatMap(([id, f]) =>
      f.radiusSigma === null || f.radiusSigma === 0 ? [] : [[id, f.radiusSigma] as const],
    ),
  );
  if (spec.kind === 'measured') {
    const differs = chosen === undefined ? null : farthest(chosen);
    const undecided = spec.byDefault === true ? (chosen?.odds ?? null) : null;
    const pattern = wholePattern(face, located);
    // A centre that only the layout marks is its circle's, whichever centres are cut.
    const marked =
      face.centreLaid === true && chosen !== undefined
        ? { circleCentre: circleCentreOf(chosen), circleSpread: circleSpreadOf(chosen, located) }
        : {};
    return { ok: true, used: { source: 'measured', pattern, radiusSigmas, ...marked, differs, undecided } };
  }
  const laid = (source: 'intended' | 'stated', candidate: Candidate): Used => ({
    ok: true,
    used: {
      source,
      pattern: candidate.pattern,
      radiusSigmas,
      circleCentre: circleCentreOf(candidate),
      circleSpread: circleSpreadOf(candidate, located),
      differs: farthest(candidate),
    },
  });
  if (spec.kind === 'intended') {
    if (chosen !== undefined) return laid('intended', chosen);
    return {
      ok: false,
      why:
        'no layout is sure enough to use as intended (it needs odds of 0.95 and p of 0.01); measure more, state the ' +
        `layout, or use \`layout: measured\``,
    };
  }
  const stated = statedLayout(face, located, spec);
  if (!stated.ok) return { ok: false, why: stated.why };
  const { candidate } = stated;
  if (candidate.p !== null && candidate.p < REFUSED) return { ok: false, why: misfit(candidate, speech) };
  return laid('stated', candidate);
};

/** The one centre that all circles of a layout share; null where there is none, or several. */
const circleCentreOf = ({ circles }: Candidate): Point | null => {
  const [first, ...more] = circles;
  return first === undefined || more.some((c) => distance(c.centre, first.centre) > 1e-6) ? null : first.centre;
};

/** How well the centre of the circle that most features lie on is known, by the features as measured. */
const circleSpreadOf = (
  { circles }: Candidate,
  located: LocatedFace,
): NonNullable<UsedPattern['circleSpread']> | null => {
  const [most] = circles.toSorted((a, b) => b.features.length - a.features.length);
  if (most === undefined) return null;
  const ids = most.features.filter((id) => located.features.has(id));
  const places = ids.flatMap((id) => located.features.get(id) ?? []);
  return centreCovariance(places, most.centre, located.covarianceOf(ids), most.divisions !== null);
};

const farthest = (c: Candidate): number => Math.max(0, ...[...c.features.values()].map((f) => f.shift));

const misfit = (candidate: Candidate, speech: Speech): string => {
  const plain = { ...speech, fraction: null };
  const places = speech.unit === 'in' ? 4 : 2;
  const worst = [...candidate.features]
    .sort((a, b) => b[1].shift / (b[1].within + 1e-6) - a[1].shift / (a[1].within + 1e-6))
    .slice(0, 3);
  const moves = worst.map(
    ([id, f]) => `${id} would move ${say(f.shift, plain, places)} against its ± ${sayNumber(f.within, plain, places)}`,
  );
  const p = candidate.p ?? 0;
  const chance = p < 1e-6 ? 'less than once in a million' : `${Math.max(1, Math.round(p * 1e6))} times in a million`;
  return (
    `the stated layout (${candidate.says}) does not fit the readings: ${sayAll(moves)}; random error alone would be ` +
    `this bad ${chance} (χ² ${candidate.chi2.toFixed(1)} for ${candidate.dof})`
  );
};

/**
 * What becomes of the layout that the job asks for or states itself; null where the plate goes by the measured centres.
 */
export const sayAsked = (
  face: Face,
  located: LocatedFace,
  layout: FaceLayout,
  kindOf: (id: string) => FeatureKind,
  speech: Speech,
): string | null => {
  const { layout: spec } = face;
  if (spec.kind === 'measured') return null;
  const used = usedPattern(face, located, layout, speech);
  if (spec.kind === 'intended')
    return used.ok
      ? forReader(
          'The plate uses these positions: the job says `layout: intended`.',
          'The plate uses these positions, as the job asks.',
          speech,
        )
      : forReader(
          `The job says \`layout: intended\`, but no plate can be made from it: ${used.why}.`,
          'The job asks for the layout, but none is sure enough to make a plate from.',
          speech,
        );
  if (!used.ok)
    return forReader(
      `The job states a layout, but no plate can be made from it: ${used.why}.`,
      'The job states a layout, but no plate can be made from it.',
      speech,
    );
  const stated = statedLayout(face, located, spec);
  if (!stated.ok) return null;
  const { candidate } = stated;
  const fits =
    candidate.p === null
      ? 'the readings cannot test it'
      : `random error alone would be this bad ${sayOdds(candidate.p)} times`;
  return `The plate uses the layout that the job states, ${sayLayout(candidate, kindOf, speech)}: ${fits}.`;
};

type Rows = readonly (readonly number[])[];

/**
 * Covariance, mm², of the centre of a circle that is fitted by least squares to places of this covariance (x₀, y₀, x₁,
 * y₁ …), near
 * `centre`. Where the places lie on known divisions the fit also has one turn, and how they lie along the circle tells
 * of the centre too: δpᵢ = δc + δR uᵢ + R δφ u⊥ᵢ; else only how far out each lies does, uᵢ · δpᵢ = uᵢ · δc + δR. Null
 * where the places do not fix it.
 */
export const centreCovariance = (
  places: readonly Point[],
  centre: Point,
  covariance: Rows,
  divided: boolean,
): Rows | null => {
  const turns = places.map((p) => heading(subtract(p, centre)));
  // One row for each equation: its derivatives by the unknowns, and what it takes of the places' errors.
  const equations = turns.flatMap((t, i) => {
    const [c, s] = [Math.cos(t), Math.sin(t)];
    const own = (x: number, y: number): readonly number[] => places.flatMap((_, j) => (j === i ? [x, y] : [0, 0]));
    return divided
      ? [
          { by: [1, 0, c, -s], of: own(1, 0) },
          { by: [0, 1, s, c], of: own(0, 1) },
        ]
      : [{ by: [c, s, 1], of: own(c, s) }];
  });
  const size = divided ? 4 : 3;
  const normal = Float64Array.from({ length: size * size }, (_, k) =>
    equations.reduce((sum, { by }) => sum + (by[Math.floor(k / size)] ?? 0) * (by[k % size] ?? 0), 0),
  );
  const factor = factorOf(normal, size);
  if (factor === null) return null;
  const weights = places
    .flatMap((_, j) => [2 * j, 2 * j + 1])
    .map((k) => {
      const right = Float64Array.from({ length: size }, (_, a) =>
        equations.reduce((sum, { by, of }) => sum + (by[a] ?? 0) * (of[k] ?? 0), 0),
      );
      return solveWith(factor, right);
    });
  const at = (a: number, b: number): number =>
    weights.reduce(
      (sum, w, k) => sum + (w[a] ?? 0) * weights.reduce((s, v, l) => s + (covariance[k]?.[l] ?? 0) * (v[b] ?? 0), 0),
      0,
    );
  return [
    [at(0, 0), at(0, 1)],
    [at(1, 0), at(1, 1)],
  ];
};
