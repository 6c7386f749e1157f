import type { Speech } from '@fayplate/core';
import type { Face, FeatureKind } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import { statedLayout } from '../stated.js';
import type { FaceLayout } from '../types.js';
import { usedPattern } from '../used.js';
import { sayLayout } from './candidate.js';
import { sayOdds } from './odds.js';

/** What becomes of the layout that the job asks for or states itself; null where the plate goes by the measured centres. */
export const sayAsked = (
  face: Face,
  located: LocatedFace,
  layout: FaceLayout,
  kindOf: (id: string) => FeatureKind,
  speech: Speech,
): string | null => {
  const { layout: spec } = face;
  if (spec.kind === 'measured') return null;
  const used = usedPattern(face, located, layout, speech);
  if (spec.kind === 'intended')
    return used.ok
      ? 'The plate uses these positions, for the job says `layout: intended`.'
      : `The job says \`layout: intended\`, and no plate is made by it: ${used.why}.`;
  if (!used.ok) return `The job states a layout, and no plate is made by it: ${used.why}.`;
  const stated = statedLayout(face, located, spec);
  if (!stated.ok) return null;
  const { candidate } = stated;
  const fits =
    candidate.p === null
      ? 'nothing in the readings could speak against it'
      : `a fit as bad would come by chance ${sayOdds(candidate.p)} times`;
  return `The plate uses the layout that the job states, ${sayLayout(candidate, kindOf, speech)}: ${fits}.`;
};
