import type { Speech } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import { sayAbout } from '../prior/length.js';
import type { Candidate, LaidArray, LaidCircle } from '../types.js';
import { sayFasteners, sayList } from './fasteners.js';

type Parts = Pick<Candidate, 'circles' | 'arrays' | 'grid' | 'mirror' | 'opposite' | 'asMeasured'>;

const sayCircle = (c: LaidCircle, kindOf: (id: string) => FeatureKind, speech: Speech): string => {
  const who = sayFasteners(c.features.map(kindOf));
  const size = c.size === null ? `circle of ${sayAbout(c.diameter, speech)}` : `${c.size} circle`;
  const article = c.size !== null && /^(?:8|11\b|18\b)/.test(c.size) ? 'an' : 'a';
  const where = c.about === null ? 'about its own centre' : `about ${c.about}`;
  if (c.divisions === null) return `${who} on ${article} ${size} ${where}, not equally divided`;
  if (c.divisions === c.features.length) return c.divisions === 2 ? `${who} opposite each other on ${article} ${size} ${where}` : `${who} equally divided on ${article} ${size} ${where}`;
  return `${who} of ${c.divisions} equal divisions on ${article} ${size} ${where}`;
};

const sayArray = (a: LaidArray, kindOf: (id: string) => FeatureKind, speech: Speech): string => {
  const who = sayFasteners(a.features.map(kindOf));
  const size = (k: 0 | 1): string => a.size[k] ?? sayAbout(a.pitch[k] ?? 0, speech);
  const where = a.about === null ? 'about its own centre' : `about ${a.about}`;
  const places = a.columns * a.rows;
  const taken = a.features.length === places ? '' : ` with ${places - a.features.length} of ${places} places vacant`;
  if (a.rows === 1) return `${who} in a row, ${size(0)} apart${taken}, ${where}`;
  const square = a.size[0] === a.size[1] && Math.abs((a.pitch[0] ?? 0) - (a.pitch[1] ?? 0)) < 1e-9;
  if (a.columns === 2 && a.rows === 2) return `${who} at the corners of a ${square ? `${size(0)} square` : `rectangle ${size(0)} × ${size(1)}`}${taken} ${where}`;
  return `${who} in ${a.columns} columns and ${a.rows} rows, ${square ? `${size(0)} apart` : `${size(0)} and ${size(1)} apart`}${taken}, ${where}`;
};

/** What a candidate says in one line; sizes that are no round figure in the unit of `speech`. */
export const sayLayout = (parts: Parts, kindOf: (id: string) => FeatureKind, speech: Speech): string => {
  const { grid, mirror, opposite, asMeasured } = parts;
  const mirrored = mirror === null ? [] : ['symmetrical about a line'];
  const said = [
    ...parts.circles.map((c) => sayCircle(c, kindOf, speech)),
    ...parts.arrays.map((a) => sayArray(a, kindOf, speech)),
    ...(grid === null ? [] : [`${sayFasteners(grid.features.map(kindOf))} at whole multiples of ${grid.says} from ${grid.from}`]),
    ...(opposite === null ? [] : [`${sayFasteners(opposite.map(kindOf))} in opposite pairs`]),
    ...mirrored,
    ...(asMeasured.length === 0 ? [] : [`${sayList(asMeasured)} as measured`]),
  ];
  return said.join('; ');
};
