import {
  type Motion,
  type Path,
  type Point,
  type Speech,
  apply,
  circlePath,
  distance,
  flatten,
  flipX,
  identity,
  movePath,
  pathBox,
  say,
} from '@fayplate/core';
import {
  type Lettering,
  type Obstacle,
  type Picture,
  type Shape,
  type Stroke,
  arc,
  circle,
  crossHair,
  group,
  line,
  pathShape,
  pens,
  polygon,
} from '@fayplate/drawing';
import {
  type MatedFace,
  type Plate,
  type PlateBore,
  type PlateHole,
  type Side,
  boreEdge,
  centreWords,
} from '@fayplate/plate';
import { RING, failure, failureWords } from './feature.js';
import { type Label, crossable, labelShapes, lineObstacle, pathObstacles } from './labels.js';
import { NAMES, boreNotes, holeNotes } from './plate-notes.js';
import { type Scale, enlarged, scaleFor, sheet } from './sheet.js';

const quarter = Math.PI / 2;
/** Capitals of a plate that half a page shows full size, mm. */
const UNSHRUNK = 2.5;

/** A slot as the path of a cutter of its width; round where the length is nothing. */
export const holePath = (hole: PlateHole): Path => {
  if (hole.slot === null || hole.slot.length === 0) return circlePath(hole, hole.diameter / 2);
  const r = hole.diameter / 2;
  const u = { x: Math.cos(hole.slot.angle), y: Math.sin(hole.slot.angle) };
  const at = (along: number, across: number): Point => ({
    x: hole.x + along * u.x - across * u.y,
    y: hole.y + along * u.y + across * u.x,
  });
  const h = hole.slot.length / 2;
  return {
    start: at(-h, -r),
    closed: true,
    edges: [
      { kind: 'line', to: at(h, -r) },
      { kind: 'arc', to: at(h, r), centre: at(h, 0), ccw: true },
      { kind: 'line', to: at(-h, r) },
      { kind: 'arc', to: at(-h, -r), centre: at(-h, 0), ccw: true },
    ],
  };
};

const visible = (from: Side, side: Side): Stroke => (from === side ? pens.narrow : pens.hidden);

const holeShape = (h: PlateHole, side: Side, m: Motion): Shape => {
  const c = apply(m, h);
  const r = h.diameter / 2;
  const blindAway = h.depth !== null && h.from !== side;
  return group(h.id, [
    pathShape('note', movePath(m, holePath(h)), blindAway ? pens.hidden : pens.wide),
    ...(h.thread === null
      ? []
      : [arc('note', c, h.thread.major / 2, -quarter * 0.9, 2.1 * quarter, blindAway ? pens.hidden : pens.narrow)]),
    ...(h.sink === null ? [] : [circle('note', c, h.sink.diameter / 2, visible(h.sink.side, side))]),
    ...crossHair('note', c, { open: 0, reach: r * 1.3 }, pens.hair),
  ]);
};

const boreShape = (b: PlateBore, edge: Path, side: Side): Shape =>
  group(b.id, [pathShape('note', edge, b.side === 'through' ? pens.wide : visible(b.side, side))]);

/** Bores that have an edge of their own, with it: that of a notch which goes through is the plate's. */
export const boreEdges = ({
  bores,
  outline,
}: Pick<Plate, 'bores'> & { readonly outline: { readonly path: Path } }): readonly {
  readonly b: PlateBore;
  readonly edge: Path;
}[] =>
  bores.flatMap((b) => {
    const edge = boreEdge(b, outline.path);
    return edge === null ? [] : [{ b, edge }];
  });

/**
 * Where a bore is named: on its rim, each a little further round than the one before, so that those on one axis keep
 * apart.
 */
const onRim = (b: PlateBore, i: number, m: Motion): Point => {
  const c = apply(m, b);
  const a = Math.PI / 4 - (i * Math.PI) / 9;
  return { x: c.x + (b.diameter / 2) * Math.cos(a), y: c.y + (b.diameter / 2) * Math.sin(a) };
};

const clockMark = (direction: number, reach: number, scale: Scale): Shape => {
  const u = { x: Math.cos(direction), y: Math.sin(direction) };
  const at = (along: number, across: number): Point => ({
    x: along * u.x - across * u.y,
    y: along * u.y + across * u.x,
  });
  const s = scale.capital;
  return polygon('note', [at(reach + 1, 0), at(reach + 1 + s, s * 0.45), at(reach + 1 + s, -s * 0.45)], null, 0);
};

/**
 * The plate from one side at true scale; side A is the mirror image of side B, and the drawing says which is seen and
 * what it faces.
 */
