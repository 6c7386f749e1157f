import type { Point } from '@fayplate/core';
import type { PrinterScale } from '@fayplate/drawing';
import { type Affine, carry, chain, inverse, shifted } from '../geometry/affine.js';

/** One ruler: what it should be and what it measures, mm. */
export interface Measured {
  readonly nominal: number;
  readonly measured: number;
}

/** What was measured on the calibration sheet; mm. */
export interface PrinterReadings {
  readonly name: string;
  readonly wide: Measured;
  readonly high: Measured;
  /** Both diagonals of the calibration sheet's rectangle: rising from lower left, falling from upper left. */
  readonly diagonals: {
    readonly width: number;
    readonly height: number;
    readonly rising: number;
    readonly falling: number;
  } | null;
  /** ± of one measured length, mm. */
  readonly plusMinus: number;
  readonly date: string;
  readonly paper: string;
}

/** A kept profile, or what is wrong with it. */
export type ProfileRead =
  | { readonly ok: true; readonly profile: PrinterScale }
  | { readonly ok: false; readonly faults: readonly string[] };

/** A printer's own error is well below this; more means that something scaled the page on purpose. */
const MOST = 0.03;

const percent = (v: number): string => `${(100 * v).toFixed(1)} %`;

const tooMuch = (what: string, error: number): readonly string[] =>
  Math.abs(error) <= MOST * (1 + 1e-9)
    ? []
    : [
        `${what} is off by ${percent(error)}, and no printer errs by more than ${percent(MOST)}: the viewer or the ` +
          'driver scaled the page. ' +
          "Print again at 'actual size' or 100 %, with 'fit to page' switched off, and measure again.",
      ];

/** A ± of this share or more says nothing of a printer: its whole error is seldom a tenth of that. */
const VAGUE = 0.01;

/** What is wrong with a profile before any page is corrected by it: nothing, in the best case. */
export const profileFaults = (p: PrinterScale): readonly string[] => {
  if (![p.wide, p.high, p.skew].every(Number.isFinite) || p.wide <= 0 || p.high <= 0)
    return [`the profile of printer '${p.name}' holds a scale that is no positive number: measure its rulers again`];
  const bands = [p.plusMinus.wide, p.plusMinus.high, p.plusMinus.skew ?? 0];
  if (!bands.every((b) => b >= 0 && b < VAGUE))
    return [
      `the rulers of printer '${p.name}' are measured to ${percent(Math.max(...bands))} only, which says nothing ` +
        'of a printer: measure them again to half a millimetre or better, and give that as the ±',
    ];
  return [
    ...tooMuch('the ruler across the sheet', p.wide - 1),
    ...tooMuch('the ruler up the sheet', p.high - 1),
    ...tooMuch('the squareness of the sheet', Math.tan(p.skew)),
  ];
};

/**
 * A profile from ruler readings. The skew comes from the two diagonals of a rectangle w × h: printed, their squares
 * differ by 4 (w·wide)(h·high) sin skew.
 */
export const printerProfile = (r: PrinterReadings): ProfileRead => {
  const lengths = [
    r.wide.nominal,
    r.wide.measured,
    r.high.nominal,
    r.high.measured,
    ...(r.diagonals === null ? [] : Object.values(r.diagonals)),
  ];
  if (!lengths.every((v) => Number.isFinite(v) && v > 0) || !(r.plusMinus >= 0))
    return { ok: false, faults: ['every ruler length must be above zero, and its ± at least zero'] };
  const wide = r.wide.measured / r.wide.nominal;
  const high = r.high.measured / r.high.nominal;
  const d = r.diagonals;
  const area = d === null ? 1 : d.width * wide * d.height * high;
  const sine = d === null ? 0 : (d.rising ** 2 - d.falling ** 2) / (4 * area);
  const profile: PrinterScale = {
    name: r.name,
    wide,
    high,
    skew: Math.asin(Math.min(1, Math.max(-1, sine))),
    plusMinus: {
      wide: r.plusMinus / r.wide.nominal,
      high: r.plusMinus / r.high.nominal,
      skew: d === null ? null : (r.plusMinus * Math.hypot(d.rising, d.falling)) / (2 * area),
    },
    date: r.date,
    paper: r.paper,
  };
  const faults = profileFaults(profile);
  return faults.length > 0 ? { ok: false, faults } : { ok: true, profile };
};

