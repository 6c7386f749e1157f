import type { LengthUnit } from '@fayplate/core';
import type { TableRow } from '../types.js';
import { dimension } from './block.js';

/** Deeper than this many diameters a drill is withdrawn to clear its chips (common practice). */
const PECK_BEYOND = 3;

/** Dwell at the bottom of a flat or conical seat, as seconds; where a control reads milliseconds it is merely none. */
const DWELL = 'P0.5';

/**
 * The canned cycle of a row (ISO 6983-1): G81 drill, G82 with a dwell, G83 with chips cleared every diameter, G84 tap, G85 feed out again as well.
 * Null for cuts that a person makes at the place: boring heads and milling.
 */
export const cycleWords = (row: TableRow, unit: LengthUnit, dry: boolean): readonly string[] | null => {
  switch (row.op) {
    case 'turn':
    case 'bore':
    case 'mill':
      return null;
    case 'pilot':
    case 'drill':
      return row.depth > PECK_BEYOND * row.toolDiameter ? ['G83', dimension('Q', row.toolDiameter, unit)] : ['G81'];
    case 'tap':
      return dry ? ['G81'] : ['G84'];
    case 'ream':
      return ['G85'];
    case 'spot':
      return ['G81'];
    default:
      return ['G82', DWELL];
  }
};
