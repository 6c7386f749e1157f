import { type Path, type Speech, circlePath, distance, flatten, pathBox } from '@fayplate/core';
import { type Obstacle, type Shape, circle, crossHair, group, joinBoxes, pathShape, pens } from '@fayplate/drawing';
import {
  type Gasket,
  type GasketHole,
  type Plate,
  type Side,
  centresInShort,
  gasketHolePath,
  gasketHoleSize,
} from '@fayplate/plate';
import { type Affine, carry, carryPath, chain, mirrored, shifted, unchanged } from '../geometry/affine.js';
import { type Punch, edgeObstacles, punchWords, softWords } from './marks.js';
import type { Template, TemplateHole, TemplateLabel } from './types.js';
import { sizeWords } from './words.js';

/** Between gaskets on one sheet, and inside a bore, mm. */
const APART = 6;

/** A gasket with its place on the drawing: plate mm → template mm. */
interface LaidGasket {
  readonly gasket: Gasket;
  readonly place: Affine;
}

const radiusAbout = (
  path: Path,
): { readonly centre: { readonly x: number; readonly y: number }; readonly radius: number } => {
  const box = pathBox(path);
  const centre = { x: (box.left + box.right) / 2, y: (box.bottom + box.top) / 2 };
  return { centre, radius: Math.max(...flatten(path, 0.1).map((p) => distance(p, centre))) };
};

/**
 * Gaskets side by side, the largest first, each small one inside the bore of a larger where it falls out of it anyway:
 * one sheet of material less.
 */
export const nest = (gaskets: readonly Gasket[], seen: Affine): readonly LaidGasket[] => {
  const size = (g: Gasket): number => radiusAbout(g.outline).radius;
  const order = [...gaskets].sort((a, b) => size(b) - size(a));
  const out: LaidGasket[] = [];
  const free = new Map<LaidGasket, boolean>();
  let right = 0;
  for (const gasket of order) {
    const outline = carryPath(seen, gasket.outline);
    const { centre, radius } = radiusAbout(outline);
    const host = out.find(
      (l) => free.get(l) === true && l.gasket.bore !== null && radius + APART <= l.gasket.bore.diameter / 2,
    );
    const bore = host?.gasket.bore ?? null;
    if (host !== undefined && bore !== null) {
      const to = carry(host.place, bore);
      free.set(host, false);
      const laid = { gasket, place: chain(seen, shifted(to.x - centre.x, to.y - centre.y)) };
      free.set(laid, true);
      out.push(laid);
      continue;
    }
    const box = pathBox(outline);
    const laid = { gasket, place: out.length === 0 ? seen : chain(seen, shifted(right + APART - box.left, 0)) };
    right = (out.length === 0 ? 0 : right + APART - box.left) + box.right;
    free.set(laid, true);
    out.push(laid);
  }
  return out;
};

const ARM = 2.5;
const BORE_ARM = 6;

const narrowest = (h: GasketHole): number => gasketHoleSize(h)?.width ?? h.diameter;
const farthest = (h: GasketHole): number => gasketHoleSize(h)?.length ?? h.diameter;

/** How a hole is made: a round one by a punch, the ends of a slot by a punch too, straight sides by a knife. */
const madeBy = (h: GasketHole, punches: readonly Punch[] | null, speech: Speech): string => {
  const size = gasketHoleSize(h);
  if (size === null) return punchWords(h.diameter, punches, speech);
  const over = `${softWords(size.length, speech)} × ${softWords(size.width, speech)}`;
  if (size.width - h.diameter < 1e-9) return `${over}, its ends ${punchWords(h.diameter, punches, speech)}`;
  return `${over}, corners R${softWords(size.corner, speech)}: cut by hand`;
};

const shapesOf = ({ gasket, place }: LaidGasket): Shape => {
  const { bore } = gasket;
  return group(`gasket ${gasket.face}`, [
    pathShape('cut', carryPath(place, gasket.outline), pens.wide),
    ...(bore === null
      ? []
      : [
          circle('cut', carry(place, bore), bore.diameter / 2, pens.wide),
          ...crossHair('mark', carry(place, bore), { open: 0.8, reach: BORE_ARM }, pens.narrow),
        ]),
    ...gasket.holes.map((h) =>
      group(h.id, [
        h.spine === undefined
          ? circle('cut', carry(place, h), h.diameter / 2, pens.narrow)
          : pathShape('cut', carryPath(place, gasketHolePath(h)), pens.narrow),
        ...crossHair(
          'mark',
          carry(place, h),
          { open: Math.min(0.8, 0.35 * h.diameter), reach: narrowest(h) / 2 + ARM },
          pens.narrow,
        ),
      ]),
    ),
  ]);
};

