import { type Path, type Point, type Speech, add, circlePath, distance, flatten, pathBox, polar } from '@fayplate/core';
import { type Obstacle, type Shape, circle, crossHair, group, pathShape, pens, polygon } from '@fayplate/drawing';
import type { Plate, PlateBore, Side } from '@fayplate/plate';
import { carry, carryPath, mirrored, unchanged } from '../geometry/affine.js';
import { centreLine } from './centre-line.js';
import { armReach, holeShapes, outermost, punchPoints } from './hole-shapes.js';
import type { HoleList, Template, TemplateHole, TemplateLabel } from './types.js';
import { type PunchedHole, boreLine, cutWords, depthWords, holeLines, sinkLine, sizeWords } from './words.js';

/** What a drill template needs of a plate. */
export type DrilledPlate = Pick<Plate, 'faces' | 'thickness' | 'clocking' | 'bores'> & {
  readonly holes: readonly PunchedHole[];
  readonly outline: { readonly path: Path };
};

/** Lines of a path as things to keep lettering off. */
export const edgeObstacles = (path: Path): readonly Obstacle[] => {
  const points = flatten(path, 0.3);
  return points.map((from, i) => ({ kind: 'segment', segment: { from, to: points[(i + 1) % points.length] ?? from } }));
};

const BORE_ARM = 6;

/** Bores about one centre share one cross-hair and one label. */
const boresByCentre = (bores: readonly PlateBore[]): readonly (readonly [PlateBore, ...PlateBore[]])[] => {
  const sets: [PlateBore, ...PlateBore[]][] = [];
  for (const bore of bores) {
    const set = sets.find(([first]) => distance(first, bore) < 1e-6);
    if (set === undefined) sets.push([bore]);
    else set.push(bore);
  }
  return sets;
};

const borePen = (bore: PlateBore, side: Side) => (bore.side === 'through' ? pens.wide : bore.side === side ? pens.narrow : pens.hidden);

/** A triangle that stands inside the outline at a clock direction and points out to its edge. */
const clockMark = (outline: Path, centre: Point, direction: number): { readonly middle: Point; readonly shape: Shape } => {
  const u = polar(1, direction);
  const edge = Math.max(...flatten(outline, 0.1).map((p) => (p.x - centre.x) * u.x + (p.y - centre.y) * u.y));
  const at = (k: number): Point => add(centre, polar(k, direction));
  const base = at(edge - 3.6);
  const half = polar(1.3, direction + Math.PI / 2);
  return { middle: at(edge - 2.3), shape: polygon('note', [at(edge - 1), add(base, half), { x: base.x - half.x, y: base.y - half.y }], null, 0) };
};

const listOf = (plate: DrilledPlate, speech: Speech): HoleList => ({
  columns: [
    { title: 'Hole', align: 'left' },
    { title: 'Feature', align: 'left' },
    { title: `x, ${speech.unit}`, align: 'point' },
    { title: `y, ${speech.unit}`, align: 'point' },
    { title: 'Cut', align: 'left' },
    { title: 'Depth', align: 'left' },
    { title: 'Sunk', align: 'left' },
  ],
  rows: plate.holes.map((h) => {
    const places = speech.unit === 'in' ? 4 : 2;
    const per = speech.unit === 'in' ? 25.4 : 1;
    const number = (v: number): string => (v / per).toFixed(places).replace(/^-(0\.?0*)$/, '$1');
    return [h.id, h.feature ?? '', number(h.x), number(h.y), cutWords(h, speech), depthWords(h, speech) + (h.depth === null ? '' : `, side ${h.from}`), h.sink === null ? '' : sinkLine(h.sink, speech)];
  }),
});

/**
 * The drilling template of one side, in the frame in which the paper is seen: plate mm, x turned about for side A.
 * Seen from side B the first face lies behind the plate, seen from side A the second.
 */
