import { type Box, type Path, type Point, type Speech, pathBox, say } from '@fayplate/core';
import { type Obstacle, joinBoxes, pathShape, pens } from '@fayplate/drawing';
import { PUNCHED } from '@fayplate/machining';
import { type Plate, type Side, boreEdge, centresInShort } from '@fayplate/plate';
import { type Affine, carry, carryPath, mirrored, unchanged } from '../geometry/affine.js';
import { BORE_ARM, boreLabel, boreSets, boreShapes, drillList } from './bores.js';
import { armObstacles, centreLine, clockMark, edgeObstacles } from './marks.js';
import { RING, armReach, holeShapes, outermost, punchPoints, slotEdge } from './hole-shapes.js';
import type { Template, TemplateBlock, TemplateHole, TemplateLabel } from './types.js';
import { type PunchedHole, holeSettings, thickWords } from './words.js';

/** What a drill template needs of a plate. */
export type DrilledPlate = Pick<Plate, 'faces' | 'thickness' | 'material' | 'clocking' | 'bores'> & {
  readonly centres?: Plate['centres'];
  readonly holes: readonly PunchedHole[];
  readonly outline: { readonly path: Path };
};

/** How far centre lines stand out of the outline. */
const OUT = 3;

const about = ({ at, keep }: Pick<TemplateHole, 'at' | 'keep'>): Box => ({
  left: at.x - keep,
  right: at.x + keep,
  bottom: at.y - keep,
  top: at.y + keep,
});

const holeLabel = (h: PunchedHole, side: Side, place: Affine, speech: Speech, ringed: boolean): TemplateLabel => {
  const half = (h.slot?.length ?? 0) / 2;
  const edge = slotEdge(h, place);
  return {
    id: h.id,
    short: h.id,
    ...(edge === null ? {} : { edge }),
    centre: carry(place, h),
    radius: outermost(h) + half + (ringed ? RING : 0),
    reach: h.slot === null ? armReach(h) : 0,
    settings: holeSettings(h, side, speech, ringed),
  };
};

/** The 12 o'clock of the first face, and of the second where it is turned. */
const clocksOf = (plate: DrilledPlate, outline: Path, flip: 1 | -1) => {
  const turned = Math.abs(plate.clocking) > 1e-9;
  const [first, second] = plate.faces;
  const all = [
    { name: first, words: turned ? `12 o'clock of ${first}` : "12 o'clock", direction: Math.PI / 2 },
    ...(turned
      ? [{ name: second, words: `12 o'clock of ${second}`, direction: Math.PI / 2 - flip * plate.clocking }]
      : []),
  ];
  return all.map((c) => ({ ...c, ...clockMark(outline, { x: 0, y: 0 }, c.direction) }));
};

/** ± of paper and punch as the machinist's table says it. */
const punchedWords = (speech: Speech): string =>
  say(PUNCHED, { ...speech, fraction: null }, speech.unit === 'in' ? 3 : 2);

const sideBlock = (plate: DrilledPlate, side: Side, behind: string, near: Point, speech: Speech): TemplateBlock => ({
  near,
  lines: [
    { text: `Side ${side} faces you`, capital: 5, weight: 'bold' },
    { text: `${behind} behind the plate`, capital: 3, weight: 'regular' },
    {
      text: `${thickWords(plate.thickness, speech)} thick · sizes in ${speech.unit === 'in' ? 'inches' : 'mm'}`,
      capital: 2.5,
      weight: 'regular',
    },
    { text: 'Check the ruler before you punch', capital: 2.5, weight: 'bold' },
    { text: `Paper and punch: ± ${punchedWords(speech)}`, capital: 2.5, weight: 'regular' },
    ...centresInShort({ centres: plate.centres ?? [] }, speech).map((text) => ({
      text,
      capital: 2.5,
      weight: 'regular' as const,
    })),
  ],
});

