import { type Point, apply, distance, invert } from '@fayplate/core';
import { leastWeb } from '@fayplate/handbook';
import type { Face, PartWork } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import { grip } from '../checks/studs.js';
import type { Placed } from '../desk.js';
import type { Draft } from '../draft.js';
import { fastenOf } from '../treat/holes.js';
import { studNeeds } from '../treat/sink.js';
import { threadOf } from '../treat/thread.js';
import { depthInside } from '../outline/inside.js';
import type { MetalLeft, PartOperation } from '../types.js';

/**
 * The patterns with the holes that the job opens out as wide as they then are; what is opened and measured again stays
 * as it was measured.
 */
export const withOpenedHoles = (
  used: ReadonlyMap<string, UsedPattern>,
  work: readonly PartWork[],
): ReadonlyMap<string, UsedPattern> =>
  work
    .filter((w) => w.kind === 'open')
    .reduce((all, { face, features, to }): ReadonlyMap<string, UsedPattern> => {
      const own = all.get(face);
      if (own === undefined) return all;
      const radii = own.pattern.radii.map((r, i) =>
        features.includes(own.pattern.ids[i] ?? '') ? Math.max(r ?? 0, to.value / 2) : r,
      );
      return new Map([...all, [face, { ...own, pattern: { ...own.pattern, radii } }]]);
    }, used);

const bodyOf = (p: Placed): number => (p.diameter ?? 0) / 2;

/** Metal of the part between an opened hole and what lies nearest: another opening or feature, or the rim. */
const webLeft = (draft: Draft, face: Face, holes: readonly Placed[], diameter: number): MetalLeft | null => {
  const own = draft.desk.placed.filter((p) => p.face === face && !p.feature.vacant && p.feature.kind !== 'edge');
  const footprint = draft.parts.find((f) => f.face === face.name);
  const all = holes.flatMap((h) => [
    ...own
      .filter((p) => p !== h)
      .map((p) => ({
        of: `${h.feature.id} and ${p.feature.id}`,
        value: distance(h.at, p.at) - bodyOf(p) - diameter / 2,
      })),
    ...(footprint?.path != null && footprint.known
      ? [{ of: `${h.feature.id} and the rim`, value: depthInside(h.at, footprint.path) - diameter / 2 }]
      : []),
  ]);
  const [least] = all.toSorted((a, b) => a.value - b.value);
  return least === undefined ? null : { ...least, limit: leastWeb.value * diameter, source: leastWeb.source };
};

/**
 * Of shortened studs the one with least thread past its seat, against what nut and washer want; null where none has a
 * nut.
 */
const studLeft = (draft: Draft, placed: readonly Placed[]): MetalLeft | null => {
  const all = placed.flatMap((p): readonly MetalLeft[] => {
    const hole = draft.holes.find((h) => h.feature === p.name);
    const needs =
      hole === undefined
        ? null
        : studNeeds(threadOf(hole.fastening?.thread ?? null), fastenOf(draft.desk, p.face.name));
    return hole === undefined || needs === null || p.feature.stands === null
      ? []
      : [
          {
            of: 'stud past the seat of its nut',
            value: p.feature.stands - grip(draft, hole, p),
            limit: needs,
            source: 'common practice: nut, washer and one thread showing',
          },
        ];
  });
  const [least] = all.toSorted((a, b) => a.value - b.value);
  return least ?? null;
};

const leftAfter = (draft: Draft, w: PartWork, face: Face, placed: readonly Placed[]): MetalLeft | null => {
  switch (w.kind) {
    case 'open':
      return webLeft(draft, face, placed, w.to.value);
    case 'deepen':
      return face.flange === null
        ? null
        : {
            of: 'the floor under the thread',
            value: face.flange - w.to.value,
            limit: 0,
            source: 'geometry: the flange less the depth',
          };
    case 'fit':
      return null;
    case 'shorten':
      return studLeft(draft, placed) ?? { of: 'what still stands', value: w.to.value, limit: null, source: 'the job' };
    case 'shorten shaft':
      return {
        of: w.link === null ? 'what is left of it' : 'what is left of it; the limits of the stack say whether it does',
        value: w.to.value,
        limit: null,
        source: 'the job',
      };
    default:
      // What lies over it is checked with the plate.
      if (w.to.value === 0) return null;
      return { of: 'what still stands', value: w.to.value, limit: null, source: 'the job' };
  }
};

/**
 * Each piece of work on the parts with where it is done, in its face's own frame as viewed, and the metal that it
 * leaves.
 */
export const operationsOn = (draft: Draft): readonly PartOperation[] =>
  (draft.desk.job.work ?? []).flatMap((w): readonly PartOperation[] => {
    const i = draft.desk.faces.findIndex((f) => f.name === w.face);
    const face = draft.desk.faces[i];
    const mated = draft.desk.mated[i];
    if (face === undefined || mated === undefined) return [];
    const back = invert(mated.motion);
    const placed = draft.desk.placed.filter((p) => p.face === face && w.features.includes(p.feature.id));
    const at = (p: Placed): Point => apply(back, p.at);
    return [
      {
        name: w.name,
        face: w.face,
        kind: w.kind,
        done: w.done,
        why: w.why,
        to: w.to.value,
        places: placed.map((p) => ({
          feature: p.feature.id,
          ...at(p),
          from: w.from.get(p.feature.id) ?? null,
          hole: draft.holes.find((h) => h.feature === p.name)?.id ?? null,
        })),
        left: leftAfter(draft, w, face, placed),
      },
    ];
  });
