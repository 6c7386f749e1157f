import { type Path, type Point, type Speech, distance, formatLength } from '@fayplate/core';
import { type Shape, crossHair, group, pathShape, pens } from '@fayplate/drawing';
import {
  type PlateBore,
  type Side,
  boreEdge,
  boreKind,
  boreLimits,
  depthLimitsOf,
  farOf,
  straightWords,
} from '@fayplate/plate';
import { type Affine, carry, carryPath } from '../geometry/affine.js';
import type { HoleList, TemplateLabel } from './types.js';
import {
  type PunchedHole,
  boreKinds,
  boreParts,
  cutWords,
  depthWords,
  limitWords,
  sinkLine,
  sizeWords,
} from './words.js';

/** Bores about one centre, which share one cross-hair and one label. */
type BoreSet = readonly [PlateBore, ...PlateBore[]];

export const BORE_ARM = 6;
/** A bore of this radius holds three lines of lettering beside its cross-hair, mm. */
const ROOMY = 50;

export const boreSets = (bores: readonly PlateBore[]): readonly BoreSet[] => {
  const sets: [PlateBore, ...PlateBore[]][] = [];
  for (const bore of bores) {
    const set = sets.find(([first]) => distance(first, bore) < 1e-6);
    if (set === undefined) sets.push([bore]);
    else set.push(bore);
  }
  return sets;
};

/** A bore right through is cut; what lies on the far side is dashed. */
export const boreShapes = (set: BoreSet, side: Side, place: Affine, outline: Path): Shape => {
  const centre: Point = carry(place, set[0]);
  const one = (b: PlateBore): readonly Shape[] => {
    const edge = boreEdge(b, outline);
    if (edge === null) return [];
    const path = carryPath(place, edge);
    if (b.side === 'through') return [pathShape('cut', path, pens.wide)];
    return [b.side === side ? pathShape('mark', path, pens.narrow) : pathShape('note', path, pens.hidden)];
  };
  return group(set[0].id, [
    ...set.flatMap(one),
    ...crossHair('mark', centre, { open: 0.8, reach: BORE_ARM }, pens.narrow),
  ]);
};

/** In a wide bore the words stand at its centre; round a narrow one, outside the largest circle. */
export const boreLabel = (set: BoreSet, place: Affine, outline: Path, speech: Speech): TemplateLabel => {
  const radii = set.map((b) => (b.box === undefined || b.box.notch === true ? b.diameter / 2 : farOf(b, b)));
  const edge = set[0].box === undefined ? null : boreEdge(set[0], outline);
  const inLines = (lines: (parts: readonly [string, string, string]) => readonly string[]): readonly string[] =>
    set.flatMap((b) => lines(boreParts(b, speech)).map((part, i) => (i === 0 ? part : `\u2003${part}`)));
  const roomy = Math.min(...radii) > ROOMY;
  return {
    id: set[0].id,
    centre: carry(place, set[0]),
    radius: roomy ? 1 : Math.max(...radii),
    reach: roomy ? BORE_ARM : 0,
    settings: [
      set.map((b) => {
        const [name, size, deep] = boreParts(b, speech);
        return `${name} ${size}${b.box === undefined ? '' : ','} ${deep}`;
      }),
      inLines(([name, size, deep]) => [`${name} ${size}`, deep]),
      ...(set[0].box === undefined ? [] : [inLines((parts) => parts)]),
    ],
    // A circle about the shaft is known without its name; what is cut elsewhere is named on the key sheet too.
    short: edge === null ? null : set[0].id,
    ...(edge === null ? {} : { edge: carryPath(place, edge) }),
  };
};

/** Every hole and bore with its place on the plate as seen from side B, and its cut. */
export const drillList = (holes: readonly PunchedHole[], bores: readonly PlateBore[], speech: Speech): HoleList => {
  const place = (v: number): string => formatLength(v, speech.unit, speech.unit === 'in' ? 4 : 2);
  return {
    columns: [
      { title: 'Hole', align: 'left' },
      { title: 'Feature', align: 'left' },
      { title: `X, ${speech.unit}`, align: 'point' },
      { title: `Y, ${speech.unit}`, align: 'point' },
      { title: 'Cut', align: 'left' },
      { title: 'Depth', align: 'left' },
      { title: 'Sunk', align: 'left' },
    ],
    rows: [
      ...holes.map((h) => [
        h.id,
        h.feature ?? '',
        place(h.x),
        place(h.y),
        cutWords(h, speech),
        h.depth === null ? depthWords(h, speech) : `${depthWords(h, speech)}, side ${h.from}`,
        h.sink === null ? '' : sinkLine(h.sink, speech),
      ]),
      ...bores.map((b) => [
        b.id,
        b.feature ?? '',
        place(b.x),
        place(b.y),
        b.box === undefined
          ? `${boreKinds[b.kind]} ⌀${limitWords(boreLimits(b), speech)}`
          : `${boreKind(b)} ${straightWords(b, (mm) => sizeWords(mm, speech)) ?? ''}`,
        b.depth === null
          ? 'through'
          : `${limitWords(depthLimitsOf(b) ?? [b.depth, b.depth], speech)} ` +
            `${b.kind === 'spigot' ? 'high' : 'deep'}, side ${b.side}`,
        '',
      ]),
    ],
  };
};
