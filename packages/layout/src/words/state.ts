import type { Candidate } from '../types.js';

/** The `layout:` line that states a candidate's circles and their divisions without their sizes; null where the job file has no words for all of it. */
export const stateWithoutSizes = (c: Candidate, centre: string | null): string | null => {
  const others = c.arrays.length > 0 || c.grid !== null || c.mirror?.said === true || c.opposite !== null;
  // Left out, `about` means the face's centre: a circle about its own cannot be told from it.
  if (others || c.circles.length === 0 || c.circles.some((k) => k.divisions === null || (k.about === null && centre !== null))) return null;
  const alone = c.circles.length === 1 && c.asMeasured.length === 0;
  const circles = c.circles.map((k) => {
    const about = k.about === centre ? '' : `, about: ${k.about ?? ''}`;
    return `{ divisions: ${k.divisions ?? ''}${about}${alone ? '' : `, features: [${k.features.join(', ')}]`} }`;
  });
  return `layout: ${alone ? (circles[0] ?? '') : `{ circles: [${circles.join(', ')}] }`}`;
};
