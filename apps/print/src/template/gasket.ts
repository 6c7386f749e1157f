import { type Path, type Speech, boxOf, distance, flatten, pathBox } from '@fayplate/core';
import { type Obstacle, type Shape, circle, crossHair, group, pathShape, pens } from '@fayplate/drawing';
import type { Side } from '@fayplate/plate';
import { type Affine, carry, carryPath, chain, mirrored, shifted, unchanged } from '../geometry/affine.js';
import { edgeObstacles } from './obstacles.js';
import type { Template, TemplateHole, TemplateLabel } from './types.js';
import { sizeWords } from './words.js';

/** A soft sheet is punched no finer than a tenth of a millimetre or a thousandth of an inch. */
const softWords = (mm: number, speech: Speech): string => {
  const step = speech.unit === 'in' ? 0.0254 : 0.1;
  return sizeWords(Math.round(mm / step) * step, speech);
};

/** One gasket, plate frame, mm: what is cut out of the sheet. */
export interface Gasket {
  /** The face that it lies on. */
  readonly face: string;
  readonly outline: Path;
  /** Holes with their eased diameters. */
  readonly holes: readonly { readonly id: string; readonly feature: string | null; readonly x: number; readonly y: number; readonly diameter: number }[];
  readonly bore: { readonly x: number; readonly y: number; readonly diameter: number } | null;
}

export interface Punch {
  readonly name: string;
  readonly diameter: number;
}

const ARM = 2.5;
const BORE_ARM = 6;
/** Between gaskets on one sheet, and inside a bore, mm. */
const APART = 6;

/** The smallest punch on hand that is no smaller than the eased hole (0.05 mm let pass) and no more than a tenth and 1 mm larger. */
export const punchFor = (diameter: number, punches: readonly Punch[]): Punch | null =>
  punches.filter((p) => p.diameter >= diameter - 0.05 && p.diameter <= diameter * 1.1 + 1).reduce<Punch | null>((best, p) => (best === null || p.diameter < best.diameter ? p : best), null);

const holeWords = (diameter: number, punches: readonly Punch[] | null, speech: Speech): string => {
  const size = `⌀${softWords(diameter, speech)}`;
  if (punches === null) return `punch ${size}`;
  const punch = punchFor(diameter, punches);
  return punch === null ? `${size}: no punch fits, cut by hand` : `punch ${punch.name}`;
};

interface Laid {
  readonly gasket: Gasket;
  readonly place: Affine;
}

const radiusAbout = (path: Path): { readonly centre: { readonly x: number; readonly y: number }; readonly radius: number } => {
  const box = pathBox(path);
  const centre = { x: (box.left + box.right) / 2, y: (box.bottom + box.top) / 2 };
  return { centre, radius: Math.max(...flatten(path, 0.1).map((p) => distance(p, centre))) };
};

/**
 * Gaskets side by side, the largest first, each small one inside the bore of a larger where it falls out of it anyway:
 * one sheet of material less.
 */