export const drillTemplate = (plate: DrilledPlate, side: Side, speech: Speech): Template => {
  const place = side === 'B' ? unchanged : mirrored;
  const flip = side === 'B' ? 1 : -1;
  const behind = side === 'B' ? plate.faces[0] : plate.faces[1];
  const outline = carryPath(place, plate.outline.path);
  const origin: Point = { x: 0, y: 0 };
  const boreSets = boresByCentre(plate.bores);
  const holes: readonly TemplateHole[] = plate.holes.flatMap((h) => {
    const points = punchPoints(h, place);
    return points.map((at, i) => ({ id: points.length > 1 ? `${h.id}.${i + 1}` : h.id, at, keep: armReach(h) }));
  });
  const box = pathBox(outline);
  const punch = [...holes, ...boreSets.map(([b]) => ({ at: carry(place, b), keep: BORE_ARM }))];
  const lines = [
    ...centreLine({ x: box.left - 3, y: 0 }, { x: box.right + 3, y: 0 }, punch),
    ...centreLine({ x: 0, y: box.bottom - 3 }, { x: 0, y: box.top + 3 }, punch),
  ];
  const clocks = [
    { name: plate.faces[0], direction: Math.PI / 2 },
    ...(Math.abs(plate.clocking) < 1e-9 ? [] : [{ name: plate.faces[1], direction: Math.PI / 2 - flip * plate.clocking }]),
  ].map((c) => ({ ...c, ...clockMark(outline, origin, c.direction) }));
  const clockWords = (name: string): string => (clocks.length === 1 ? "12 o'clock" : `12 o'clock of ${name}`);
  const bores: readonly Shape[] = boreSets.map((set) =>
    group(set[0].id, [
      ...set.map((b) => circle(b.side === 'through' ? 'cut' : b.side === side ? 'mark' : 'note', carry(place, b), b.diameter / 2, borePen(b, side))),
      ...crossHair('mark', carry(place, set[0]), { open: 0.8, reach: BORE_ARM }, pens.narrow),
    ]),
  );
  const labels: readonly TemplateLabel[] = [
    ...plate.holes.map((h): TemplateLabel => {
      const half = (h.slot?.length ?? 0) / 2;
      return { id: h.id, centre: carry(place, h), radius: outermost(h) + half, reach: armReach(h) + half, lines: holeLines(h, side, speech) };
    }),
    ...boreSets.map((set): TemplateLabel => ({ id: set[0].id, centre: carry(place, set[0]), radius: 1, reach: BORE_ARM, lines: set.map((b) => boreLine(b, speech)) })),
    ...clocks.map((c): TemplateLabel => ({ id: `12 of ${c.name}`, centre: c.middle, radius: 1.6, reach: 0, lines: [clockWords(c.name)] })),
  ];
  const obstacles: readonly Obstacle[] = [
    ...edgeObstacles(outline),
    ...plate.bores.flatMap((b) => edgeObstacles(circlePath(carry(place, b), b.diameter / 2))),
    { kind: 'segment', segment: { from: { x: box.left - 3, y: 0 }, to: { x: box.right + 3, y: 0 } } },
    { kind: 'segment', segment: { from: { x: 0, y: box.bottom - 3 }, to: { x: 0, y: box.top + 3 } } },
  ];
  return {
    what: 'drill',
    side,
    title: `Drill template · side ${side} up · ${behind} behind`,
    parts: [{ name: 'plate', fromPlate: place }],
    holes,
    outlines: [outline],
    box,
    shapes: [
      ...lines,
      pathShape('cut', outline, pens.wide),
      ...bores,
      ...plate.holes.map((h) => holeShapes(h, side, place)),
      ...clocks.map((c) => c.shape),
    ],
    obstacles,
    labels,
    blocks: [
      {
        near: { x: 0, y: (box.bottom * 2 + box.top) / 3 },
        lines: [
          { text: `Side ${side} faces you`, capital: 5, weight: 'bold' },
          { text: `${behind} behind the plate`, capital: 3, weight: 'regular' },
          { text: `${sizeWords(plate.thickness, speech)} ${speech.unit} thick · sizes in ${speech.unit}`, capital: 2.5, weight: 'regular' },
          { text: 'Check the ruler before you punch', capital: 2.5, weight: 'bold' },
        ],
      },
    ],
    list: listOf(plate, speech),
  };
};