const labelsOf = (
  { gasket, place }: LaidGasket,
  punches: readonly Punch[] | null,
  speech: Speech,
): readonly TemplateLabel[] => {
  const { bore } = gasket;
  return [
    ...gasket.holes.map((h): TemplateLabel => ({
      id: h.id,
      short: h.id,
      centre: carry(place, h),
      radius: narrowest(h) / 2,
      reach: narrowest(h) / 2 + ARM,
      settings: [[h.feature === null ? h.id : `${h.id}  ${h.feature}`, madeBy(h, punches, speech)]],
    })),
    ...(bore === null
      ? []
      : [
          {
            id: `${gasket.face} bore`,
            short: null,
            centre: carry(place, bore),
            radius: 1,
            reach: BORE_ARM,
            settings: [[`${gasket.face} gasket`, `bore ⌀${sizeWords(bore.diameter, speech)}`]] as const,
          },
        ]),
  ];
};

/**
 * Gaskets of a job on one drawing, in the frame in which the paper is seen (x turned about for side A); `centres`:
 * which of them the plate has.
 */
export const gasketTemplate = (
  gaskets: readonly Gasket[],
  side: Side,
  punches: readonly Punch[] | null,
  speech: Speech,
  centres: Plate['centres'] = [],
): Template => {
  const own = centres.filter((c) => gaskets.some((g) => g.face === c.face));
  const said = centresInShort({ centres: own }, speech);
  const laid = nest(gaskets, side === 'B' ? unchanged : mirrored);
  const outlines = laid.map((l) => carryPath(l.place, l.gasket.outline));
  const holes: readonly TemplateHole[] = laid.flatMap((l) =>
    l.gasket.holes.map((h) => ({ id: h.id, at: carry(l.place, h), keep: farthest(h) / 2 + ARM })),
  );
  const obstacles: readonly Obstacle[] = laid.flatMap((l) => [
    ...edgeObstacles(carryPath(l.place, l.gasket.outline)),
    ...l.gasket.holes.flatMap((h) =>
      h.spine === undefined ? [] : edgeObstacles(carryPath(l.place, gasketHolePath(h))),
    ),
    ...(l.gasket.bore === null
      ? []
      : edgeObstacles(circlePath(carry(l.place, l.gasket.bore), l.gasket.bore.diameter / 2))),
  ]);
  const names = laid.map((l) => l.gasket.face).join(', ');
  const box = joinBoxes(outlines.map(pathBox)) ?? { left: 0, right: 0, bottom: 0, top: 0 };
  return {
    what: 'gasket',
    side,
    title: `Gasket template · ${names} · seen from side ${side}`,
    parts: laid.map((l) => ({ name: l.gasket.face, fromPlate: l.place })),
    holes,
    outlines,
    way: null,
    box,
    shapes: laid.map(shapesOf),
    obstacles,
    labels: laid.flatMap((l) => labelsOf(l, punches, speech)),
    blocks:
      said.length === 0
        ? []
        : [
            {
              near: { x: (box.left + box.right) / 2, y: (box.bottom * 2 + box.top) / 3 },
              lines: said.map((text) => ({ text, capital: 2.5, weight: 'regular' as const })),
            },
          ],
    facts: [
      ...(said.length === 0 ? [] : [['Centres', said.join('; ')] as const]),
      ['Holes', 'eased by the clearance that the job states'],
      ...(punches === null ? [] : [['Punches', punches.map((p) => p.name).join(', ')] as const]),
    ],
    list: {
      columns: [
        { title: 'Gasket', align: 'left' },
        { title: 'Hole', align: 'left' },
        { title: 'Feature', align: 'left' },
        { title: `⌀, ${speech.unit}`, align: 'point' },
        { title: 'Punch', align: 'left' },
      ],
      rows: laid.flatMap(({ gasket: { face, holes: punched, bore } }) => [
        ...punched.map((h) => [
          face,
          h.id,
          h.feature ?? '',
          softWords(narrowest(h), speech),
          madeBy(h, punches, speech),
        ]),
        ...(bore === null ? [] : [[face, 'bore', '', softWords(bore.diameter, speech), '']]),
      ]),
    },
  };
};
