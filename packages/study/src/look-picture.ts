import { type Speech, speechFor } from '@fayplate/core';
import { standardFace } from '@fayplate/handbook';
import type { Lettering } from '@fayplate/drawing';

/**
 * A standard face drawn at true scale, as SVG in millimetres, by its name (`IEC FF165`); null where none is held under
 * it. The drawing code is loaded only here.
 */
export const standardFaceSvg = async (
  name: string,
  letters: Lettering,
  speech: Speech = speechFor('mm'),
): Promise<string | null> => {
  const face = standardFace(name);
  if (face === null) return null;
  const [{ standardPicture }, { drawn }] = await Promise.all([import('@fayplate/pictures'), import('./drawn.js')]);
  return drawn(standardPicture(face, speech, letters), letters);
};
