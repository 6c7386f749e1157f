import { readFileSync } from 'node:fs';
import { join } from 'node:path';

type Square = readonly [readonly [number, number], readonly [number, number]];

/** What `locate --json` and the independent answer both say of a face; mm. */
export interface FaceAnswer {
  readonly features: Readonly<
    Record<
      string,
      { readonly x: number; readonly y: number; readonly radius: number | null; readonly covariance: Square }
    >
  >;
  readonly readings: readonly {
    readonly id: string;
    readonly residual: number;
    readonly standardized: number | null;
    readonly redundancy: number;
  }[];
  readonly fit: { readonly dof: number; readonly chi2: number };
  readonly suspects: readonly { readonly reading: string; readonly standardized: number; readonly error: number }[];
  readonly undetermined: readonly string[];
}

/** The independent answer to one job. */
export interface Answer {
  readonly kind: 'locate' | 'layout' | 'plate' | 'stack';
  readonly faces?: Readonly<Record<string, FaceAnswer>>;
  readonly layout?: {
    readonly about: string;
    readonly diameter: number;
    readonly divisions: number;
    readonly occupied: readonly number[];
  };
  readonly holes?: Readonly<Record<string, readonly [number, number]>>;
  readonly worst?: { readonly from: number; readonly to: number };
  readonly statistical?: { readonly from: number; readonly to: number };
  readonly limits?: readonly {
    readonly name: string;
    readonly nominal_without_unknown: number;
    readonly coefficient: number;
    readonly band_worst: number;
  }[];
}

export const answerOf = (name: string): Answer =>
  JSON.parse(readFileSync(join(import.meta.dirname, `${name}.json`), 'utf8')) as Answer;

/** Agreement asked for: mm, a share of the covariance, standard deviations. */
const WITHIN = { place: 1e-4, covariance: 1e-3, standardized: 1e-3 } as const;

const apart = (
  what: string,
  ours: number | null | undefined,
  theirs: number | null,
  within: number,
): readonly string[] => {
  if (theirs === null) return [];
  const off = Math.abs((ours ?? Number.NaN) - theirs);
  return off <= within ? [] : [`${what}: ${String(ours)} against ${theirs}`];
};

/**
 * A covariance is judged by the standard deviations that it joins, so that a small correlation is not asked to its last
 * digit.
 */
const covarianceApart = (id: string, ours: Square, theirs: Square): readonly string[] =>
  ([0, 1] as const).flatMap((i) =>
    ([0, 1] as const).flatMap((j) =>
      apart(
        `${id} covariance ${i}${j}`,
        ours[i][j],
        theirs[i][j],
        WITHIN.covariance * Math.sqrt(theirs[i][i] * theirs[j][j]) + 1e-12,
      ),
    ),
  );

/** Every way in which two answers about one face differ by more than is allowed. */
export const differences = (ours: FaceAnswer, theirs: FaceAnswer): readonly string[] => [
  ...Object.entries(theirs.features).flatMap(([id, t]) => {
    const o = ours.features[id];
    if (o === undefined) return [`${id} is missing`];
    return [
      ...apart(`${id} x`, o.x, t.x, WITHIN.place),
      ...apart(`${id} y`, o.y, t.y, WITHIN.place),
      ...(o.radius === null ? [] : apart(`${id} radius`, o.radius, t.radius, WITHIN.place)),
      ...covarianceApart(id, o.covariance, t.covariance),
    ];
  }),
  ...theirs.readings.flatMap((t) => {
    const o = ours.readings.find((r) => r.id === t.id);
    return [
      ...apart(`reading ${t.id} standardized`, o?.standardized, t.standardized, WITHIN.standardized),
      ...apart(`reading ${t.id} redundancy`, o?.redundancy, t.redundancy, 1e-4),
    ];
  }),
  ...apart('degrees of freedom', ours.fit.dof, theirs.fit.dof, 0),
  ...apart('χ²', ours.fit.chi2, theirs.fit.chi2, 1e-3 * theirs.fit.chi2),
  ...(String(ours.suspects.map((s) => s.reading)) === String(theirs.suspects.map((s) => s.reading))
    ? []
    : [
        `suspects ${ours.suspects.map((s) => s.reading).join()} against ` +
          theirs.suspects.map((s) => s.reading).join(),
      ]),
  ...theirs.suspects.flatMap((t, k) => [
    ...apart(
      `suspect ${t.reading} standardized`,
      ours.suspects[k]?.standardized,
      t.standardized,
      1e-3 * Math.abs(t.standardized),
    ),
    ...apart(`suspect ${t.reading} error`, ours.suspects[k]?.error, t.error, 2e-3 * Math.abs(t.error)),
  ]),
  ...(String([...ours.undetermined].sort()) === String([...theirs.undetermined].sort())
    ? []
    : [`undetermined ${ours.undetermined.join()} against ${theirs.undetermined.join()}`]),
];