/** Nominal → printed: lengths across grow by `wide`; an upright of length 1 comes out `high` long and leaning. */
export const printedBy = (p: Pick<PrinterScale, 'wide' | 'high' | 'skew'>): Affine => [
  p.wide,
  0,
  p.high * Math.sin(p.skew),
  p.high * Math.cos(p.skew),
  0,
  0,
];

/** Page mm → page mm that this printer brings back to true, about the middle of the page so that margins move least. */
export const correctionFor = (
  p: Pick<PrinterScale, 'wide' | 'high' | 'skew'>,
  page: { readonly width: number; readonly height: number },
): Affine =>
  chain(
    chain(shifted(-page.width / 2, -page.height / 2), inverse(printedBy(p))),
    shifted(page.width / 2, page.height / 2),
  );

/**
 * The same printer as seen from a sheet that is laid across: its x runs up the paper, and an upright leans the other
 * way.
 */
export const laidAcross = (p: PrinterScale): PrinterScale => ({
  ...p,
  wide: p.high,
  high: p.wide,
  skew: -p.skew,
  plusMinus: { wide: p.plusMinus.high, high: p.plusMinus.wide, skew: p.plusMinus.skew },
});

/** How far a correction may push the page's edge outwards, mm: margins are kept at least this wide. */
export const pushedOut = (p: PrinterScale, page: { readonly width: number; readonly height: number }): number => {
  const correct = correctionFor(p, page);
  const corners = [0, page.width].flatMap((x) => [0, page.height].map((y) => carry(correct, { x, y })));
  return Math.max(0, ...corners.flatMap((c) => [-c.x, -c.y, c.x - page.width, c.y - page.height]));
};

/** A reading of a steel rule against a printed scale: half of its millimetre, common practice. */
const RULE_PLUS_MINUS = 0.25;
/** The eye laying one half of a mark on the other, per join, mm: common practice. */
const JOIN_PLUS_MINUS = 0.2;

export interface Remaining {
  /** ±, mm. */
  readonly off: number;
  readonly hole: string | null;
  /** Distance of that hole from the middle of the pattern, mm. */
  readonly reach: number;
}

/**
 * How far the farthest hole can still lie from its true place, measured from the middle of the holes: the ± of the
 * scale along and up, of the skew where it was measured, and of the joins crossed, taken together as the root of their
 * squares. Without a profile the ± is that of checking the sheet's own rulers (`ruler` mm long) with a rule.
 */
export const remainingError = (
  holes: readonly { readonly id: string; readonly at: Point }[],
  profile: PrinterScale | null,
  rulers: { readonly wide: number; readonly high: number },
  joins: { readonly across: number; readonly up: number },
): Remaining => {
  const xs = holes.map((h) => h.at.x);
  const ys = holes.map((h) => h.at.y);
  const middle = { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2 };
  const pm = profile?.plusMinus ?? {
    wide: RULE_PLUS_MINUS / rulers.wide,
    high: RULE_PLUS_MINUS / rulers.high,
    skew: null,
  };
  // Half of the joins at most lie between the middle and a hole.
  const crossed = Math.ceil(joins.across / 2) + Math.ceil(joins.up / 2);
  const offs = holes.map((h) => {
    const dx = h.at.x - middle.x;
    const dy = h.at.y - middle.y;
    return {
      hole: h.id,
      reach: Math.hypot(dx, dy),
      off: Math.hypot(dx * pm.wide, dy * pm.high, dy * (pm.skew ?? 0), JOIN_PLUS_MINUS * Math.sqrt(crossed)),
    };
  });
  return offs.reduce<Remaining>((worst, o) => (o.off > worst.off ? o : worst), { off: 0, hole: null, reach: 0 });
};
