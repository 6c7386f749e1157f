import { type Speech, formatDegrees, say } from '@fayplate/core';

export type Measures = 'length' | 'angle';

/** A quantity in its own unit: a length as the person reads lengths (never as a fraction, whose step would hide it), an angle in degrees. */
export const sayAmount = (value: number, measures: Measures, speech: Speech): string =>
  measures === 'angle' ? `${formatDegrees(value, 2)}°` : say(value, { ...speech, fraction: null });
