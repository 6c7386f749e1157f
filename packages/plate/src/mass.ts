import type { Draft } from './draft.js';
import { cutRadius, cutVolume, spineDistance } from './solids/cut.js';

/** Volume of openings on one axis together: at each depth the widest counts. */
const coaxialVolume = (
  slices: readonly { readonly z0: number; readonly z1: number; readonly r0: number }[],
): number => {
  const levels = [...new Set(slices.flatMap((s) => [s.z0, s.z1]))].sort((a, b) => a - b);
  return levels.slice(1).reduce((sum, top, i) => {
    const bottom = levels[i] ?? top;
    const r = Math.max(0, ...slices.filter((s) => s.z0 <= bottom && s.z1 >= top).map((s) => s.r0));
    return sum + Math.PI * r * r * (top - bottom);
  }, 0);
};

/**
 * Metal of the finished plate, mm³: the outline's prism and raised spigots less the cuts. Holes are counted over the metal
 * they really go through; cuts that break into each other (a failed check) are counted twice where they do.
 */
const plateVolume = (draft: Draft): number => {
  const { desk, outline, bores, cuts } = draft;
  const openings = cuts.filter((c) => c.what !== 'hole');
  const groups: (typeof openings)[] = [];
  for (const c of openings) {
    const group = groups.find((g) => g.some((o) => spineDistance(o.spine, c.spine) < 1e-6));
    if (group === undefined) groups.push([c]);
    else group.push(c);
  }
  const bored = groups.reduce((sum, g) => sum + coaxialVolume(g.flatMap((c) => c.slices)), 0);
  const drilled = cuts.filter((c) => c.what === 'hole').reduce((sum, c) => sum + cutVolume(c), 0);
  const raised = bores
    .filter((b) => b.kind === 'spigot')
    .reduce((sum, b) => {
      const through = Math.max(
        0,
        ...cuts.filter((c) => c.what === 'bore' && spineDistance(c.spine, [b, b]) < b.diameter / 2).map(cutRadius),
      );
      return sum + Math.PI * ((b.diameter / 2) ** 2 - through ** 2) * (b.depth ?? 0);
    }, 0);
  return outline.area * desk.thickness + raised - bored - drilled;
};

/** kg, from the density in kg/m³. */
export const massOf = (draft: Draft): number | null =>
  draft.desk.material === null ? null : (plateVolume(draft) * draft.desk.material.density) / 1e9;
