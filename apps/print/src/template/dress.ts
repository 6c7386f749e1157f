import type { Box } from '@fayplate/core';
import {
  type Field,
  type Lettering,
  type Obstacle,
  type Shape,
  field,
  findRoom,
  group,
  obstaclesOf,
  text,
} from '@fayplate/drawing';
import { LEAD, labelShapes, placeWords } from './place-words.js';
import type { Template, TemplateBlock } from './types.js';

/** Smaller than this no lettering is read at arm's length, mm (capital). */
const LEAST = 2;

/** The block as it is, then smaller and smaller, for sheets with little room. */
const settingsOf = (block: TemplateBlock): readonly TemplateBlock[] =>
  [1, 0.8, 0.65, 0.5].map((k) => ({
    ...block,
    lines: block.lines.map((l) => ({ ...l, capital: Math.max(k * l.capital, Math.min(l.capital, LEAST)) })),
  }));

const blockSize = (
  block: TemplateBlock,
  lettering: Lettering,
): { readonly width: number; readonly height: number } => ({
  width: Math.max(...block.lines.map((l) => lettering.width(l.text, l.capital, l.weight))) + 3,
  height: block.lines.reduce((sum, l) => sum + l.capital * LEAD, 0) + 2,
});

const blockShapes = (block: TemplateBlock, box: Box): Shape => {
  let y = box.top - 1;
  return group(
    null,
    block.lines.map((l) => {
      y -= l.capital * (LEAD + 1) * 0.5;
      const shape = text('note', { x: (box.left + box.right) / 2, y }, l.text, {
        capital: l.capital,
        weight: l.weight,
        anchor: 'middle',
      });
      y -= l.capital * (LEAD - 1) * 0.5;
      return shape;
    }),
  );
};

export interface Dressed {
  readonly shapes: readonly Shape[];
  /** Holes whose words stand in the list only, in full or in part, for lack of room. */
  readonly shortened: readonly string[];
  /** Of these, the ones without even a name beside them. */
  readonly unplaced: readonly string[];
  /** Blocks of words for which there was no room. */
  readonly left: readonly TemplateBlock[];
  /** Everything that now lies on the paper, strips left out. */
  readonly taken: Field;
}

/** The largest setting of a block for which there is room, and where. */
const roomFor = (
  block: TemplateBlock,
  room: Field,
  within: Box,
  lettering: Lettering,
): { readonly set: TemplateBlock; readonly box: Box } | null => {
  for (const set of settingsOf(block)) {
    const box = findRoom(blockSize(set, lettering), block.near, room, within);
    if (box !== null) return { set, box };
  }
  return null;
};

/**
 * The template's lettering, laid so that none lies on a hole, a cross-hair, an outline or other lettering (see
 * placeLabels): in full where there is room, else shorter (see placeWords), else in the list of holes only. `drawn` is
 * what else lies on the paper, `strips` is where paper will be cut off or covered.
 */
export const dress = (
  template: Template,
  lettering: Lettering,
  within: Box,
  keepOff: { readonly drawn: readonly Obstacle[]; readonly strips: readonly Obstacle[] },
): Dressed => {
  const drawn = [...template.obstacles, ...keepOff.drawn];
  const others = [...drawn, ...keepOff.strips];
  const { words, wishes, placement, shortened } = placeWords(template.labels, lettering, others, within);
  const { labels, unplaced } = placement;
  const centres = new Map(template.labels.map((l) => [l.id, l.centre]));
  const lettered = [
    ...wishes.flatMap(obstaclesOf),
    ...labels.flatMap((l): readonly Obstacle[] => [
      { kind: 'box', box: l.box },
      ...(l.leader === null ? [] : [{ kind: 'segment', segment: l.leader } as const]),
    ]),
  ];
  const room = field([...others, ...lettered]);
  const taken = field([...drawn, ...lettered]);
  const blocks: Shape[] = [];
  const left: TemplateBlock[] = [];
  for (const block of template.blocks) {
    const fit = roomFor(block, room, within, lettering);
    if (fit === null) left.push(block);
    else {
      blocks.push(blockShapes(fit.set, fit.box));
      for (const f of [room, taken]) f.add({ kind: 'box', box: fit.box });
    }
  }
  return {
    shapes: [
      ...labels.map((l) =>
        labelShapes(l, words.get(l.id) ?? { lines: [], name: 3 }, centres.get(l.id) ?? { x: 0, y: 0 }),
      ),
      ...blocks,
    ],
    unplaced,
    shortened,
    left,
    taken,
  };
};