export const platePicture = (
  plate: Plate,
  mated: readonly MatedFace[],
  side: Side,
  speech: Speech,
  lettering: Lettering,
): Picture => {
  const m = side === 'B' ? identity : flipX;
  const outline = movePath(m, plate.outline.path);
  const box = pathBox(outline);
  const plain = scaleFor(flatten(outline, 1));
  const scale = plain.capital > UNSHRUNK ? enlarged(plain, NAMES) : plain;
  const failed = plate.checks.filter((c) => !c.ok);
  const [first, second] = plate.faces;
  const seen = side === 'A' ? first : second;
  const rim = flatten(outline, 0.5);
  /** How far the plate reaches in a direction. */
  const reachTo = (a: number): number => Math.max(...rim.map((p) => p.x * Math.cos(a) + p.y * Math.sin(a)));
  const firstClock = Math.PI / 2;
  const secondClock = Math.PI / 2 - plate.clocking;
  const clocks = [firstClock, ...(Math.abs(plate.clocking) < 1e-9 ? [] : [secondClock])].map((a) =>
    side === 'B' ? a : Math.PI - a,
  );
  const marked = failed.flatMap((c) => (c.at === null ? [] : [apply(m, c.at)]));
  const ring = RING.outer * scale.capital;
  const sizeOf = (h: PlateHole): number => {
    const own = Math.max(h.diameter, h.sink?.diameter ?? 0, h.thread?.major ?? 0) / 2 + (h.slot?.length ?? 0) / 2;
    return marked.some((p) => distance(p, apply(m, h)) < own) ? Math.max(own, ring + 0.5) : own;
  };
  const labels: readonly Label[] = [
    ...plate.bores.map((b, i) => ({ id: b.id, centre: onRim(b, i, m), radius: 0.3, lines: [b.id] })),
    ...plate.holes.map((h) => ({ id: h.id, centre: apply(m, h), radius: sizeOf(h), lines: [h.id] })),
    ...clocks.map((a, i) => ({
      id: `clock${i}`,
      centre: { x: (reachTo(a) + 1 + scale.capital) * Math.cos(a), y: (reachTo(a) + 1 + scale.capital) * Math.sin(a) },
      radius: scale.capital * 0.6,
      lines: [`12 o'clock of ${i === 0 ? first : second}`],
    })),
  ];
  const solid: readonly Obstacle[] = [
    ...crossable(pathObstacles(outline)),
    ...boreEdges(plate).flatMap(({ edge }) => crossable(pathObstacles(movePath(m, edge)))),
    ...marked
      .filter((p) => plate.holes.every((h) => distance(p, apply(m, h)) >= sizeOf(h) - ring))
      .map((centre): Obstacle => ({ kind: 'circle', circle: { centre, radius: ring } })),
  ];
  const axes = [
    lineObstacle({ x: box.left - 3, y: 0 }, { x: box.right + 3, y: 0 }),
    lineObstacle({ x: 0, y: box.bottom - 3 }, { x: 0, y: box.top + 3 }),
  ];
  const named = labelShapes(labels, { solid, thin: axes }, scale, lettering);
  const shapes = [
    line('note', { x: box.left - 3, y: 0 }, { x: box.right + 3, y: 0 }, pens.centre),
    line('note', { x: 0, y: box.bottom - 3 }, { x: 0, y: box.top + 3 }, pens.centre),
    pathShape('note', outline, { ...pens.wide, width: 0.7 }),
    ...boreEdges(plate).map(({ b, edge }) => boreShape(b, movePath(m, edge), side)),
    ...plate.holes.map((h) => holeShape(h, side, m)),
    ...clocks.map((a) => clockMark(a, reachTo(a), scale)),
    ...marked.flatMap((p) => failure(p, scale)),
    ...named.shapes,
  ];
  const notes = [
    (
      `Side ${side} faces you; ${seen} lies on this side. ` +
      `${say(plate.thickness, speech, speech.unit === 'in' ? 3 : 2)} thick. Hidden edges are broken lines. ` +
      centreWords(plate, speech)
    ).trim(),
    ...holeNotes(plate, speech),
    ...boreNotes(plate, speech),
    ...(marked.length === 0
      ? []
      : [
          `Ringed twice with a bar, what does not hold: ${failureWords(
            plate,
            failed.filter((c) => c.at !== null),
          )}.`,
        ]),
    ...(marked.length === failed.length
      ? []
      : [
          `What does not hold and has no one place: ${failureWords(
            plate,
            failed.filter((c) => c.at === null),
          )}.`,
        ]),
    ...(named.unnamed.length === 0 ? [] : [`No room to name in the drawing: ${named.unnamed.join(', ')}.`]),
  ];
  return sheet(
    `Plate, side ${side}: toward ${mated.find((f) => f.side === side)?.face ?? seen}`,
    shapes,
    notes,
    plain,
    1,
    lettering,
  );
};
