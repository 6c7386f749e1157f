import { type Box, type Speech, circlePath, polygonPath, sayNumber } from '@fayplate/core';
import { type Obstacle, circle, crossHair, group, growBox, joinBoxes, pathShape, pens } from '@fayplate/drawing';
import { edgeObstacles, softWords } from './marks.js';
import type { Template, TemplateHole, TemplateLabel } from './types.js';

/** A feature of a part as its readings place it, mm in the face's own frame (as it is looked at). */
export interface PartFeature {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  /** Null where nobody has measured it: it carries a cross alone. */
  readonly diameter: number | null;
  /** ± of its place at 95 %, mm. */
  readonly plusMinus: number;
  /** A spigot, bore or boss, which the others stand about. */
  readonly large: boolean;
}

const placeWords = (mm: number, speech: Speech): string => sayNumber(mm, { ...speech, fraction: null });

/** Paper beyond the outermost feature, mm: enough to hold and to cut round. */
const BEYOND = 12;
const ARM = 2.5;
const BORE_ARM = 6;

const radiusOf = (f: PartFeature): number => (f.diameter ?? 0) / 2;
const about = (f: PartFeature): Box => {
  const r = radiusOf(f) + ARM;
  return { left: f.x - r, right: f.x + r, bottom: f.y - r, top: f.y + r };
};

/**
 * One part by itself at true scale, as one looks at it, each feature at its own size: cut out and laid on the part, it
 * shows at once whether the readings are those of this part, before any plate is drawn. `looked`: from where the face
 * is seen, in a few words.
 */
export const partTemplate = (
  name: string,
  looked: string,
  features: readonly PartFeature[],
  speech: Speech,
): Template => {
  const box = growBox(joinBoxes(features.map(about)) ?? { left: 0, right: 0, bottom: 0, top: 0 }, BEYOND);
  const outline = polygonPath([
    { x: box.left, y: box.bottom },
    { x: box.right, y: box.bottom },
    { x: box.right, y: box.top },
    { x: box.left, y: box.top },
  ]);
  const reach = (f: PartFeature): number => (f.large ? BORE_ARM : radiusOf(f) + ARM);
  const holes: readonly TemplateHole[] = features.map((f) => ({ id: f.id, at: { x: f.x, y: f.y }, keep: reach(f) }));
  const rims = features.flatMap((f) => (f.diameter === null ? [] : [circlePath(f, f.diameter / 2)]));
  const obstacles: readonly Obstacle[] = [...edgeObstacles(outline), ...rims.flatMap(edgeObstacles)];
  const [middle] = features.filter((f) => f.large);
  return {
    what: 'part',
    side: null,
    title: `Part template · ${name} · ${looked}`,
    parts: [{ name, fromPlate: [1, 0, 0, 1, 0, 0] }],
    holes,
    outlines: [outline, ...rims],
    way: null,
    box,
    shapes: [
      pathShape('cut', outline, pens.narrow),
      ...features.map((f) =>
        group(f.id, [
          ...(f.diameter === null ? [] : [circle('cut', f, f.diameter / 2, f.large ? pens.wide : pens.narrow)]),
          ...crossHair(
            'mark',
            f,
            { open: f.large ? 0.8 : Math.min(0.8, 0.7 * radiusOf(f)), reach: reach(f) },
            pens.narrow,
          ),
        ]),
      ),
    ],
    obstacles,
    labels: features.map((f): TemplateLabel => ({
      id: f.id,
      short: f.id,
      centre: { x: f.x, y: f.y },
      radius: f.large ? 1 : radiusOf(f),
      reach: reach(f),
      settings: [f.diameter === null ? [f.id] : [f.id, `⌀${softWords(f.diameter, speech)}`], [f.id]],
    })),
    blocks: [
      {
        near:
          middle === undefined
            ? { x: (box.left + box.right) / 2, y: (box.bottom + box.top) / 2 }
            : { x: middle.x, y: middle.y - 12 },
        lines: [
          { text: name, capital: 5, weight: 'bold' },
          { text: looked, capital: 3, weight: 'regular' },
          { text: 'Cut out the circles and lay it on the part', capital: 2.5, weight: 'regular' },
          { text: 'Check the ruler first', capital: 2.5, weight: 'bold' },
        ],
      },
    ],
    facts: [['Part', `${name}, ${looked}`]],
    list: {
      columns: [
        { title: 'Feature', align: 'left' },
        { title: `X, ${speech.unit}`, align: 'point' },
        { title: `Y, ${speech.unit}`, align: 'point' },
        { title: `⌀, ${speech.unit}`, align: 'point' },
        { title: `±, ${speech.unit}`, align: 'point' },
      ],
      rows: features.map((f) => [
        f.id,
        ...[f.x, f.y].map((v) => placeWords(v, speech)),
        f.diameter === null ? '' : placeWords(f.diameter, speech),
        placeWords(f.plusMinus, speech),
      ]),
    },
  };
};
