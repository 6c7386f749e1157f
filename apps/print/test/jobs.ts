import { circlePath } from '@fayplate/core';
import { type Gasket, type PrintInput, type PrintOptions, type Printed, type TemplateWish, printTemplates } from '../src/index.js';
import { options, pumpPlate } from './plates.js';

const eased = (from: number, to: number, diameter: number): Gasket['holes'] =>
  pumpPlate.holes.slice(from, to).map((h) => ({ id: h.id, feature: h.feature, x: h.x, y: h.y, diameter }));

export const gaskets: readonly Gasket[] = [
  { face: 'pump', outline: circlePath({ x: 0, y: 0 }, 118), holes: eased(0, 7, 10.8), bore: { x: 0, y: 0, diameter: 92 } },
  { face: 'motor', outline: circlePath({ x: 0, y: 0 }, 82), holes: eased(7, 11, 10.4), bore: { x: 0, y: 0, diameter: 82 } },
];

export const input: PrintInput = {
  job: { name: 'Heron Lane lift pump' },
  plate: pumpPlate,
  gaskets,
  punches: [
    { name: '8 mm', diameter: 8 },
    { name: '11 mm', diameter: 11 },
    { name: '12 mm', diameter: 12 },
  ],
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
