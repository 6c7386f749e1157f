import type { Box } from '@fayplate/core';
import { type Lettering, type Shape, line, pens, rectangle, text, wrapText } from '@fayplate/drawing';
import { projectionSymbol } from './symbols.js';

/** What the title block says. */
interface Title {
  readonly title: string;
  readonly job: string;
  readonly material: string;
  readonly mass: string;
  readonly thickness: string;
  readonly scale: string;
  readonly sheet: string;
  readonly units: string;
  readonly number: string;
  readonly revision: string;
  readonly by: string;
  readonly date: string;
  readonly third: boolean;
}

/** Width and height of the title block, mm: 180 wide at the most, as ISO 7200 has it. */
export const TITLE = { width: 180, height: 40 } as const;

/** The words that fit in a field's width, the rest cut. */
const fitting = (words: string, width: number, capital: number, weight: 'regular' | 'bold', l: Lettering): string =>
  wrapText(words, width, capital, weight, l)[0] ?? '';

/** The title block in the lower right corner of a frame. */
export const titleBlock = (t: Title, frame: Box, lettering: Lettering): readonly Shape[] => {
  const left = frame.right - TITLE.width;
  const { bottom } = frame;
  const cell = (
    x: number,
    y: number,
    width: number,
    height: number,
    name: string,
    words: string,
    capital: number,
  ): readonly Shape[] => [
    rectangle(
      'note',
      { left: left + x, right: left + x + width, bottom: bottom + y, top: bottom + y + height },
      pens.hair,
    ),
    text('note', { x: left + x + 1, y: bottom + y + height - 2.4 }, name, { capital: 1.5 }),
    text(
      'note',
      { x: left + x + 1.5, y: bottom + y + 1.6 },
      fitting(words, width - 3, capital, capital > 2.5 ? 'bold' : 'regular', lettering),
      { capital, weight: capital > 2.5 ? 'bold' : 'regular' },
    ),
  ];
  return [
    ...cell(0, 24, 104, 16, 'Title', t.title, 3.5),
    ...cell(104, 32, 46, 8, 'Material', t.material, 2.5),
    ...cell(150, 32, 30, 8, 'Mass', t.mass, 2.5),
    ...cell(104, 24, 46, 8, 'Thickness', t.thickness, 2.5),
    ...cell(150, 24, 30, 8, 'Scale', t.scale, 2.5),
    ...cell(0, 12, 104, 12, 'Job', t.job, 2.5),
    ...cell(104, 12, 46, 12, 'Units, standards', t.units, 2.5),
    ...cell(150, 12, 30, 12, 'Projection', '', 2.5),
    ...projectionSymbol({ x: left + 165, y: bottom + 17.2 }, t.third),
    ...cell(0, 0, 52, 12, 'Drawn', t.by, 2.5),
    ...cell(52, 0, 30, 12, 'Date', t.date, 2.5),
    ...cell(82, 0, 22, 12, 'Sheet', t.sheet, 2.5),
    ...cell(104, 0, 46, 12, 'Number', t.number, 3.5),
    ...cell(150, 0, 30, 12, 'Revision', t.revision, 3.5),
    line('note', { x: left, y: bottom }, { x: left, y: bottom + TITLE.height }, pens.wide),
    line('note', { x: left, y: bottom + TITLE.height }, { x: frame.right, y: bottom + TITLE.height }, pens.wide),
  ];
};
