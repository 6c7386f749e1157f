import {
  type Box,
  type Motion,
  type Point,
  type Speech,
  apply,
  boxOf,
  compose,
  flipX,
  identity,
  minusSign,
  movePath,
  sayNumber,
} from '@fayplate/core';
import {
  type Lettering,
  type Obstacle,
  type Picture,
  type Shape,
  arrow,
  crossHair,
  group,
  line,
  pathShape,
  pens,
  rectangle,
} from '@fayplate/drawing';
import { CORNER, type MachinistTable, SLOT_END, type TableRow } from '@fayplate/machining';
import type { Plate, Side } from '@fayplate/plate';
import { type Label, crossable, labelShapes, lineObstacle, pathObstacles, shapeObstacles } from './labels.js';
import { boreEdges, holePath } from './plate.js';
import { axesShapes, axisHeads, zeroShapes } from './setting-axes.js';
import { scaleFor, sheet } from './sheet.js';

const blankBox = (t: MachinistTable): Box => ({
  left: t.blank.left,
  bottom: t.blank.bottom,
  right: t.blank.left + t.blank.width,
  top: t.blank.bottom + t.blank.height,
});

/** In capitals: where they must, names go outside the plate rather than over the way from hole to hole. */
const LEADER = 14;

/** Turned over about its y axis a box changes sides. */
const seen = (box: Box, side: Side): Box => (side === 'B' ? box : { ...box, left: -box.right, right: -box.left });

const cornersOf = (b: Box): readonly Point[] => [
  { x: b.left, y: b.bottom },
  { x: b.right, y: b.top },
];

/** Crossed corner to corner, as a thing that stands in the way. */
const clampShapes = (box: Box): readonly Shape[] => [
  rectangle('note', box, pens.wide),
  line('note', { x: box.left, y: box.bottom }, { x: box.right, y: box.top }, pens.hair),
  line('note', { x: box.left, y: box.top }, { x: box.right, y: box.bottom }, pens.hair),
];

/** The rows of the first tool that goes to most places: the order in which the table travels. */
const longestRun = (rows: readonly TableRow[]): readonly TableRow[] => {
  const runs = new Map<string, TableRow[]>();
  for (const r of rows) runs.set(r.tool, [...(runs.get(r.tool) ?? []), r]);
  return [...runs.values()].reduce<readonly TableRow[]>((best, run) => (run.length > best.length ? run : best), []);
};

/** Every straight stretch of the way from hole to hole. */
const wayOf = (run: readonly TableRow[]): readonly (readonly [Point, Point])[] =>
  run.flatMap((r, i) => {
    const before = run[i - 1];
    if (before === undefined) return [];
    const stops = [before.set, ...(r.via === null ? [] : [r.via]), r.set];
    return stops.slice(1).map((p, k) => [stops[k] ?? p, p] as const);
  });

const settingWords = ({ x, y }: Point, speech: Speech): string =>
  [x, y].map((v) => minusSign(sayNumber(v, speech))).join(', ');

/** Each setting once, as it reads, with all that is cut there. */
const placesIn = (
  rows: readonly TableRow[],
  speech: Speech,
): readonly { readonly at: Point; readonly words: string; readonly ids: readonly string[] }[] => {
  const places = new Map<string, { readonly at: Point; readonly words: string; readonly ids: Set<string> }>();
  for (const r of rows) {
    const words = settingWords(r.set, speech);
    const place = places.get(words) ?? { at: r.set, words, ids: new Set<string>() };
    place.ids.add(r.note === SLOT_END ? `${r.hole} end` : r.note === CORNER ? `${r.hole} corner` : r.hole);
    places.set(words, place);
  }
  return [...places.values()].map(({ at, words, ids }) => ({ at, words, ids: [...ids] }));
};

/**
 * The plate as it lies on the machine with one side uppermost, in the table's own axes: zero and both axes named, the
 * blank, clamps and jaws, every hole with its setting, and the way that the table takes.
 */
