import { distance } from '@fayplate/core';
import { CLEAR, standing } from '../bores/relief.js';
import { standsOut } from '../bores/registers.js';
import type { Draft } from '../draft.js';
import { depthInside } from '../outline/inside.js';
import { type Finding, finding } from './check.js';

/** The plate clears what stands out of both parts: beside it, and above it. A place that is unsure by ± needs that much more. */
export const bossFindings = (draft: Draft): readonly Finding[] =>
  standing(draft.desk, draft.bores).flatMap((p) => {
    const radius = (p.diameter ?? 0) / 2;
    if (depthInside(p.at, draft.outline.path) + radius + CLEAR <= 0) return [];
    const openings = draft.bores
      .filter((b) => b.kind !== 'spigot' && (b.side === 'through' || b.side === p.side))
      .map((b) => ({ b, beside: b.diameter / 2 - distance(b, p.at) - radius }))
      .toSorted((x, y) => y.beside - x.beside);
    const [best] = openings;
    const source = 'geometry; the ± of its place counts';
    const height = standsOut(p);
    if (best === undefined || best.beside < 0)
      return [
        finding('clear of what stands out of the part', [p.name], best?.beside ?? -radius, 0, { source, at: p.at }),
      ];
    return [
      finding('clear of what stands out of the part', [p.name, best.b.id], best.beside, 2 * p.sigma, {
        source,
        at: p.at,
      }),
      ...(height === null || best.b.depth === null
        ? []
        : [
            finding('clear above what stands out of the part', [p.name, best.b.id], best.b.depth - height, 0, {
              source: 'geometry',
              at: p.at,
            }),
          ]),
    ];
  });
