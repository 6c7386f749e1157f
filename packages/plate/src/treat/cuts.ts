import { type Point, apply } from '@fayplate/core';
import type { CutSpec } from '@fayplate/job';
import type { Desk } from '../desk.js';
import type { BoreBox, PlateBore } from '../types.js';
import type { Made } from './made.js';

/**
 * Where a cut lies on the plate, and its direction there, radians; null where the feature that it lies at has no place.
 */
export const laid = (desk: Desk, cut: CutSpec): { readonly at: Point; readonly angle: number } | null => {
  const angle = cut.angle ?? 0;
  const index = desk.faces[1].name === cut.face ? 1 : 0;
  const { motion } = desk.mated[index];
  const feature = 'feature' in cut.at ? cut.at.feature : null;
  const there = desk.placed.find((p) => p.face.name === cut.face && p.feature.id === feature)?.at;
  const at = 'feature' in cut.at ? there : apply(motion, cut.at);
  if (at === undefined) return null;
  const from = apply(motion, { x: 0, y: 0 });
  const to = apply(motion, { x: Math.cos(angle), y: Math.sin(angle) });
  return { at, angle: Math.atan2(to.y - from.y, to.x - from.x) };
};

export const forCut = ({ name, face, why }: CutSpec) => ({ name, face, why });

export const lost = (cut: CutSpec): string =>
  `the cut ${cut.name} lies at ${'feature' in cut.at ? cut.at.feature : ''} of ${cut.face}, which no reading places`;

/** Holes and slots that fasten nothing. */
export const cutHoles = (
  desk: Desk,
): { readonly made: readonly { readonly made: Made; readonly at: Point }[]; readonly faults: readonly string[] } => {
  const faults: string[] = [];
  const made = desk.spec.cuts.flatMap((cut) => {
    if (cut.what === 'pocket' || cut.what === 'notch') return [];
    const place = laid(desk, cut);
    if (place === null) {
      faults.push(lost(cut));
      return [];
    }
    const one: Made = {
      as: 'cut',
      cut: forCut(cut),
      diameter: cut.width,
      limits: null,
      from: cut.side,
      depth: cut.depth,
      thread: null,
      sink: null,
      slot: cut.what === 'slot' ? { length: cut.length, angle: place.angle } : null,
      fastening: null,
      fastener: null,
      drill: null,
      source: 'as the job asks',
    };
    return [{ made: one, at: place.at }];
  });
  return { made, faults };
};

/** Straight sides about a middle, `angle` as it lies on the plate. */
const boxOf = (cut: CutSpec, angle: number): BoreBox => ({
  length: cut.length,
  width: cut.width,
  corner: cut.corner ?? 0,
  angle,
  behind: cut.length / 2,
});

/** Pockets that the job asks for, round or with straight sides. */
export const cutPockets = (
  desk: Desk,
): { readonly pockets: readonly Omit<PlateBore, 'id'>[]; readonly faults: readonly string[] } => {
  const faults: string[] = [];
  const pockets = desk.spec.cuts.flatMap((cut): readonly Omit<PlateBore, 'id'>[] => {
    if (cut.what !== 'pocket') return [];
    const place = laid(desk, cut);
    if (place === null) {
      faults.push(lost(cut));
      return [];
    }
    const through = cut.depth === null || cut.depth >= desk.thickness;
    return [
      {
        kind: 'relief',
        cut: forCut(cut),
        feature: null,
        part: null,
        x: place.at.x,
        y: place.at.y,
        diameter: cut.length > 0 ? Math.min(cut.length, cut.width) : cut.width,
        ...(cut.length > 0 ? { box: boxOf(cut, place.angle) } : {}),
        limits: null,
        side: through ? 'through' : cut.side,
        depth: through ? null : cut.depth,
      },
    ];
  });
  return { pockets, faults };
};
