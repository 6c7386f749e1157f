import type { Lettering } from '@fayplate/drawing';
import { type Stock, stockOf } from './paper/paper.js';
import { profileFaults } from './printer/profile.js';
import { LEAST_WINDOW, RULER_BAND, STRIP } from './sheet/frame.js';
import type { PrintOptions } from './types.js';

/** Half an overlap must hold half a registration mark that the eye can still tell from another. */
const LEAST_OVERLAP = 6;

type OptionsRead =
  | { readonly ok: true; readonly stock: Stock | null; readonly warnings: readonly string[] }
  | { readonly ok: false; readonly faults: readonly string[] };

const lengthFault = (what: string, v: number): readonly string[] =>
  Number.isFinite(v) && v >= 0 ? [] : [`the ${what} must be a length of zero or more`];

/** Everything that is wrong with the options, together; `stock` is null for one sheet made to measure. */
export const readOptions = (o: PrintOptions): OptionsRead => {
  const single = /^single$/i.test(o.paper.trim());
  const stock = single ? null : stockOf(o.paper);
  const faults = [
    ...lengthFault('margin', o.margin),
    ...lengthFault('overlap', o.overlap),
    ...(o.printer === null ? [] : profileFaults(o.printer)),
  ];
  if (!single && stock === null)
    faults.push(
      `no paper '${o.paper.slice(0, 40)}' is known: write A4, Letter, ANSI D, 210 x 297 mm, roll 610 mm, or single for one sheet made to measure`,
    );
  if (o.overlap < LEAST_OVERLAP)
    faults.push(`an overlap of ${o.overlap} mm leaves no room for glue and marks: give it ${LEAST_OVERLAP} mm or more`);
  if (stock !== null && faults.length === 0) {
    const narrow = Math.min(stock.width, stock.height ?? Infinity);
    const wide = narrow - 2 * o.margin - RULER_BAND - STRIP;
    if (wide < LEAST_WINDOW)
      faults.push(
        `margins of ${o.margin} mm leave ${Math.max(0, wide).toFixed(0)} mm of ${stock.name} for the drawing, and ${LEAST_WINDOW} mm are needed: take smaller margins or larger paper`,
      );
    else if (o.overlap > wide / 2)
      faults.push(
        `an overlap of ${o.overlap} mm is more than half of the ${wide.toFixed(0)} mm that ${stock.name} leaves for the drawing: take 10 mm`,
      );
  }
  if (faults.length > 0) return { ok: false, faults };
  const warnings =
    o.margin < 4
      ? [
          `margins of ${o.margin} mm: most printers leave about 4 to 6 mm of the edge bare, and what falls there is lost`,
        ]
      : [];
  return { ok: true, stock, warnings };
};

/** The same lettering, keeping note of every character that had to be shown as its code. */
export const recording = (
  lettering: Lettering,
): { readonly lettering: Lettering; readonly missing: ReadonlySet<string> } => {
  const missing = new Set<string>();
  return {
    missing,
    lettering: {
      ...lettering,
      lay: (words, capital, weight) => {
        const laid = lettering.lay(words, capital, weight);
        for (const code of laid.missing) missing.add(code);
        return laid;
      },
    },
  };
};

export const missingWords = (missing: ReadonlySet<string>): readonly string[] =>
  missing.size === 0
    ? []
    : [
        `the lettering cannot draw ${[...missing].slice(0, 12).join(', ')}${missing.size > 12 ? ' and more' : ''}: shown as codes in brackets`,
      ];
