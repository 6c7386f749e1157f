import { type Speech, forReader, sayAll } from '@fayplate/core';
import type { Place } from '../checks/places.js';
import { farthestFirst } from '../checks/rigid.js';

const MIRRORED = 'Distances are the same on a plate drilled as its mirror image.';

/** What settles it, as the end of a sentence. */
export const handCure = (words: string | null): string | null => {
  const cure = words?.replace(MIRRORED, '').trim().replace(/\.$/, '') ?? null;
  return cure === null ? null : cure.charAt(0).toLowerCase() + cure.slice(1);
};

/** Three holes far apart and not in line, to be looked at or touched in one set-up. */
export const handWords = (places: readonly Place[], speech: Pick<Speech, 'atBench'>): string => {
  const three = wideTriangle(places.filter((p) => p.kind === 'hole'));
  if (three.length < 3) return 'With fewer than three holes the plate and its mirror image are the same.';
  const ids = three.map((p) => p.id);
  const where = forReader(
    `write where three holes are seen (clocks: { ${ids.map((id) => `${id}: …`).join(', ')} })`,
    `write down by the clock where ${sayAll(ids)} are seen`,
    speech,
  );
  return (
    `${MIRRORED} Mark side B, look at it, and ${where}, or take ` +
    `${ids.map((id) => `“at ${id}”`).join(', ')} in one set-up.`
  );
};

/** The three places of widest triangle: the farthest pair and the one farthest from their line. */
const wideTriangle = (places: readonly Place[]): readonly Place[] => {
  const [pair] = farthestFirst(places);
  const [a, b] = pair === undefined ? [] : [places[pair[0]], places[pair[1]]];
  if (a === undefined || b === undefined) return places;
  const off = (p: Place): number => Math.abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x));
  const third = places.reduce((best, p) => (off(p) > off(best) ? p : best), a);
  return off(third) < 1e-6 ? [a, b] : [a, b, third];
};
