import { makeBores } from './bores/bores.js';
import type { Desk } from './desk.js';
import { drawOutline } from './outline/outline.js';
import type { Cut } from './solids/cut.js';
import { boreCut, holeCut } from './solids/ofPlate.js';
import { type HolesMade, makeHoles } from './treat/holes.js';
import type { Outline, PlateBore, PlateHole } from './types.js';

/** A plate drawn but not yet checked. */
export interface Draft {
  readonly desk: Desk;
  readonly holes: readonly PlateHole[];
  readonly bores: readonly PlateBore[];
  readonly cuts: readonly Cut[];
  readonly outline: Omit<Outline, 'mass'>;
  readonly made: HolesMade;
}

export type Drafted = { readonly ok: true; readonly draft: Draft } | { readonly ok: false; readonly faults: readonly string[] };

/** Whether something of this feature's face turns with the clocking: the second face's. */
const turnsWith = (desk: Desk, feature: string | null): boolean => feature !== null && feature.startsWith(`${desk.faces[1].name}.`);

export const cutsOf = (desk: Desk, holes: readonly PlateHole[], bores: readonly PlateBore[]): readonly Cut[] => [
  ...holes.map((h) => holeCut(h, turnsWith(desk, h.feature))),
  ...bores.flatMap((b) => boreCut(b, desk.thickness, turnsWith(desk, b.feature)) ?? []),
];

export const drawDraft = (desk: Desk): Drafted => {
  const { bores, faults } = makeBores(desk);
  const made = makeHoles(desk, bores);
  const cuts = cutsOf(desk, made.holes, bores);
  const outline = drawOutline(desk, cuts, bores);
  const all = [...faults, ...made.faults, ...(outline.ok ? [] : [outline.fault])];
  if (!outline.ok || all.length > 0) return { ok: false, faults: all };
  return { ok: true, draft: { desk, holes: made.holes, bores, cuts, outline: outline.outline, made } };
};