const nest = (gaskets: readonly Gasket[], seen: Affine): readonly Laid[] => {
  const size = (g: Gasket): number => radiusAbout(g.outline).radius;
  const order = [...gaskets].sort((a, b) => size(b) - size(a));
  const out: Laid[] = [];
  const free = new Map<Laid, boolean>();
  let right = 0;
  for (const gasket of order) {
    const outline = carryPath(seen, gasket.outline);
    const { centre, radius } = radiusAbout(outline);
    const host = out.find((l) => free.get(l) === true && l.gasket.bore !== null && radius + APART <= l.gasket.bore.diameter / 2);
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

const shapesOf = ({ gasket, place }: Laid): Shape => {
  const { bore } = gasket;
  return group(`gasket ${gasket.face}`, [
    pathShape('cut', carryPath(place, gasket.outline), pens.wide),
    ...(bore === null
      ? []
      : [circle('cut', carry(place, bore), bore.diameter / 2, pens.wide), ...crossHair('mark', carry(place, bore), { open: 0.8, reach: BORE_ARM }, pens.narrow)]),
    ...gasket.holes.map((h) =>
      group(h.id, [
        circle('cut', carry(place, h), h.diameter / 2, pens.narrow),
        ...crossHair('mark', carry(place, h), { open: Math.min(0.8, 0.35 * h.diameter), reach: h.diameter / 2 + ARM }, pens.narrow),
      ]),
    ),
  ]);
};

const labelsOf = ({ gasket, place }: Laid, punches: readonly Punch[] | null, speech: Speech): readonly TemplateLabel[] => {
  const { bore } = gasket;
  return [
    ...gasket.holes.map((h): TemplateLabel => ({
      id: h.id,
      short: h.id,
      centre: carry(place, h),
      radius: h.diameter / 2,
      reach: h.diameter / 2 + ARM,
      settings: [[h.feature === null ? h.id : `${h.id}  ${h.feature}`, holeWords(h.diameter, punches, speech)]],
    })),
    ...(bore === null
      ? []
      : [{ id: `${gasket.face} bore`, short: null, centre: carry(place, bore), radius: 1, reach: BORE_ARM, settings: [[`${gasket.face} gasket`, `bore ⌀${sizeWords(bore.diameter, speech)}`]] as const }]),
  ];
};

/** Gaskets of a job on one drawing, in the frame in which the paper is seen (x turned about for side A). */
export const gasketTemplate = (gaskets: readonly Gasket[], side: Side, punches: readonly Punch[] | null, speech: Speech): Template => {
  const laid = nest(gaskets, side === 'B' ? unchanged : mirrored);
  const outlines = laid.map((l) => carryPath(l.place, l.gasket.outline));
  const holes: readonly TemplateHole[] = laid.flatMap((l) => l.gasket.holes.map((h) => ({ id: h.id, at: carry(l.place, h), keep: h.diameter / 2 + ARM })));
  const obstacles: readonly Obstacle[] = laid.flatMap((l) => [
    ...edgeObstacles(carryPath(l.place, l.gasket.outline)),
    ...(l.gasket.bore === null ? [] : edgeObstacles(boreEdge(l))),
  ]);
  const names = laid.map((l) => l.gasket.face).join(', ');
  return {
    what: 'gasket',
    side,
    title: `Gasket template · ${names} · seen from side ${side}`,
    parts: laid.map((l) => ({ name: l.gasket.face, fromPlate: l.place })),
    holes,
    outlines,
    box: boxOf(outlines.flatMap((p) => {
      const b = pathBox(p);
      return [{ x: b.left, y: b.bottom }, { x: b.right, y: b.top }];
    })),
    shapes: laid.map(shapesOf),
    obstacles,
    labels: laid.flatMap((l) => labelsOf(l, punches, speech)),
    blocks: [],
    facts: [['Holes', 'eased by the clearance that the job states'], ...(punches === null ? [] : [['Punches', punches.map((p) => p.name).join(', ')] as const])],
    list: {
      columns: [
        { title: 'Gasket', align: 'left' },
        { title: 'Hole', align: 'left' },
        { title: 'Feature', align: 'left' },
        { title: `⌀, ${speech.unit}`, align: 'point' },
        { title: 'Punch', align: 'left' },
      ],
      rows: laid.flatMap((l) => l.gasket.holes.map((h) => [l.gasket.face, h.id, h.feature ?? '', softWords(h.diameter, speech), holeWords(h.diameter, punches, speech)])),
    },
  };
};

const boreEdge = ({ gasket, place }: Laid): Path => {
  const at = carry(place, gasket.bore ?? { x: 0, y: 0 });
  const r = (gasket.bore?.diameter ?? 0) / 2;
  return { start: { x: at.x + r, y: at.y }, closed: true, edges: [{ kind: 'arc', centre: at, ccw: true, to: { x: at.x + r, y: at.y } }] };
};
