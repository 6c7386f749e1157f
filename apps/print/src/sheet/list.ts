import { type Speech, say } from '@fayplate/core';
import type { Lettering, PrinterScale } from '@fayplate/drawing';
import { unchanged } from '../geometry/affine.js';
import { layColumns } from '../packet/columns.js';
import { flow, panelsOf } from '../packet/flow.js';
import { tablePieces } from '../packet/table.js';
import type { Panel } from '../pdf/page.js';
import type { Remaining } from '../printer/profile.js';
import type { HoleList } from '../template/types.js';
import type { Frame } from './frame.js';
import { type StripWords, stripShapes } from './furniture.js';

const factor = (v: number): string => v.toFixed(4);
const degrees = (v: number): string => `${((v * 180) / Math.PI).toFixed(3)}°`.replace('-', '−');

/** What was done about the printer's scale, short enough for the strip on each sheet. */
export const scaleBrief = (profile: PrinterScale | null): string =>
  profile === null
    ? 'True scale, not corrected for any printer'
    : `Corrected for ${profile.name}: ${factor(profile.wide)} wide, ${factor(profile.high)} ` +
      `high${profile.skew === 0 ? '' : `, skew ${degrees(profile.skew)}`}`;

/** The same in full, with the day on which the printer was measured. */
export const scaleWords = (profile: PrinterScale | null): string =>
  profile === null
    ? 'True scale, not corrected for any printer'
    : `Corrected for ${profile.name}: it prints ${factor(profile.wide)} wide, ${factor(profile.high)} high, skew ` +
      `${degrees(profile.skew)} (measured ${profile.date} on ${profile.paper})`;

/** How far the farthest hole can still be off, as a sentence. */
export const remainingWords = (remaining: Remaining, profile: PrinterScale | null, speech: Speech): string => {
  const places = speech.unit === 'in' ? 3 : 2;
  const off = say(remaining.off, { ...speech, fraction: null }, places);
  const hole = remaining.hole === null ? 'a hole' : `hole ${remaining.hole}`;
  return profile === null
    ? `Once the rulers read true within a quarter of a millimetre, ${hole}, the farthest, can still be off by ± ${off}.`
    : `After this correction ${hole}, the farthest, can still be off ` +
        `by ± ${off}, from the ± of the rulers that were measured.`;
};

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
