import { sayEnough, sayTyped } from '@fayplate/core';
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
  const own = (mm: number, places?: number): string => sayTyped(mm, o.speech, places);
  const coarse = o.speech.unit === 'in' ? 1 : 0;
  const enough = (mm: number): string => sayEnough(mm, o.speech, coarse);
  const single = /^single$/i.test(o.paper.trim());
  const stock = single ? null : stockOf(o.paper);
  const faults = [
    ...lengthFault('margin', o.margin),
    ...lengthFault('overlap', o.overlap),
    ...(o.printer === null ? [] : profileFaults(o.printer)),
  ];
  if (!single && stock === null)
    faults.push(
      `no paper '${o.paper.slice(0, 40)}' is known: write A4, Letter, ANSI D, 210 x 297 mm, roll 610 mm, ` +
        'or single for one sheet made to measure',
    );
  if (o.overlap < LEAST_OVERLAP)
    faults.push(
      `an overlap of ${own(o.overlap)} leaves no room for glue and marks: give it ${enough(LEAST_OVERLAP)} or more`,
    );
  if (stock !== null && faults.length === 0) {
    const narrow = Math.min(stock.width, stock.height ?? Infinity);
    const wide = narrow - 2 * o.margin - RULER_BAND - STRIP;
    if (wide < LEAST_WINDOW)
      faults.push(
        `margins of ${own(o.margin)} leave ${own(Math.max(0, wide), coarse)} of ${stock.name} for the drawing, ` +
          `which needs ${enough(LEAST_WINDOW)}: take smaller margins or larger paper`,
      );
    else if (o.overlap > wide / 2)
      faults.push(
        `an overlap of ${own(o.overlap)} is more than half of the ${own(wide, coarse)} that ${stock.name} leaves ` +
          `for the drawing: take ${o.speech.unit === 'in' ? '3/8 in' : '10 mm'}`,
      );
  }
  if (faults.length > 0) return { ok: false, faults };
  const warnings =
    o.margin < 4
      ? [
          `margins of ${own(o.margin)}: most printers leave about ` +
            `${o.speech.unit === 'in' ? '3/16 to 1/4 in' : '4 to 6 mm'} ` +
            'of the edge bare, and what falls there is lost',
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
        `the lettering cannot draw ${[...missing].slice(0, 12).join(', ')}${missing.size > 12 ? ' and more' : ''}: ` +
          'shown as codes in brackets',
      ];
