import { depthInside } from '../outline/inside.js';
import { cutRadius } from '../solids/cut.js';
import type { Draft } from '../draft.js';
import { type Finding, finding } from './check.js';
import { edgeLimit, webLimit } from './limits.js';

/** Every hole's centre from the edge, and the metal left outside bores, sunk heads and raised spigots. */
export const edgeFindings = (draft: Draft): readonly Finding[] => {
  const { desk, outline } = draft;
  const limit = edgeLimit(desk);
  const holes = draft.holes.map((hole, i) => {
    const spine = draft.cuts[i]?.spine ?? [hole, hole];
    const depth = Math.min(...spine.map((p) => depthInside(p, outline.path)));
    const diameter = Math.max(hole.diameter, hole.thread?.major ?? 0);
    return finding('hole to edge', [hole.id, 'outline'], limit.unit === 'd' ? depth / diameter : depth, limit.value, {
      source: limit.source,
      unit: limit.unit,
      at: hole,
    });
  });
  const rims = draft.cuts
    .filter((cut, i) => cut.what !== 'hole' || draft.holes[i]?.sink !== null)
    .map((cut) => {
      const { value, source } = webLimit(desk, [cut]);
      const depth = Math.min(...cut.spine.map((p) => depthInside(p, outline.path))) - cutRadius(cut);
      return finding('metal to the edge', [cut.id, 'outline'], depth, value, { source, at: cut.spine[0] });
    });
  const spigots = draft.bores
    .filter((b) => b.kind === 'spigot')
    .map((b) =>
      finding('metal to the edge', [b.id, 'outline'], depthInside(b, outline.path) - b.diameter / 2, 0, {
        source: 'common practice: a raised spigot stands on the plate',
        at: b,
      }),
    );
  return [...holes, ...rims, ...spigots];
};
