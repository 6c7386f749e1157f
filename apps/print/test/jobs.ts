import { identity } from '@fayplate/core';
import { type Gasket, type MatedFace, gasketsOf } from '@fayplate/plate';
import { type PrintInput, type PrintOptions, type Printed, type TemplateWish, printTemplates } from '../src/index.js';
import { options, pumpPlate } from './plates.js';

const bare = (face: string, side: 'A' | 'B'): MatedFace => ({
  face,
  side,
  centre: { x: 0, y: 0 },
  motion: identity,
  axis: null,
  radiusSigmas: new Map(),
  pattern: { ids: [], points: [], radii: [], covariance: [] },
});

export const mated: readonly MatedFace[] = [bare('pump', 'A'), bare('motor', 'B')];

const punches = [8, 11, 12].map((d) => ({ name: `${d} mm`, diameter: d }));

export const input: PrintInput & { readonly mated: readonly MatedFace[] } = {
  job: {
    name: 'Heron Lane lift pump',
    faces: [],
    gaskets: [
      { face: 'pump', holeClearance: 0.8, bore: 92, outline: 'plate' },
      { face: 'motor', holeClearance: 0.4, bore: 82, outline: 'follow' },
    ],
    machine: {
      step: null,
      topSpeed: null,
      screwPitch: null,
      backlash: null,
      drills: null,
      punches,
      reamers: null,
      dividingHead: null,
      tip: null,
      blank: null,
      allowance: null,
      safePlane: null,
      room: null,
      clamps: [],
    },
  },
  plate: pumpPlate,
  mated,
};

export const gaskets = (): readonly Gasket[] => {
  const read = gasketsOf({ ...input, benches: new Map() });
  if (!read.ok) throw new Error(read.faults.join('; '));
  return read.gaskets;
};

/** The pump's plate printed; throws where it is refused. */
export const printed = async (more: Partial<PrintOptions & TemplateWish> = {}): Promise<Printed> => {
  const out = await printTemplates(input, { ...options, what: 'drill', side: 'B', ...more });
  if (!out.ok) throw new Error(out.faults.join('; '));
  return out;
};

/** Why it is refused; none where it is not. */
export const refused = async (more: Partial<PrintOptions & TemplateWish>): Promise<readonly string[]> => {
  const out = await printTemplates(input, { ...options, what: 'drill', side: 'B', ...more });
  return out.ok ? [] : out.faults;
};
