import {
  type LengthUnit,
  type Parsed,
  type Point,
  parseLength,
  parseLengthBand,
  parsed,
  perUnit,
  refused,
} from '@fayplate/core';
import type { RimPoint } from '../types.js';
import { parsePlace } from './point.js';

const least = { arc: 3, line: 2 } as const;
/** Places of one trace: the search for the fewest lines and arcs grows with their square. */
const MOST = 150;

/** Places one behind another, each in its brackets. */
const placesIn = (text: string, unit: LengthUnit): Parsed<readonly Point[]> => {
  const points: Point[] = [];
  let rest = text.trim();
  while (rest !== '') {
    const end = rest.indexOf(')');
    if (!rest.startsWith('(') || end === -1) return refused('places in brackets, such as (12.5, -40) (14, -38)');
    const place = parsePlace(rest.slice(0, end + 1), unit);
    if (!place.ok) return place;
    points.push(place.value.point);
    rest = rest.slice(end + 1).trim();
  }
  return parsed(points);
};

/** Places all round a part, or along some of it, of which nobody has said what they lie on. */
export interface Trace {
  readonly trace: readonly Point[];
  /** ± of one place, mm. */
  readonly within: number;
}

/** `fillet 8 mm` between two pieces: the radius that leads from the one to the other. */
export interface Fillet {
  readonly between: number;
}

const aTrace = 'trace ± 0.2 mm (x, y) (x, y) (x, y) (x, y): the ± of one place, then the places in order';

/** `± 0.2 mm (x, y) (x, y) …`, the ± before the places or behind them. */
const traceOf = (text: string, unit: LengthUnit): Parsed<Trace> => {
  const [open, close] = [text.indexOf('('), text.lastIndexOf(')')];
  if (open === -1 || close === -1) return refused(aTrace);
  const band = text.slice(0, open).trim() || text.slice(close + 1).trim();
  if (band === '') return refused(aTrace);
  const within = parseLengthBand(band, unit);
  if (!within.ok) return within;
  const places = placesIn(text.slice(open, close + 1), unit);
  if (!places.ok) return places;
  if (places.value.length < 4) return refused('at least four places along a trace');
  return places.value.length > MOST
    ? refused(`at most ${MOST} places along a trace`)
    : parsed({ trace: places.value, within: within.value });
};

/**
 * One piece of a rim: `(x, y)`, `round S1 14 mm` (its radius), `round bore 236 mm across`, `arc (x, y) (x, y) (x, y)`,
 * `line (x, y) (x, y)`. Arcs and lines are fitted to the places touched along them, and end where they meet their
 * neighbours.
 */
export const parseRim = (text: string, unit: LengthUnit): Parsed<RimPoint | Trace | Fillet> => {
  const rounded = /^fillet +(\S.*)$/i.exec(text);
  if (rounded !== null) {
    const radius = parseLength(rounded[1] ?? '', perUnit(unit));
    if (!radius.ok) return radius;
    return radius.value > 0 ? parsed({ between: radius.value }) : refused('a radius above zero');
  }
  if (/^trace(?= |\()/i.test(text)) return traceOf(text.slice('trace'.length).trim(), unit);
  const lobe = /^round +(\S+) +(\S.*)$/i.exec(text);
  if (lobe !== null) {
    const size = lobe[2] ?? '';
    const across = / across$/i.test(size);
    const length = parseLength(across ? size.slice(0, -' across'.length) : size, perUnit(unit));
    if (!length.ok) return length;
    if (length.value <= 0) return refused(across ? 'a diameter above zero' : 'a radius above zero');
    return parsed({ round: lobe[1] ?? '', radius: across ? length.value / 2 : length.value });
  }
  const along = /^(arc|line)(?= |\()/i.exec(text)?.[1]?.toLowerCase();
  if (along === 'arc' || along === 'line') {
    const points = placesIn(text.slice(along.length), unit);
    if (!points.ok) return points;
    return points.value.length < least[along]
      ? refused(`at least ${least[along] === 3 ? 'three' : 'two'} places touched along the ${along}`)
      : parsed({ along, points: points.value });
  }
  const place = parsePlace(text, unit);
  return place.ok
    ? parsed({ at: place.value.point })
    : refused(
        'a place such as (12.5, -40), round S1 14 mm, arc (x, y) (x, y) (x, y), line (x, y) (x, y), trace ± 0.2 mm ' +
          '(x, y) …, or fillet 8 mm between two of them',
      );
};
