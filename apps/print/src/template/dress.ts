import type { Box, Point } from '@fayplate/core';
import { type Field, type LabelWish, type Lettering, type Obstacle, type PlacedLabel, type Shape, circle, field, findRoom, group, line, obstaclesOf, pens, placeLabels, text } from '@fayplate/drawing';
import { fitText } from '../sheet/fit.js';
import type { Template, TemplateBlock, TemplateLabel } from './types.js';

const NAME = 3;
const DETAIL = 2.3;
/** Baseline to baseline, in capitals. */
const LEAD = 1.7;
/** A name longer than this is cut short beside its hole; the list on the key sheet has it in full. */
const WIDEST = 60;

const capitalOf = (i: number): number => (i === 0 ? NAME : DETAIL);
const weightOf = (i: number): 'bold' | 'regular' => (i === 0 ? 'bold' : 'regular');

const shortened = (lines: readonly string[], lettering: Lettering): readonly string[] =>
  lines.map((words, i) => fitText(words, WIDEST, capitalOf(i), weightOf(i), lettering));

const sizeOf = (lines: readonly string[], lettering: Lettering): { readonly width: number; readonly height: number } => ({
  width: Math.max(...lines.map((words, i) => lettering.width(words, capitalOf(i), weightOf(i)))),
  height: NAME + (lines.length - 1) * LEAD * DETAIL + 0.33 * DETAIL,
});

const labelShapes = (label: PlacedLabel, lines: readonly string[], centre: Point): Shape => {
  const right = label.box.right <= centre.x;
  const x = right ? label.box.right : label.box.left;
  return group(`label ${label.id}`, [
    ...lines.map((words, i) =>
      text('note', { x, y: label.box.top - NAME - i * LEAD * DETAIL }, words, { capital: capitalOf(i), weight: weightOf(i), anchor: right ? 'end' : 'start' }),
    ),
    ...(label.leader === null ? [] : [line('note', label.leader.from, label.leader.to, pens.hair), circle('note', label.leader.to, 0.35, null, 0)]),
  ]);
};

const blockSize = (block: TemplateBlock, lettering: Lettering): { readonly width: number; readonly height: number } => ({
  width: Math.max(...block.lines.map((l) => lettering.width(l.text, l.capital, l.weight))) + 3,
  height: block.lines.reduce((sum, l) => sum + l.capital * LEAD, 0) + 2,
});

const blockShapes = (block: TemplateBlock, box: Box): Shape => {
  let y = box.top - 1;
  return group(
    null,
    block.lines.map((l) => {
      y -= l.capital * (LEAD + 1) * 0.5;
      const shape = text('note', { x: (box.left + box.right) / 2, y }, l.text, { capital: l.capital, weight: l.weight, anchor: 'middle' });
      y -= l.capital * (LEAD - 1) * 0.5;
      return shape;
    }),
  );
};

export interface Dressed {
  readonly shapes: readonly Shape[];
  /** Holes named only on the key sheet, for want of room. */
  readonly unplaced: readonly string[];
  /** Blocks of words for which there was no room. */
  readonly left: readonly TemplateBlock[];
  /** Everything that now lies on the paper, strips left out. */
  readonly taken: Field;
}

const wishFor = (label: TemplateLabel, lines: readonly string[], lettering: Lettering): LabelWish => ({
  id: label.id,
  centre: label.centre,
  radius: label.radius,
  reach: label.reach,
  ...sizeOf(lines, lettering),
});

/**
 * The template's lettering, laid so that none lies on a hole, a cross-hair, an outline or other lettering (see placeLabels):
 * in full where there is room, else the name alone, else on the key sheet only. `drawn` is what else lies on the paper, `strips` is
 * where paper will be cut off or covered.
 */
export const dress = (template: Template, lettering: Lettering, within: Box, keepOff: { readonly drawn: readonly Obstacle[]; readonly strips: readonly Obstacle[] }): Dressed => {
  const drawn = [...template.obstacles, ...keepOff.drawn];
  const others = [...drawn, ...keepOff.strips];
  const full = new Map(template.labels.map((l) => [l.id, shortened(l.lines, lettering)]));
  const first = placeLabels(template.labels.map((l) => wishFor(l, full.get(l.id) ?? [''], lettering)), others, within);
  const names = new Map([...full].map(([id, lines]) => [id, first.unplaced.includes(id) ? lines.slice(0, 1) : lines]));
  const wishes = template.labels.map((l) => wishFor(l, names.get(l.id) ?? [''], lettering));
  const { labels, unplaced } = first.unplaced.length === 0 ? first : placeLabels(wishes, others, within);
  const centres = new Map(template.labels.map((l) => [l.id, l.centre]));
  const lettered = [
    ...wishes.flatMap(obstaclesOf),
    ...labels.flatMap((l): readonly Obstacle[] => [{ kind: 'box', box: l.box }, ...(l.leader === null ? [] : [{ kind: 'segment', segment: l.leader } as const])]),
  ];
  const room = field([...others, ...lettered]);
  const taken = field([...drawn, ...lettered]);
  const blocks: Shape[] = [];
  const left: TemplateBlock[] = [];
  for (const block of template.blocks) {
    const box = findRoom(blockSize(block, lettering), block.near, room, within);
    if (box === null) left.push(block);
    else {
      blocks.push(blockShapes(block, box));
      for (const f of [room, taken]) f.add({ kind: 'box', box });
    }
  }
  return {
    shapes: [...labels.map((l) => labelShapes(l, names.get(l.id) ?? [], centres.get(l.id) ?? { x: 0, y: 0 })), ...blocks],
    unplaced,
    left,
    taken,
  };
};
