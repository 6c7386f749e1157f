import type { Point } from '@fayplate/core';
import type { ReadingKind, Use } from '@fayplate/job';
import { ellipse95 } from '../frame/located.js';
import type { Matrix2, NextReading, Survey } from '../types.js';
import { canBeRead } from './candidates.js';
import { type Prospect, learn, prospectOf, together } from './prospect.js';

/** Below this 95 % radius a feature counts as fixed, mm: far below the vagueness, far above what any reading leaves. */
const FIXED = 50;
/** Gains nearer than this are alike, and what is handier to take decides: nats. */
const ALIKE = 0.7;
/** Larger faces are planned feature by feature by hand: the work grows with the fourth power. */
const MOST_FEATURES = 80;

/** How readings are planned; all of it optional. */
export interface PlanOptions {
  /** Where the features are thought to be, mm; those not given stand at their clocks on one circle. */
  readonly places?: ReadonlyMap<string, Point>;
  /** Readings wanted beyond the fewest that fix every feature: they check the others. */
  readonly spare?: number;
  /** No more readings than this. */
  readonly most?: number;
  /** Uses of instruments that are not asked for, such as places read on a bench. */
  readonly without?: readonly Use[];
  /** Kinds of reading that are not asked for. */
  readonly leaving?: readonly ReadingKind[];
}

const radiiOf = ({ c, rows }: Prospect): readonly number[] =>
  rows.map(([x, y]) => {
    const between = together(c, x, y);
    const m: Matrix2 = [
      [Math.max(together(c, x, x), 0), between],
      [between, Math.max(together(c, y, y), 0)],
    ];
    return ellipse95(m).major;
  });

/**
 * Which readings to take, in which order, so that the shape is fixed soonest: each next one tells most of what is still
 * open (log of its spread before over its own sigma), handier ones first where several tell as much: to the middle,
 * then the nearest. Starts from the readings that the face has, none included; stops when every feature is fixed and
 * `spare` more are planned. Empty where nothing the job has can read the face, or the face has more than 80 features.
 */
export const planReadings = (survey: Survey, options: PlanOptions = {}): readonly NextReading[] => {
  const {
    places = new Map<string, Point>(),
    spare = 0,
    most = Number.POSITIVE_INFINITY,
    without = [],
    leaving = [],
  } = options;
  if (survey.face.features.filter(canBeRead).length > MOST_FEATURES) return [];
  const prospect = prospectOf(survey, places, without, leaving);
  const { c, open, placed } = prospect;
  const plan: NextReading[] = [];
  let before = radiiOf(prospect);
  let left = spare;
  while (plan.length < most) {
    const allFixed = before.every((r) => r < FIXED);
    if (allFixed && left-- <= 0) break;
    const gains = open.map(({ rows }) =>
      rows.reduce((sum, { of, variance }) => sum + Math.log1p(together(c, of, of) / variance) / rows.length, 0),
    );
    const best = Math.max(...gains, 0);
    if (best < 1e-6) break;
    let pick = -1;
    for (const [i, g] of gains.entries())
      if (g > best - ALIKE && (pick < 0 || (open[i]?.handy ?? 0) < (open[pick]?.handy ?? 0))) pick = i;
    const [chosen] = open.splice(pick, 1);
    if (chosen === undefined) break;
    for (const { of, variance } of chosen.rows) learn(c, of, variance);
    const then = radiiOf(prospect);
    const reduces = new Map(
      placed.flatMap((p, i): readonly (readonly [string, readonly [number | null, number]])[] => {
        const [was, is] = [before[i] ?? 0, then[i] ?? 0];
        return is < FIXED && is < was * 0.95 ? [[p.slots.id, [was < FIXED ? was : null, is]]] : [];
      }),
    );
    plan.push({ reading: chosen.reading.text, instrument: chosen.reading.instrument, reduces });
    before = then;
  }
  return plan;
};
