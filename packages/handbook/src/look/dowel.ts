import { MM_PER_INCH, formatFraction, parseLength } from '@fayplate/core';
import { isoFit } from '../fits/limits.js';
import { dowelLimits, inchDowels, metricDowels } from '../hardware/dowels.js';
import type { Looked } from './words.js';
import { answer, both, figures, left, mmAndInch, refuse, source, table } from './words.js';

interface Size {
  readonly name: string;
  readonly diameter: number;
}

const metric: readonly Size[] = metricDowels.rows.map((d) => ({ name: `${d} mm`, diameter: d }));
const inch: readonly Size[] = inchDowels.rows.map((d) => ({
  name: `${formatFraction(d * MM_PER_INCH, 32)} in`,
  diameter: d * MM_PER_INCH,
}));

/** The size sold that is nearest, in the unit that was written. */
const nearestSize = (what: string, diameter: number): string | null =>
  (/in|["″/]/.test(what) ? inch : metric).toSorted(
    (a, b) => Math.abs(a.diameter - diameter) - Math.abs(b.diameter - diameter),
  )[0]?.name ?? null;

/** A bare fraction is in inches, any other bare number in mm. */
const sizeOf = (what: string): number | null => {
  const size = parseLength(what.trim().slice(0, 60), /^[\d ]+\/[\d ]+$/.test(what.trim()) ? MM_PER_INCH : 1);
  return size.ok ? size.value : null;
};

/** `8 mm`, `5/16`: limits of a hardened dowel, of its reamed hole H7, and the play between them. */
export const lookDowel = (what: string): Looked => {
  const diameter = sizeOf(what);
  const pin = diameter === null ? null : dowelLimits(diameter);
  const hole = diameter === null ? null : isoFit('H7', diameter);
  if (diameter === null || pin === null || hole === null)
    return {
      ...refuse(what, 'a size that is sold, such as 8 mm or 5/16 in', []),
      nearest: diameter === null ? '8 mm' : nearestSize(what, diameter),
    };
  const play = { least: hole.least - pin.most, most: hole.most - pin.least };
  const row = (name: string, least: number, most: number): readonly string[] => [
    name,
    ...mmAndInch(least),
    ...mmAndInch(most),
  ];
  return {
    ok: true,
    kind: 'dowel',
    json: {
      diameter,
      pin: { least: pin.least, most: pin.most },
      hole: { name: 'H7', least: hole.least, most: hole.most },
      play,
      source: `${pin.source}; ${hole.source}`,
    },
    report: [
      answer(`Dowel of ${both(diameter)}: ${both(pin.least)} to ${both(pin.most)}`),
      table(
        null,
        [left(''), figures('Least, mm'), figures('Least, in'), figures('Most, mm'), figures('Most, in')],
        [
          row('the dowel', pin.least, pin.most),
          row('its hole reamed H7', hole.least, hole.most),
          row('play, less than nothing where it has to be pressed', play.least, play.most),
        ],
      ),
      source(`${pin.source}; ${hole.source}`),
    ],
  };
};
