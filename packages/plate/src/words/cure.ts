import { type Speech, forReader, say, toDegrees } from '@fayplate/core';
import type { Cure, Step } from '../types.js';

/** Degrees as few places as they need, two at most. */
export const sayDegrees = (radians: number): string => `${Number(toDegrees(radians).toFixed(2))}°`;

/** A cure as an order: `turn 4°`, `use M8`, `make the plate 24 mm thick`. */
export const sayCure = (cure: Cure | Step, speech: Speech): string => {
  switch (cure.kind) {
    case 'turn':
      return `turn ${sayDegrees(Math.abs(cure.by))} ${cure.by < 0 ? 'anticlockwise' : 'clockwise'}`;
    case 'thickness':
      return `make the plate ${say(cure.to, speech, speech.unit === 'in' ? 3 : 1)} thick`;
    case 'thread':
      return `use ${cure.thread} for ${cure.face}`;
    case 'fit':
      return `use the ${cure.fit} fit for ${cure.face}`;
    case 'margin':
      return `make the margin ${say(cure.to, speech, speech.unit === 'in' ? 3 : 1)}`;
    case 'together':
      return cure.steps.map((step) => sayCure(step, speech)).join(' and ');
    default:
      return cure.written === undefined
        ? cure.says
        : forReader(`${cure.says} (\`${cure.written}\`)`, cure.says, speech);
  }
};
