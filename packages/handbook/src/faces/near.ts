import { distance } from 'fastest-levenshtein';
import type { StandardFace } from './face.js';
import { standardFaces } from './list.js';

const plain = (text: string): string => text.toLowerCase().replace(/[^a-z0-9./]/g, '');
const lettersAndNumber = /^(.*?[a-z])(\d{1,4}(?:\.\d)?)([a-z]{0,3})$/;

const piecesOf = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/[^a-z0-9.]+/)
    .filter((piece) => piece !== '');

/** Of the letters asked for, no more than this share may have to change. */
const CHANGED = 0.5;

/**
 * Names close to one that is not held, nearest first: those that have all its words, those of the same letters by the
 * nearest number, then those with the fewest letters changed. None where nothing comes close.
 */
export const namesNear = (text: string, most = 3): readonly string[] => {
  const asked = plain(text.slice(0, 60));
  if (asked === '') return [];
  const wanted = lettersAndNumber.exec(asked);
  const words = piecesOf(text.slice(0, 60));
  const off = (name: string): number => {
    const p = plain(name);
    if (words.every((word) => piecesOf(name).includes(word))) return -1;
    const has = wanted === null ? null : lettersAndNumber.exec(p);
    if (wanted !== null && has !== null && has[1] === wanted[1] && has[3] === wanted[3])
      return -1 / (1 + Math.abs(Number(has[2]) - Number(wanted[2])));
    return distance(asked, p);
  };
  return standardFaces()
    .map((f) => ({ name: f.name, off: Math.min(...[f.name, ...f.also].map(off)) }))
    .filter((f) => f.off <= CHANGED * asked.length)
    .toSorted((a, b) => a.off - b.off)
    .slice(0, most)
    .map((f) => f.name);
};

/** What is known of a face by measuring it, mm. */
export interface FaceSizes {
  readonly circle: number;
  readonly count: number | null;
  readonly register: number | null;
}

/** A face near to some sizes, and how far its circle is from the one asked for, mm. */
export interface NearFace {
  readonly face: StandardFace;
  readonly off: number;
}

/** Faces by nearness of size, nearest first: those with the number of holes asked for, by circle, then by register. */
export const facesNear = (sizes: FaceSizes, most = 6): readonly NearFace[] => {
  const score = (f: StandardFace): number =>
    Math.abs(Math.log(f.holes.circle / sizes.circle)) +
    (sizes.register === null || f.register === null ? 0 : Math.abs(Math.log(f.register.nominal / sizes.register)));
  return standardFaces()
    .filter((f) => sizes.count === null || f.holes.count === sizes.count)
    .toSorted((a, b) => score(a) - score(b))
    .slice(0, most)
    .map((face) => ({ face, off: face.holes.circle - sizes.circle }));
};
