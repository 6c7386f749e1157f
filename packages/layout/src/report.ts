import { type Block, type Report, type Speech, say, sayNumber } from '@fayplate/core';
import type { Face, FeatureKind } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import type { FaceLayout } from './types.js';
import { sayLayout } from './words/candidate.js';
import { sayOdds } from './words/odds.js';

/** The layout of one face in words: the verdict, what would move, the rivals. */
export const layoutReport = (face: Face, _located: LocatedFace, layout: FaceLayout, speech: Speech): Report => {
  const kinds = new Map(face.features.map((f) => [f.id, f.kind]));
  const kindOf = (id: string): FeatureKind => kinds.get(id) ?? 'hole';
  const chosen = layout.chosen === null ? undefined : layout.candidates[layout.chosen];
  const first = layout.candidates[0];
  const blocks: Block[] = [{ kind: 'heading', level: 2, text: `Layout of ${face.name}` }];
  blocks.push({
    kind: 'verdict',
    ok: chosen !== undefined,
    text: chosen === undefined ? 'No layout is sure enough to be taken as intended.' : `${sayLayout(chosen, kindOf, speech)}: odds ${sayOdds(chosen.odds)}.`,
  });
  if (first !== undefined) {
    blocks.push({
      kind: 'table',
      caption: null,
      columns: [
        { title: 'feature', align: 'left' },
        { title: `X ${speech.unit}`, align: 'point' },
        { title: `Y ${speech.unit}`, align: 'point' },
        { title: 'would move', align: 'left' },
      ],
      rows: [...first.features].map(([id, f]) => [id, sayNumber(f.x, speech), sayNumber(f.y, speech), `${say(f.shift, speech)}, within its ± ${say(f.within, speech)}`]),
    });
  }
  blocks.push({
    kind: 'table',
    caption: 'What it may be',
    columns: [
      { title: 'odds', align: 'left' },
      { title: 'layout', align: 'left' },
    ],
    rows: [...layout.candidates.slice(0, 6).map((c) => [sayOdds(c.odds), sayLayout(c, kindOf, speech)]), [sayOdds(layout.asMeasured), 'no simple layout: as measured']],
  });
  return blocks;
};
