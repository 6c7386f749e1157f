import type { Finding, Trying } from '../checks/check.js';
import type { Desk } from '../desk.js';
import { roundUp } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import * as change from './change.js';
import type { Change } from './change.js';
import { holesOf, shortOf } from './about.js';

export const thicker = (t: Trying, by: number): readonly Change[] => {
  const to = roundUp(t.draft.desk.thickness + by, t.job.units);
  return allowedThickness(t.draft.desk, to) ? [change.thickness(t.job, to)] : [];
};

export const thinner = (t: Trying, by: number): readonly Change[] => {
  const step = t.job.units === 'in' ? 25.4 / 32 : 0.5;
  const to = Math.floor((t.draft.desk.thickness - by) / step + 1e-9) * step;
  return to > 0 && allowedThickness(t.draft.desk, to) ? [change.thickness(t.job, to)] : [];
};

/** Where there is a stack, the thickness may only move within its window. */
const allowedThickness = (desk: Desk, to: number): boolean => {
  if (desk.spec.thickness === 'from old') return false;
  const window = desk.stack?.worst ?? null;
  // A chain that no plate fits says nothing of this one.
  if (window === null) return desk.spec.thickness !== 'from stack';
  return to + desk.shims >= window.from - 1e-9 && to + desk.shims <= window.to + 1e-9;
};

export const cutBack = (t: Trying, f: Finding, face: string | null): readonly Change[] => {
  const standing = t.draft.desk.placed.find((p) => holesOf(t.draft, f).some((h) => h.feature === p.name));
  if (face === null || standing === undefined || standing.feature.kind !== 'stud' || standing.feature.stands === null)
    return [];
  // Down to what a rule shows, so that the length as it is said is short enough.
  const step = t.job.units === 'in' ? 0.127 : 0.1;
  const to = Math.floor((standing.feature.stands - shortOf(t.draft, f)) / step + 1e-9) * step;
  return [change.studsCut(t.job, face, `cut the studs of ${face} back to ${t.say(to)}`, to)];
};

/** Studs as long as the longest that is wanted on their face, so that one length is bought. */
export const longer = (t: Trying, f: Finding, face: string | null): readonly Change[] => {
  if (face === null) return [];
  const wanted = t.findings
    .filter((x) => x.id === f.id && !x.ok)
    .flatMap((x) => {
      const placed = t.draft.desk.placed.find(
        (p) => p.face.name === face && holesOf(t.draft, x).some((h) => h.feature === p.name),
      );
      return placed === undefined || placed.feature.stands === null
        ? []
        : [placed.feature.stands + shortOf(t.draft, x)];
    });
  const to = roundUp(Math.max(0, ...wanted), t.job.units);
  return to > 0 ? [change.studsLonger(t.job, face, `fit studs that stand ${t.say(to)} out of ${face}`, to)] : [];
};

/** Thinner by what the lean needs: the hole's spare radius is all that may be used up. */
export const thinnerToLean = (t: Trying, holes: readonly PlateHole[]): readonly Change[] =>
  holes.slice(0, 1).flatMap((h) => {
    const lean = t.draft.desk.placed.find((p) => p.name === h.feature)?.feature.lean ?? null;
    if (lean === null || h.fastener === null) return [];
    const reach = (h.diameter / 2 - h.fastener / 2 / Math.cos(lean)) / Math.tan(lean);
    return reach > 0 ? thinner(t, h.land[1] - h.land[0] - (h.sink?.depth ?? 0) - reach) : [];
  });

export const edges = (t: Trying, f: Finding): readonly Change[] => {
  const short = shortOf(t.draft, f);
  const spec = t.draft.desk.spec.outline;
  if (spec.shape === 'round' && spec.diameter !== null) {
    const to = roundUp(spec.diameter + 2 * short, t.job.units);
    return [change.roundPlate(t.job, `make the plate ${t.say(to)} in diameter`, to) ?? []].flat();
  }
  return [change.margin(t.job, roundUp((spec.margin ?? 0) + short, t.job.units)) ?? []].flat();
};

export const bores = (t: Trying, f: Finding): readonly Change[] => {
  const bore = t.draft.bores.find((b) => b.kind === 'bore' && f.of.includes(b.id));
  if (bore === undefined) return [];
  const step = t.job.units === 'in' ? 25.4 / 32 : 0.5;
  const to = Math.floor((bore.diameter - 2 * shortOf(t.draft, f)) / step + 1e-9) * step;
  const said = to > 0 ? change.bored(t.job, `make the bore ${t.say(to)}`, to) : null;
  return said === null ? [] : [said];
};

/** A bore that what turns passes: right through, or wider. */
export const widerBore = (t: Trying, f: Finding): readonly Change[] => {
  const bore = t.draft.bores.find((b) => b.kind === 'bore' && f.of.includes(b.id));
  if (bore === undefined) return [];
  const through = change.boredThrough(t.job, 'bore it right through');
  if (through !== null) return [through];
  const to = roundUp(bore.diameter + 2 * shortOf(t.draft, f), t.job.units);
  const said = change.bored(t.job, `make the bore ${t.say(to)}`, to);
  return said === null ? [] : [said];
};
