import type { Lettering } from '@fayplate/drawing';
import { unchanged } from '../geometry/affine.js';
import { layColumns } from '../packet/columns.js';
import { flow, panelsOf } from '../packet/flow.js';
import { tablePieces } from '../packet/table.js';
import type { Panel } from '../pdf/page.js';
import type { HoleList } from '../template/types.js';
import { type StripWords, stripShapes } from './furniture.js';
import type { Frame } from './frame.js';

/** Between two columns of the list, mm. */
const GUTTER = 12;

/** The list of holes on sheets of their own. */
export const listSheets = (
  list: HoleList,
  frame: Frame,
  strip: (name: string) => StripWords,
  lettering: Lettering,
): readonly (readonly Panel[])[] => {
  const { page, margin } = frame;
  const width = page.width - 2 * margin;
  const top = page.height - margin;
  const table = { kind: 'table', caption: 'Holes', columns: list.columns, rows: list.rows } as const;
  const columns = flow(tablePieces(table, width, lettering), top - frame.strip.top - 4);
  // A narrow list stands in as many columns as the paper holds.
  const step = layColumns(table, width, lettering).width + GUTTER;
  const beside = Math.max(1, Math.floor((width + GUTTER) / step));
  const pages = Array.from({ length: Math.ceil(columns.length / beside) }, (_, i) =>
    columns.slice(i * beside, (i + 1) * beside),
  );
  return pages.map((page, i) => [
    ...page.flatMap((column, k) => panelsOf(column, { x: margin + k * step, y: top })),
    {
      place: unchanged,
      clip: null,
      shapes: stripShapes(
        frame.strip,
        strip(pages.length === 1 ? 'Holes' : `Holes, ${i + 1} of ${pages.length}`),
        lettering,
      ),
    },
  ]);
};
