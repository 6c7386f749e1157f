import { chiSquareTail } from '@fayplate/core';
import { laidBy } from '../groups/group.js';
import type { Measured } from '../measured/points.js';
import type { Drafted } from './weigh.js';

const FITS = 0.01;

/** Whether one group fixes every fastener's place against the others and fits: then nothing is left for rough work to explain. */
export const isPlain = (c: Drafted | undefined, measured: Measured): boolean => {
  const [group, other] = c?.groups ?? [];
  if (
    c === undefined ||
    group === undefined ||
    other !== undefined ||
    laidBy(group, measured).length < measured.fasteners.length
  )
    return false;
  if (group.kind !== 'divided' && group.kind !== 'array' && group.kind !== 'grid') return false;
  const dof = 2 * c.construction.places.size - c.adjusted.parameters.length;
  return chiSquareTail(c.adjusted.chi2, dof) >= FITS;
};

/** Equal divisions that beat the same circle undivided by this much leave no room for a weaker rule of the same holes, nats. */
const DECIDED = 12;

/** Whether equal divisions of one circle so plainly make the whole face that symmetries and compositions of several groups need not be looked at. */
export const isDecided = (first: Drafted | undefined, alone: readonly Drafted[], measured: Measured): boolean => {
  if (first === undefined || !isPlain(first, measured) || first.groups[0]?.kind !== 'divided') return false;
  const rings = alone.filter(
    (d) => d.groups[0]?.kind === 'circle' && d.groups[0].members.length === measured.fasteners.length,
  );
  return rings.length > 0 && rings.every((d) => first.base - d.base > DECIDED);
};
