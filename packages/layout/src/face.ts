import type { Face } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import { informing } from './measured.js';
import { logSum } from './prior/length.js';
import { logAsMeasured } from './prior/structure.js';
import { SURE, chosenOf, reportingOf } from './reporting.js';
import { recognise } from './recognise/recognise.js';
import { type StandardShare, standardShare } from './recognise/share.js';
import { tellingReading } from './telling/telling.js';
import type { Candidate, FaceLayout, Rough, UnitOdds } from './types.js';
import { type Listed, type Reporting, candidate, list } from './weigh/candidate.js';
import { compose } from './weigh/compose.js';
import { allFree } from './weigh/quantise.js';
import { type RoughWork, roughWork, roughened } from './weigh/rough.js';
import { type Weighed, isPlain, unitsIn } from './weigh/weigh.js';
import { wholeDrawings } from './words/arrangement.js';
import { sayLevel } from './words/levels.js';

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
 * among them: there every centre has its own density 1 / (π · extent²). Free parameters have proper priors: positions
 * like that, sizes 1 / (4 · extent), directions 1 / 2π. Shift and turn of the whole are free in every hypothesis, so
 * the choice of frame takes no part. Chances of numbers of divisions, places, round sizes, partitions: see `prior/`.
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
  const found = recognise(face, located);
  const share = (drawings: readonly Candidate[]): StandardShare => standardShare(drawings, face, found);
  const { levels, shared, ...odds } = list(reporting, all, none, SURE, share);
  const [first] = odds.candidates;
  const units = unitsOf(all, none, shared);
  const chosen = chosenOf(odds.candidates);
  return {
    name: face.name,
    ...odds,
    levels: levelsOf(levels, { ...odds, units }, chosen !== null, reporting),
    chosen,
    units,
    telling:
      (chosen === null || first?.level !== 'system') && options.telling !== false
        ? tellingReading(face, located, reporting, { ...odds, candidates: wholeDrawings(odds) })
        : null,
    rough:
      rough === null || rough.nearest === null || rough.log - total < Math.log(0.5)
        ? null
        : roughOf(reporting, rough.nearest),
    recognised: found,
  };
};

/** The levels in words: those that are taken of the drawing that is, the rest of the likeliest whole one. */
const levelsOf = (
  levels: Listed['levels'],
  layout: Pick<FaceLayout, 'candidates' | 'units'>,
  isTaken: boolean,
  { kindOf }: Reporting,
): FaceLayout['levels'] => {
  const [first] = layout.candidates;
  const [likely] = wholeDrawings(layout);
  if (first === undefined || likely === undefined) return [];
  const deepest = levels.findIndex((l) => l.level === first.level);
  return levels.map(({ level, odds }, k) => {
    const taken = isTaken && k <= deepest && (level !== 'system' || odds >= SURE);
    const says = sayLevel(level, taken ? first : likely, layout, kindOf, { unit: 'mm', fraction: null });
    return { level, says, odds, taken };
  });
};

/** The regular work that a face comes near, in words, with its free sizes. */
const roughOf = (reporting: Reporting, nearest: NonNullable<RoughWork['nearest']>): Rough | null => {
  const inform = informing(roughened(reporting.measured, nearest.miss));
  const made = candidate({ ...reporting, inform }, [nearest.group], allFree, 0);
  return made === null ? null : { says: made.says, miss: nearest.miss };
};

const unitsOf = (all: readonly Weighed[], none: number, { rest, units }: StandardShare): UnitOdds => {
  const each = all.map((a) => ({ odds: a.odds, units: unitsIn(a) }));
  const sum = (of: keyof UnitOdds): number => rest * each.reduce((s, a) => s + a.odds * a.units[of], 0);
  return { in: sum('in') + units.in, mm: sum('mm') + units.mm, mixed: sum('mixed'), none: sum('none') + rest * none };
};

const nothingToSay = (name: string): FaceLayout => ({
  name,
  candidates: [],
  levels: [],
  asMeasured: 1,
  chosen: null,
  units: { in: 0, mm: 0, mixed: 0, none: 1 },
  telling: null,
  rough: null,
  recognised: null,
});
