import { type Lettering, type Picture, captioned, svg } from '@fayplate/drawing';

/**
 * A picture with its words under it, as SVG. Apart, so that it is loaded late and what else draws is left out where
 * nothing asks for it.
 */
export const drawn = (picture: Picture, letters: Lettering): string => svg(captioned(picture, letters), letters);
