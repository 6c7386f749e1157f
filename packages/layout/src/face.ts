import type { Face } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import { informing } from './measured.js';
import { logSum } from './prior/logs.js';
import { logAsMeasured } from './prior/structure.js';
import { reportingOf } from './reporting.js';
import { chosenOf } from './choice.js';
import { recognise } from './recognise/recognise.js';
import { withStandards } from './recognise/share.js';
import { tellingReading } from './telling/telling.js';
import type { FaceLayout, Rough, UnitOdds } from './types.js';
import { type Reporting, type Weighed, candidate, list } from './weigh/candidate.js';
import { compose } from './weigh/compose.js';
import { allFree } from './weigh/quantise.js';
import { type RoughWork, roughWork, roughened } from './weigh/rough.js';
import { isPlain } from './weigh/weigh.js';

/**
 * No layout is looked for among more fasteners than this: nothing so large is divided by hand, and the search would
 * take minutes.
 */
export const MOST_FASTENERS = 96;
/** How `layoutFace` is asked. */
export interface LayoutOptions {
  /** Whether to say which reading would settle most where nothing is chosen; true unless told. */
  readonly telling?: boolean;
}

/**
 * The layouts that a face's centres may have been drawn by, with their odds.
 *
 * Each hypothesis H is a drawing: groups of features (equal divisions of a circle, one circle, …) with the rest where
 * they were measured. Its odds are its prior times its marginal likelihood on the full joint covariance C of the
 * centres x,
 *
 *   p(x | H) = ∫ N(x; g(φ), C) π(φ) dφ ≈ N(x; g(φ̂), C) π(φ̂) (2π)^(d/2) |Jᵀ C⁻¹ J|^(−1/2)
 *
 * (Laplace; φ̂ the least-squares adjustment, J = ∂g/∂φ), over the sum of the same for all hypotheses, 'as measured'
 * among them: there every centre has its own density 1 / (π · room²). Free parameters have proper priors: positions
 * like that, sizes 1 / (4 · room), directions 1 / 2π. Shift and turn of the whole are free in every hypothesis, so the
 * choice of frame takes no part. Chances of numbers of divisions, places, round sizes, partitions: see `prior/`.
 */
export const layoutFace = (face: Face, located: LocatedFace, options: LayoutOptions = {}): FaceLayout => {
  const reporting = reportingOf(face, located);
  const { free } = reporting;
  if (free.fasteners.length < 2 || free.fasteners.length > MOST_FASTENERS) return nothingToSay(face.name);
  const compositions = compose(free);
  const rough = isPlain(compositions[0], free) ? null : roughWork(free);
  const logNone = logSum([logAsMeasured, rough?.log ?? Number.NEGATIVE_INFINITY]);
  const total = logSum([logNone, ...compositions.map((c) => c.log)]);
  const all = compositions.flatMap((composition) =>
    composition.ways.map((way, k): Weighed => ({
      composition,
      way,
      odds: Math.exp((composition.logs[k] ?? Number.NEGATIVE_INFINITY) - total),
    })),
  );
  const none = Math.exp(logNone - total);
  const odds = list(reporting, all, none);
  const layout: FaceLayout = {
    name: face.name,
    ...odds,
    chosen: chosenOf(odds.candidates),
    units: unitsOf(all, none),
    telling: null,
    rough:
      rough === null || rough.nearest === null || rough.log - total < Math.log(0.5)
        ? null
        : roughOf(reporting, rough.nearest),
    recognised: null,
  };
  const weighed = withStandards(layout, face, recognise(face, located));
  return weighed.chosen !== null || options.telling === false
    ? weighed
    : { ...weighed, telling: tellingReading(face, located, reporting, odds) };
};

/** The regular work that a face comes near, in words, with its free sizes. */
const roughOf = (reporting: Reporting, nearest: NonNullable<RoughWork['nearest']>): Rough | null => {
  const inform = informing(roughened(reporting.measured, nearest.miss));
  const made = candidate({ ...reporting, inform }, [nearest.group], allFree, 0);
  return made === null ? null : { says: made.says, miss: nearest.miss };
};

/** A grid's step is a round size too. */
const unitsIn = ({ composition, way }: Weighed): UnitOdds => {
  const unit = composition.groups.find((g) => g.kind === 'grid')?.unit;
  const { in: inch, mm, mixed, none } = way.units;
  if (unit === undefined) return way.units;
  return unit === 'in'
    ? { in: inch + none, mm: 0, mixed: mixed + mm, none: 0 }
    : { in: 0, mm: mm + none, mixed: mixed + inch, none: 0 };
};

const unitsOf = (all: readonly Weighed[], none: number): UnitOdds => {
  const each = all.map((a) => ({ odds: a.odds, units: unitsIn(a) }));
  const sum = (of: keyof UnitOdds): number => each.reduce((s, a) => s + a.odds * a.units[of], 0);
  return { in: sum('in'), mm: sum('mm'), mixed: sum('mixed'), none: sum('none') + none };
};

const nothingToSay = (name: string): FaceLayout => ({
  name,
  candidates: [],
  asMeasured: 1,
  chosen: null,
  units: { in: 0, mm: 0, mixed: 0, none: 1 },
  telling: null,
  rough: null,
  recognised: null,
});
