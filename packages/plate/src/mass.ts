import type { Draft } from './draft.js';
import { borePath } from './bores/shape.js';
import { biteArea, biteOf } from './outline/notch.js';
import { type Cut, cutRadius, cutVolume, liesWithin } from './solids/cut.js';
import { spineDistance } from './solids/spine.js';

/** Volume of openings with upright walls together: what lies within another at the same depth is counted once. */
const openVolume = (openings: readonly Cut[]): number => {
  const levels = [...new Set(openings.flatMap((c) => c.slices.flatMap((s) => [s.z0, s.z1])))].sort((a, b) => a - b);
  return levels.slice(1).reduce((sum, top, i) => {
    const bottom = levels[i] ?? top;
    const here = openings.flatMap((c) => {
      const slice = c.slices.find((s) => s.z0 <= bottom && s.z1 >= top);
      return slice === undefined ? [] : [{ ...c, slices: [{ ...slice, z0: bottom, z1: top }] }];
    });
    const own = here.filter(
      (c, k) => !here.some((o, j) => j !== k && liesWithin(c, o) && (j < k || !liesWithin(o, c))),
    );
    return sum + own.reduce((s, c) => s + cutVolume(c), 0);
  }, 0);
};

/** What notches with a floor take of the plate. Those that go through are no part of its outline to begin with. */
const notchVolume = ({ bores, outline }: Draft): number =>
  bores.reduce((sum, b) => {
    if (b.box?.notch !== true || b.depth === null) return sum;
    const bite = biteOf(outline.path, borePath(b));
    return sum + (typeof bite === 'number' ? 0 : biteArea(bite) * b.depth);
  }, 0);

/**
 * Metal of the finished plate, mm³: the outline's prism and raised spigots less the cuts. Holes are counted over the metal
 * they really go through; cuts that break into each other (a failed check) are counted twice where they do.
 */
const plateVolume = (draft: Draft): number => {
  const { desk, outline, bores, cuts } = draft;
  const bored = openVolume(cuts.filter((c) => c.what !== 'hole' && c.notch !== true));
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
  return outline.area * desk.thickness + raised - bored - drilled - notchVolume(draft);
};

/** kg, from the density in kg/m³. */
export const massOf = (draft: Draft): number | null =>
  draft.desk.material === null ? null : (plateVolume(draft) * draft.desk.material.density) / 1e9;
