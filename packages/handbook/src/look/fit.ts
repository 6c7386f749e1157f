import { MM_PER_INCH, formatFraction, parseLength } from '@fayplate/core';
import { type FitLimits, isoFit, isoFitPair } from '../fits/limits.js';
import { dowelLimits, inchDowels, metricDowels } from '../hardware/inserts.js';
import { clearanceFits, clearanceHole } from '../holes/clearance.js';
import { parseThread } from '../threads/parse.js';
import { noThread, threadsOfSize } from './thread.js';
import { type Looked, type Refused, answer, both, figures, left, mmAndInch, refuse, source, table } from './words.js';

const words = /^([a-zA-Z]{1,2}\d{1,2}(?:\/[a-zA-Z]{1,2}\d{1,2})?)[ ,](.+)$/;
const turned = /^(.{1,60}?)[ ,]{1,9}([a-zA-Z]{1,2}\d{1,2}(?:\/[a-zA-Z]{1,2}\d{1,2})?)$/;

const no: Refused = {
  ok: false,
  why: 'write a fit and a size up to 500 mm, such as H7 60 mm or H7/g6 60 mm',
  nearest: 'H7/g6 60 mm',
};

const limitsJson = (f: FitLimits): object => ({
  name: f.name,
  lower: f.lower,
  upper: f.upper,
  least: f.least,
  most: f.most,
});

/** `H7 60`, `H7/g6 60 mm`, `60 H7`: limits of a hole, a shaft or both. */
export const lookFit = (what: string): Looked => {
  const t = what.trim().slice(0, 60);
  const a = words.exec(t);
  const b = a === null ? turned.exec(t) : null;
  const name = a?.[1] ?? b?.[2];
  const size = parseLength(a?.[2]?.replace(/^[ ,]*(?:at )?/, '') ?? b?.[1] ?? '', 1);
  if (name === undefined || !size.ok) return no;
  const pair = name.includes('/') ? isoFitPair(name, size.value) : null;
  const single = name.includes('/') ? null : isoFit(name, size.value);
  const parts = pair === null ? (single === null ? [] : [single]) : [pair.hole, pair.shaft];
  const [first] = parts;
  if (first === undefined) return no;
  const micrometres = (mm: number): string => (mm * 1000).toFixed(0);
  return {
    ok: true,
    kind: 'fit',
    json: {
      name,
      nominal: size.value,
      parts: parts.map(limitsJson),
      clearance: pair === null ? null : { least: pair.least, most: pair.most },
      source: first.source,
    },
    report: [
      answer(
        pair === null
          ? `${name} at ${both(size.value)}: ${both(first.least)} to ${both(first.most)}`
          : pair.most <= 0
            ? `${name} at ${both(size.value)}: the shaft is larger by ${both(-pair.most)} to ${both(-pair.least)}`
            : pair.least < 0
              ? `${name} at ${both(size.value)}: from ${both(-pair.least)} tight to ${both(pair.most)} clear`
              : `${name} at ${both(size.value)}: clear by ${both(pair.least)} to ${both(pair.most)}`,
      ),
      table(
        null,
        [left(''), figures('Lower, µm'), figures('Upper, µm'), figures('Least, mm'), figures('Most, mm')],
        parts.map((f) => [f.name, micrometres(f.lower), micrometres(f.upper), f.least.toFixed(3), f.most.toFixed(3)]),
      ),
      source(first.source),
    ],
  };
};

/** Words that the two standards use for the same three holes. */
const fits = {
  close: 'close',
  fine: 'close',
  normal: 'normal',
  medium: 'normal',
  loose: 'loose',
  coarse: 'loose',
  free: 'loose',
} as const;
const isFit = (word: string): word is keyof typeof fits => Object.hasOwn(fits, word);

/** `M10`, `3/8-16 UNC close`: the clearance holes of a thread. A fit alone (`M10 coarse`) is read as the fit. */
export const lookClearance = (what: string): Looked => {
  const words = what.trim().split(/[ ,]/);
  const last = words.length > 1 ? (words.at(-1) ?? '').toLowerCase() : '';
  const thread = isFit(last) ? words.slice(0, -1).join(' ') : what;
  const named = parseThread(thread);
  // A clearance hole goes by the diameter: 3/8 is one hole whatever its pitch.
  const t = named ?? threadsOfSize(thread)[0] ?? null;
  if (t === null) return noThread(thread);
  const title = named === null ? `${thread.trim().slice(0, 40)} screws of any pitch` : t.name;
  const fit = isFit(last) ? fits[last] : 'normal';
  const holes = clearanceFits.map((f) => clearanceHole(t, f));
  const chosen = clearanceHole(t, fit);
  return {
    ok: true,
    kind: 'clearance',
    json: {
      thread: t.name,
      fit,
      diameter: chosen.diameter,
      drill: chosen.drill?.name ?? null,
      holes: holes.map((h) => ({
        fit: h.fit,
        diameter: h.diameter,
        most: h.most,
        drill: h.drill === null ? null : { name: h.drill.name, diameter: h.drill.diameter },
      })),
      source: chosen.source,
    },
    report: [
      answer(
        `${title}, ${fit} fit: ${both(chosen.diameter)}${chosen.drill === null ? '' : `, drill ${chosen.drill.name}`}`,
      ),
      table(
        null,
        [
          left('Fit'),
          figures('Least, mm'),
          figures('Least, in'),
          figures('Most, mm'),
          figures('Most, in'),
          left('Drill'),
        ],
        holes.map((h) => [h.fit, ...mmAndInch(h.diameter), ...mmAndInch(h.most), h.drill?.name ?? 'bored']),
      ),
      source(chosen.source),
    ],
  };
};

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
