import type { Point } from '@fayplate/core';
import { landAt } from './bores/bores.js';
import { type Draft, cutsOf } from './draft.js';
import type { PlateBore, PlateHole } from './types.js';

/** A hole or bore that is cut already: where it came out, plate frame, and its size where that was measured, mm. */
export interface CutAlready extends Point {
  /** Null: as drawn. */
  readonly diameter: number | null;
}

/** The cuts of a plate that are made already. */
export interface AlreadyCut {
  /** By the plate's own names, H1 or C1. */
  readonly cuts: ReadonlyMap<string, CutAlready>;
  /** Holes no longer used, or plugs in them: no metal to count on. */
  readonly spoiled: readonly (CutAlready & {
    readonly name: string;
    readonly diameter: number;
    readonly why: string;
  })[];
}

const sized = (at: CutAlready): { readonly diameter?: number; readonly limits?: readonly [number, number] } =>
  at.diameter === null ? {} : { diameter: at.diameter, limits: [at.diameter, at.diameter] };

const holeAsCut = (hole: PlateHole, at: CutAlready | undefined): PlateHole =>
  at === undefined
    ? hole
    : { ...hole, x: at.x, y: at.y, ...sized(at), ...(at.diameter === null ? {} : { drill: null }) };

const boreAsCut = (bore: PlateBore, at: CutAlready | undefined): PlateBore =>
  at === undefined ? bore : { ...bore, x: at.x, y: at.y, ...sized(at) };

/**
 * The draft with the cuts made already in their real places; its outline as drawn, since that is marked out by then.
 */
export const withAlreadyCut = (draft: Draft, already: AlreadyCut): Draft => {
  const { desk } = draft;
  const bores = draft.bores.map((b) => boreAsCut(b, already.cuts.get(b.id)));
  const spoiled = already.spoiled.map((s, i): PlateHole => ({
    id: `X${i + 1}`,
    feature: null,
    part: null,
    cut: { name: s.name, face: desk.faces[0].name, why: s.why },
    x: s.x,
    y: s.y,
    as: 'cut',
    diameter: s.diameter,
    limits: null,
    from: 'B',
    depth: null,
    thread: null,
    sink: null,
    slot: null,
    fastening: null,
    fastener: null,
    drill: null,
    source: 'as drilled',
    land: landAt(s, bores, desk.thickness),
  }));
  const holes = [...draft.holes.map((h) => holeAsCut(h, already.cuts.get(h.id))), ...spoiled];
  return { ...draft, holes, bores, cuts: cutsOf(desk, holes, bores) };
};