/**
 * The drilling template of one side, in the frame in which the paper is seen: plate mm, x turned about for side A.
 * Seen from side B the first face lies behind the plate, seen from side A the second. `byReadOut`: holes for which
 * paper and punch are too coarse; they carry a ring and no cross.
 */
export const drillTemplate = (
  plate: DrilledPlate,
  side: Side,
  speech: Speech,
  byReadOut: readonly string[] = [],
): Template => {
  const ringed = new Set(byReadOut);
  const place = side === 'B' ? unchanged : mirrored;
  const behind = side === 'B' ? plate.faces[0] : plate.faces[1];
  const outline = carryPath(place, plate.outline.path);
  const box = pathBox(outline);
  const sets = boreSets(plate.bores);
  const holes = plate.holes.flatMap((h) =>
    punchPoints(h, place).map((at): TemplateHole => ({ id: h.id, at, keep: armReach(h) })),
  );
  const clocks = clocksOf(plate, outline, side === 'B' ? 1 : -1);
  const axes: readonly (readonly [Point, Point])[] = [
    [
      { x: box.left - OUT, y: 0 },
      { x: box.right + OUT, y: 0 },
    ],
    [
      { x: 0, y: box.bottom - OUT },
      { x: 0, y: box.top + OUT },
    ],
  ];
  const punched = [...holes, ...sets.map(([b]) => ({ at: carry(place, b), keep: BORE_ARM }))];
  const slots = plate.holes.filter((h) => h.slot !== null);
  const circles = plate.bores.flatMap((b) => {
    const edge = boreEdge(b, plate.outline.path);
    return edge === null ? [] : [{ path: carryPath(place, edge), cut: b.side === 'through' }];
  });
  return {
    what: 'drill',
    side,
    title: `Drill template · side ${side} up · ${behind} behind`,
    parts: [{ name: 'plate', fromPlate: place }],
    holes,
    way: { plusMinus: PUNCHED, byReadOut: plate.holes.flatMap((h) => (ringed.has(h.id) ? [h.id] : [])) },
    outlines: [outline, ...circles.filter((c) => c.cut).map((c) => c.path)],
    box: joinBoxes([box, ...punched.map(about)]) ?? box,
    shapes: [
      ...axes.flatMap(([from, to]) => centreLine(from, to, punched)),
      pathShape('cut', outline, pens.wide),
      ...sets.map((set) => boreShapes(set, side, place, plate.outline.path)),
      ...plate.holes.map((h) => holeShapes(h, side, place, ringed.has(h.id))),
      ...clocks.map((c) => c.shape),
    ],
    obstacles: [
      ...edgeObstacles(outline),
      ...circles.flatMap((c) => edgeObstacles(c.path)),
      ...slots.flatMap((h) => punchPoints(h, place).flatMap((p) => armObstacles(p, armReach(h), h.id))),
      ...axes.map(([from, to]): Obstacle => ({ kind: 'segment', crossable: true, segment: { from, to } })),
    ],
    labels: [
      ...plate.holes.map((h) => holeLabel(h, side, place, speech, ringed.has(h.id))),
      ...sets.map((set) => boreLabel(set, place, plate.outline.path, speech)),
      ...clocks.map((c): TemplateLabel => ({
        id: `12 of ${c.name}`,
        short: null,
        centre: c.middle,
        radius: 1.6,
        reach: 0,
        settings: [[c.words]],
      })),
    ],
    blocks: [sideBlock(plate, side, behind, { x: 0, y: (box.bottom * 2 + box.top) / 3 }, speech)],
    facts: [
      ['Faces', `${plate.faces[0]} on side A, ${plate.faces[1]} on side B`],
      [
        'Plate',
        `${plate.material === null ? '' : `${plate.material.name}, `}${thickWords(plate.thickness, speech)} thick`,
      ],
      ...((plate.centres ?? []).length === 0
        ? []
        : [['Centres', centresInShort({ centres: plate.centres ?? [] }, speech).join('; ')] as const]),
    ],
    list: drillList(plate.holes, plate.bores, speech),
  };
};
