import { signedArea } from '@fayplate/core';
import { makeBores } from './bores/bores.js';
import type { Register } from './bores/registers.js';
import type { Desk } from './desk.js';
import { depthInside } from './outline/inside.js';
import { cutNotches } from './outline/notches.js';
import { type OutlineDrawn, drawOutline } from './outline/outline.js';
import { type Footprint, footprintOf } from './parts/footprint.js';
import type { Cut } from './solids/cut.js';
import { boreCut, holeCut } from './solids/of-plate.js';
import { type HolesMade, makeHoles } from './treat/holes.js';
import type { Outline, PlateBore, PlateHole } from './types.js';

/** A plate drawn but not yet checked. */
export interface Draft {
  readonly desk: Desk;
  readonly holes: readonly PlateHole[];
  readonly bores: readonly PlateBore[];
  readonly cuts: readonly Cut[];
  /** Pockets that are not cut, since the plate does not reach over what they are for; at another clocking it may. */
  readonly spared: readonly PlateBore[];
  readonly outline: Omit<Outline, 'mass'>;
  readonly made: HolesMade;
  /** Where both parts lie against it. */
  readonly parts: readonly [Footprint, Footprint];
}

export type Drafted =
  | { readonly ok: true; readonly draft: Draft }
  | { readonly ok: false; readonly faults: readonly string[] };

/** Whether something of this feature's face turns with the clocking: the second face's. */
export const turnsWith = (desk: Desk, { part, cut }: Pick<PlateHole, 'part' | 'cut'>): boolean =>
  (part ?? cut)?.face === desk.faces[1].name;

export const cutsOf = (desk: Desk, holes: readonly PlateHole[], bores: readonly PlateBore[]): readonly Cut[] => [
  ...holes.map((h) => holeCut(h, turnsWith(desk, h), desk.thickness)),
  ...bores.flatMap((b) => boreCut(b, desk.thickness, turnsWith(desk, b)) ?? []),
];

/**
 * Pockets under an outline, and the outline that holds them: what stands clear of the plate needs none, and one that
 * the outline touches may push it out over the next.
 */
const withPockets = (
  desk: Desk,
  holes: readonly PlateHole[],
  bores: readonly PlateBore[],
  pockets: readonly PlateBore[],
): { readonly outline: OutlineDrawn; readonly cut: readonly PlateBore[] } => {
  let cut: readonly PlateBore[] = [];
  for (;;) {
    const open = [...bores, ...cut];
    const outline = drawOutline(desk, cutsOf(desk, holes, open), open);
    if (!outline.ok) return { outline, cut };
    const wanted = pockets.filter((p) => cut.includes(p) || depthInside(p, outline.outline.path) + p.diameter / 2 > 0);
    if (wanted.length === cut.length) return { outline, cut };
    cut = wanted;
  }
};

/** Everything of a plate but its notches, which are cut from the outline that comes of it. */
const beforeNotches = (desk: Desk, notches: readonly Register[]) => {
  const { bores: open, pockets, faults } = makeBores(desk, notches);
  // Where a hole lies in a pocket the plate is there too, so that pocket will be cut.
  const made = makeHoles(desk, [...open, ...pockets]);
  const { outline, cut } = withPockets(desk, made.holes, open, pockets);
  return {
    open,
    pockets,
    made,
    outline,
    cut,
    faults: [...faults, ...made.faults, ...(outline.ok ? [] : [outline.fault])],
  };
};

/**
 * With notches it is drawn twice: first for the edge at which they open, then with what they leave for holes and
 * pockets.
 */
export const drawDraft = (desk: Desk): Drafted => {
  const first = beforeNotches(desk, []);
  const notched = first.outline.ok ? cutNotches(desk, first.outline.outline.path) : null;
  const { open, pockets, made, outline, cut, faults } =
    notched === null || notched.bores.length === 0 ? first : beforeNotches(desk, notched.bores);
  const edge = outline.ok && notched !== null ? cutNotches(desk, outline.outline.path) : notched;
  const all = [...faults, ...(edge?.faults ?? [])];
  if (!outline.ok || edge === null || all.length > 0) return { ok: false, faults: all };
  // Numbered again, so that a pocket that is not cut leaves no gap.
  const bores = [...open, ...cut].map((b, i) => ({ ...b, id: `C${i + 1}` }));
  const draft = {
    desk,
    holes: made.holes,
    bores,
    cuts: cutsOf(desk, made.holes, bores),
    spared: pockets.filter((p) => !cut.includes(p)),
    outline: {
      ...outline.outline,
      path: edge.path,
      ...(edge.path === outline.outline.path ? {} : { whole: outline.outline.path }),
      area: Math.abs(signedArea(edge.path)),
    },
    made,
    parts: [footprintOf(desk, 0), footprintOf(desk, 1)] as const,
  };
  return { ok: true, draft };
};
