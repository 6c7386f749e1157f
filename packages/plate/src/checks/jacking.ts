import { distance } from '@fayplate/core';
import type { Draft } from '../draft.js';
import { type Finding, finding } from './check.js';

/** A jacking screw pushes on the first part: its end has to land on metal, not on a hole, a bore or a stud. */
export const jackingFindings = (draft: Draft): readonly Finding[] =>
  draft.holes
    .filter((h) => h.as === 'jacking')
    .flatMap((h) => {
      const own = draft.desk.placed.filter((p) => p.face === draft.desk.faces[0] && p.feature.kind !== 'edge');
      const near = own
        .map((p) => ({ p, clear: distance(p.at, h) - (p.diameter ?? 0) / 2 - (h.thread?.major ?? h.diameter) / 2 }))
        .toSorted((a, b) => a.clear - b.clear)[0];
      return near === undefined
        ? []
        : [finding('jacking screw pushes on metal', [h.id, near.p.name], near.clear, 0, { source: 'geometry', at: h })];
    });
