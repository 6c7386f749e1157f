import { type Point, type Speech, add, subtract } from '@fayplate/core';
import {
  type Lettering,
  type Picture,
  type Shape,
  circle,
  crossHair,
  ellipse,
  group,
  inGrey,
  line,
  pens,
} from '@fayplate/drawing';
import type { Face, FeatureKind } from '@fayplate/job';
import { type Candidate, type FaceLayout, sayLayout } from '@fayplate/layout';
import type { LocatedFace } from '@fayplate/survey';
import { extentOf, isLarge, placedFeatures, viewedWords } from './face.js';
import { type Label, crossable, labelShapes, shapeObstacles } from './labels.js';
import { arrayShapes, circleShapes, gridShapes, gridWords, mirrorShapes } from './layout-shapes.js';
import { enlargement, scaleFor, sheet } from './sheet.js';

/** Corners of the square round a circle of the construction. */
const cornersOf = ({ centre, diameter }: Candidate['circles'][number]): readonly Point[] =>
  [-0.5, 0.5].map((s) => ({ x: centre.x + s * diameter, y: centre.y + s * diameter }));

const takenWords = ({ chosen, candidates }: FaceLayout): string =>
  chosen === null
    ? 'The likeliest, yet not likely enough to be taken'
    : (candidates[chosen]?.finer.length ?? 0) > 0
      ? 'Taken, as far as it is sure'
      : 'Taken';

/**
 * Measured centres with their ellipses, the intended positions and the construction that makes them, at true scale;
 * `times`: how much larger ellipses and steps are drawn, null for what suits.
 */
export const layoutPicture = (
  face: Face,
  located: LocatedFace,
  layout: FaceLayout,
  speech: Speech,
  lettering: Lettering,
  times: number | null = null,
): Picture => {
  const placed = placedFeatures(face, located);
  const extent = extentOf(placed);
  const [first] = layout.candidates;
  const shown = first !== undefined && (layout.chosen !== null || first.odds > layout.asMeasured) ? first : null;
  const scale = scaleFor([...extent, ...(shown?.circles ?? []).flatMap(cornersOf)]);
  const widest = Math.max(0, ...placed.map(([, at]) => at.ellipse95.major));
  const larger = times ?? enlargement(widest, 3.2 * scale.capital);
  const construction: readonly Shape[] =
    shown === null
      ? []
      : [
          ...shown.circles.flatMap((c) => circleShapes(c, scale)),
          ...(shown.grid === null ? [] : gridShapes(shown.grid, shown, located)),
          ...(shown.mirror === null ? [] : mirrorShapes(shown.mirror, shown, extent)),
          ...shown.arrays.flatMap((a) => arrayShapes(a, scale)),
        ];
  const rims = placed.flatMap(([f, at]) =>
    isLarge(f) ? [circle('note', at, at.radius ?? 2, inGrey(pens.narrow, 0.4))] : [],
  );
  const measured = placed.flatMap(([, at]) =>
    [
      at.ellipse95.major === 0
        ? crossHair('note', at, { open: 0, reach: scale.capital * 0.5 }, pens.hair)
        : ellipse(
            'note',
            at,
            { major: larger * at.ellipse95.major, minor: larger * at.ellipse95.minor, angle: at.ellipse95.angle },
            pens.narrow,
          ),
    ].flat(),
  );
  // The step from measured to intended is enlarged as the ellipses are, so that both can be compared by eye.
  const intended = [...(shown?.features ?? [])].flatMap(([id, f]) => {
    const at = located.features.get(id);
    if (at === undefined) return [];
    const moved = { x: at.x + larger * (f.x - at.x), y: at.y + larger * (f.y - at.y) };
    return [...crossHair('note', moved, { open: 0, reach: scale.capital * 0.55 }, pens.wide)];
  });
  // Where only a coarser level is taken: the likeliest whole drawing beside it, on the slant and thin.
  const [beyond] = shown?.finer ?? [];
  const likely = [...(beyond?.features ?? [])].flatMap(([id, f]) => {
    const at = located.features.get(id);
    if (at === undefined) return [];
    const moved = { x: at.x + larger * (f.x - at.x), y: at.y + larger * (f.y - at.y) };
    const arm = scale.capital * 0.35;
    return [1, -1].map((side) =>
      line('note', subtract(moved, { x: arm, y: side * arm }), add(moved, { x: arm, y: side * arm }), pens.hair),
    );
  });
  const labels: readonly Label[] = placed.map(([f, at]) => ({
    id: f.id,
    centre: at,
    radius: isLarge(f) ? 1.2 : Math.max(larger * at.ellipse95.major, scale.capital * 0.7) + 0.3,
    lines: [f.id],
  }));
  const lines = construction.filter((c) => c.kind === 'path' && c.stroke === pens.centre);
  const solid = [
    ...crossable(shapeObstacles([...lines, ...rims])),
    ...shapeObstacles([...measured, ...intended, ...likely]),
  ];
  const named = labelShapes(labels, { solid, thin: crossable(shapeObstacles(construction)) }, scale, lettering);
  const shapes = [
    group('construction', construction),
    group('measured', [...rims, ...measured]),
    group('intended', [...intended, ...likely]),
    ...named.shapes,
  ];
  const kindOf = (id: string): FeatureKind => face.features.find((f) => f.id === id)?.kind ?? 'hole';
  const notes = [
    shown === null
      ? layout.rough === null
        ? 'No simple layout fits.'
        : `Near to ${layout.rough.says}, but the holes miss it everywhere by more than the readings allow.`
      : `${takenWords(layout)}: ${sayLayout(shown, kindOf, speech)}.`,
    shown === null
      ? `Ellipse: where the centre was measured, 95 %, drawn ${larger} times larger. ${viewedWords(face)}.`
      : 'Ellipse: where the centre was measured, 95 %. Cross: where the maker ' +
        `${layout.chosen === null ? 'may have meant' : 'meant'} it. Both steps and ellipses are drawn ${larger} ` +
        `times larger. ${viewedWords(face)}.`,
    ...(beyond === undefined
      ? []
      : [`Thin cross on the slant: the likeliest whole drawing, ${sayLayout(beyond, kindOf, speech)}.`]),
    ...(shown === null || shown.grid === null ? [] : [gridWords(shown.grid)]),
    ...(named.unnamed.length === 0 ? [] : [`No room to name in the drawing: ${named.unnamed.join(', ')}.`]),
  ];
  const title =
    shown === null
      ? 'no simple layout'
      : layout.chosen === null
        ? 'as its maker may have meant it'
        : beyond === undefined
          ? 'as its maker meant it'
          : 'as its maker meant it, as far as that is sure';
  return sheet(`${face.name}: ${title}`, shapes, notes, scale, 1, lettering);
};
