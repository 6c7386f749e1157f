import type { Candidate } from '../types.js';
import { isSquareOfFour } from './same.js';

interface Stated {
  readonly divisions: number;
  readonly about: string | null;
  readonly features: readonly string[];
}

/** The `layout:` line that states a candidate's circles and their divisions without their sizes; null where the job file has no words for all of it. */
export const stateWithoutSizes = (c: Candidate, centre: string | null): string | null => {
  const others =
    c.arrays.some((a) => !isSquareOfFour(a)) || c.grid !== null || c.mirror?.said === true || c.opposite !== null;
  const divided = [...c.circles, ...c.arrays.map((a) => ({ ...a, divisions: 4 }))].flatMap((k): readonly Stated[] =>
    k.divisions === null ? [] : [{ ...k, divisions: k.divisions }],
  );
  // Left out, `about` means the face's centre: a circle about its own cannot be told from it.
  if (
    others ||
    divided.length === 0 ||
    divided.length < c.circles.length + c.arrays.length ||
    divided.some((k) => k.about === null && centre !== null)
  )
    return null;
  const alone = divided.length === 1 && c.asMeasured.length === 0;
  const circles = divided.map((k) => {
    const about = k.about === centre ? '' : `, about: ${k.about ?? ''}`;
    return `{ divisions: ${k.divisions}${about}${alone ? '' : `, features: [${k.features.join(', ')}]`} }`;
  });
  return `layout: ${alone ? (circles[0] ?? '') : `{ circles: [${circles.join(', ')}] }`}`;
};