export const settingPicture = (plate: Plate, table: MachinistTable, side: Side, lettering: Lettering): Picture => {
  const m: Motion = compose(side === 'B' ? identity : flipX, table.motion);
  const speech = { unit: table.unit, fraction: null };
  const blank = seen(blankBox(table), side);
  const clamps = table.clamps.map((c) => seen(c, side));
  const outline = movePath(m, plate.outline.path);
  const whole = boxOf([...cornersOf(blank), ...clamps.flatMap(cornersOf), { x: 0, y: 0 }]);
  const scale = scaleFor(cornersOf(whole));
  const rows = table.rows.filter((r) => r.side === side && r.op !== 'face');
  const run = longestRun(rows);
  const way = wayOf(run);
  const reach = {
    x: Math.max(whole.right, 8 * scale.capital) + 3 * scale.gap,
    y: Math.max(whole.top, 8 * scale.capital) + 3 * scale.gap,
  };
  const size = (id: string): number =>
    plate.holes.find((c) => id.startsWith(`${c.id} `) || c.id === id)?.diameter ?? 2 * scale.capital;
  const cut = new Set(rows.map((r) => r.hole));
  const labels: readonly Label[] = [
    ...placesIn(rows, speech).map(({ at, words, ids }) => ({
      // A slot has two settings.
      id: `${ids.join(' ')} at ${words}`,
      centre: at,
      radius: Math.max(...ids.map(size)) / 2,
      lines: [ids.join(' '), words],
    })),
    // What is cut from the other side is named too, so that the plate is known by it.
    ...plate.holes
      .filter((h) => !cut.has(h.id))
      .map((h) => ({ id: h.id, centre: apply(m, h), radius: h.diameter / 2, lines: [h.id] })),
  ];
  const rim = rectangle('note', blank, pens.behind);
  const zero = zeroShapes(blank, scale, speech);
  const solid: readonly Obstacle[] = [
    ...crossable(pathObstacles(outline)),
    ...boreEdges(plate).flatMap(({ edge }) => crossable(pathObstacles(movePath(m, edge)))),
    ...crossable(shapeObstacles(clamps.flatMap(clampShapes))),
    ...axisHeads(reach, scale),
    ...crossable(shapeObstacles([rim])),
    ...shapeObstacles(zero),
  ];
  const thin = crossable([
    lineObstacle({ x: 0, y: 0 }, { x: reach.x, y: 0 }),
    lineObstacle({ x: 0, y: 0 }, { x: 0, y: reach.y }),
    ...way.map(([from, to]) => lineObstacle(from, to)),
  ]);
  const {
    shapes: named,
    shortened,
    unnamed: missing,
  } = labelShapes(
    labels,
    { solid, thin, leader: LEADER, about: { x: (blank.left + blank.right) / 2, y: (blank.bottom + blank.top) / 2 } },
    scale,
    lettering,
  );
  const saying = (ids: readonly string[]): string =>
    labels
      .filter((l) => ids.includes(l.id))
      .map((l) => l.id)
      .join('; ');
  const shapes = [
    rim,
    ...zero,
    pathShape('note', outline, pens.narrow),
    ...boreEdges(plate).map(({ b, edge }) =>
      group(b.id, [
        pathShape('note', movePath(m, edge), b.side === side || b.side === 'through' ? pens.narrow : pens.hidden),
      ]),
    ),
    ...plate.holes.map((h) =>
      group(h.id, [
        pathShape('note', movePath(m, holePath(h)), pens.narrow),
        ...crossHair('note', apply(m, h), { open: 0, reach: h.diameter * 0.7 }, pens.hair),
      ]),
    ),
    ...clamps.flatMap(clampShapes),
    ...way.flatMap(([from, to]) => arrow('note', from, to, pens.hair, scale.capital * 0.8)),
    ...axesShapes(reach, scale),
    ...named,
  ];
  const blocked = table.clear.filter((c) => !c.ok);
  const notes = [
    `Side ${side} uppermost: X to the right, Y up, zero at ` +
      `${table.origin}${table.horizontal === null ? '' : `, X along ${table.horizontal}`}. Settings in ` +
      `${table.unit === 'in' ? 'inches' : 'millimetres'}.`,
    `${way.length === 0 ? '' : `Arrows show the way from hole to hole with ${run[0]?.tool ?? 'each tool'}. `}The ` +
      'double-dotted line is the blank, and the arrows beside it say how far zero lies from its ' +
      `edges${clamps.length === 0 ? '' : ', crossed boxes are clamps and jaws'}.`,
    ...(shortened.length === 0 ? [] : [`No room for their settings in the drawing: ${saying(shortened)}.`]),
    ...(missing.length === 0 ? [] : [`No room to name in the drawing: ${saying(missing)}.`]),
    ...(blocked.length === 0 ? [] : [`In the way: ${blocked.map((c) => `clamp ${c.clamp} (${c.hole})`).join(', ')}.`]),
  ];
  return sheet(`On the machine, side ${side} uppermost`, shapes, notes, scale, 1, lettering);
};
