import type { Speech } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import { sayAbout } from '../prior/length.js';
import type { Candidate, LaidCircle } from '../types.js';
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

/** What a candidate says in one line; sizes that are no round figure in the unit of `speech`. */
export const sayLayout = (parts: Parts, kindOf: (id: string) => FeatureKind, speech: Speech): string => {
  const said = parts.circles.map((c) => sayCircle(c, kindOf, speech));
  const rest = parts.asMeasured.length === 0 ? [] : [`${sayList(parts.asMeasured)} as measured`];
  return [...said, ...rest].join('; ');
};
