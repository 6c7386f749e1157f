import { type Requirement, notKnown } from '@fayplate/core';
import type { Face } from '@fayplate/job';

/** A part that is known by a seller's figures alone keeps every answer from Yes and from No. */
export const notAtHand = (face: Face): readonly Requirement[] =>
  face.seller == null
    ? []
    : [
        notKnown(
          'not-at-hand',
          'part not at hand',
          `${face.name} is not at hand: its figures are a seller's, and no metal is to be cut to those`,
          '`fayplate buy` says with what odds a plate can exist, and what to ask for; once the part is there, ' +
            'measure it and take `seller` out',
        ),
      ];
