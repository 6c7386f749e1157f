import { type Point, type Speech, add, dot, polar, subtract } from '@fayplate/core';
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
import {
  type Candidate,
  type FaceLayout,
  type LaidArray,
  type LaidCircle,
  type LaidGrid,
  sayLayout,
} from '@fayplate/layout';
import type { LocatedFace } from '@fayplate/survey';
import { extentOf, isLarge, placedFeatures, viewedWords } from './face.js';
import { type Label, crossable, labelShapes, shapeObstacles } from './labels.js';
import { type Scale, enlargement, scaleFor, sheet } from './sheet.js';

/**
 * Direction of a division, counter-clockwise from +x: divisions are counted clockwise from the phase, which is
 * clockwise from 12.
 */
const directionOf = (c: LaidCircle, division: number): number =>
  Math.PI / 2 - c.clockwisePhase - (division * 2 * Math.PI) / (c.divisions ?? 1);

const divisionEnds = (c: LaidCircle, scale: Scale): readonly (readonly [Point, Point])[] =>
  c.divisions === null || c.divisions > 48
    ? []
    : Array.from({ length: c.divisions }, (_, k) => {
        const a = directionOf(c, k);
        return [
          add(c.centre, polar(c.diameter / 2 - 2 * scale.capital, a)),
          add(c.centre, polar(c.diameter / 2 + 2 * scale.capital, a)),
        ] as const;
      });

const circleShapes = (c: LaidCircle, scale: Scale): readonly Shape[] => {
  const empty = Array.from({ length: c.divisions ?? 0 }, (_, k) => k).filter((k) => !c.occupied.includes(k));
  return [
    circle('note', c.centre, c.diameter / 2, pens.centre),
    ...crossHair('note', c.centre, { open: 0, reach: 2 * scale.capital }, pens.hair),
    ...divisionEnds(c, scale).map(([from, to]) => line('note', from, to, pens.hair)),
    ...empty.map((k) =>
      circle('note', add(c.centre, polar(c.diameter / 2, directionOf(c, k))), scale.capital * 0.45, pens.hidden, 1),
    ),
  ];
};

/** Marks on an axis are no closer than this, mm: where the step is finer every second, fifth, tenth … is drawn. */
const CLOSEST = 2;

const stepsApart = (g: LaidGrid): number => [1, 2, 5, 10, 20, 50, 100].find((k) => k * g.step >= CLOSEST) ?? 100;

const gridWords = (g: LaidGrid): string =>
  `Marks on the two axes: ${stepsApart(g) === 1 ? `every step of ${g.says}` : `every ${stepsApart(g)} steps of ${g.says}`}, from ${g.from}.`;

/** The two axes of the grid from its zero, marked at its steps, and each feature's own lines down to them. */
const gridShapes = (g: LaidGrid, candidate: Candidate, located: LocatedFace): readonly Shape[] => {
  const zero = candidate.features.get(g.from) ?? located.features.get(g.from);
  if (zero === undefined) return [];
  const [ux, uy] = [polar(1, g.axis), polar(1, g.axis + Math.PI / 2)];
  const at = (u: number, v: number): Point => ({ x: zero.x + u * ux.x + v * uy.x, y: zero.y + u * ux.y + v * uy.y });
  const places = g.features.flatMap((id) => {
    const f = candidate.features.get(id);
    return f === undefined ? [] : [{ u: dot(subtract(f, zero), ux), v: dot(subtract(f, zero), uy) }];
  });
  const every = g.step * stepsApart(g);
  const ends = (values: readonly number[]): readonly [number, number] => [
    Math.min(0, ...values) - every,
    Math.max(0, ...values) + every,
  ];
  const marks = ([from, to]: readonly [number, number]): readonly number[] => {
    const first = Math.ceil(from / every);
    return Array.from({ length: Math.floor(to / every) - first + 1 }, (_, k) => (first + k) * every);
  };
  const [alongU, alongV] = [ends(places.map((p) => p.u)), ends(places.map((p) => p.v))];
  const thin = inGrey(pens.hair, 0.35);
  return [
    line('note', at(alongU[0], 0), at(alongU[1], 0), pens.centre),
    line('note', at(0, alongV[0]), at(0, alongV[1]), pens.centre),
    ...marks(alongU).map((u) => line('note', at(u, 0), at(u, 0.8), pens.hair)),
    ...marks(alongV).map((v) => line('note', at(0, v), at(0.8, v), pens.hair)),
    ...places.flatMap(({ u, v }) => [line('note', at(u, 0), at(u, v), thin), line('note', at(0, v), at(u, v), thin)]),
  ];
};

/** The line of symmetry, a little past what is drawn at either end; across it, what joins a single pair. */
const mirrorShapes = (
  { axis, through, pair, features }: NonNullable<Candidate['mirror']>,
  candidate: Candidate,
  extent: readonly Point[],
): readonly Shape[] => {
  const u = polar(1, axis);
  const along = extent.map((p) => dot(subtract(p, through), u));
  const [from, to] = [Math.min(...along), Math.max(...along)];
  const past = Math.max(5, 0.08 * (to - from));
  const [one, other] = features.map((id) => candidate.features.get(id));
  const across =
    pair === null || one === undefined || other === undefined
      ? []
      : [line('note', one, other, inGrey(pens.hair, 0.35))];
  return [
    line('note', add(through, polar(from - past, axis)), add(through, polar(to + past, axis)), pens.centre),
    ...across,
  ];
};

/** How the middle of a pattern is set off: along its rows from what it is set off from, then across. */
const offsetShapes = ({ centre, axis, offset }: LaidArray, scale: Scale): readonly Shape[] => {
  if (offset === null) return [];
  const corner = subtract(centre, polar(offset.by[1], axis + Math.PI / 2));
  const from = subtract(corner, polar(offset.by[0], axis));
  const thin = inGrey(pens.hair, 0.35);
  return [
    line('note', from, corner, thin),
    line('note', corner, centre, thin),
    ...crossHair('note', centre, { open: 0, reach: scale.capital }, pens.hair),
  ];
};

/** The lines of rows and columns, and the places on them that carry nothing. */
const arrayShapes = (a: LaidArray, scale: Scale): readonly Shape[] => {
  const [along, across] = [polar(1, a.axis), polar(1, a.axis + Math.PI / 2)];
  const offset = (k: number, count: number, pitch: number | null): number => (k - (count - 1) / 2) * (pitch ?? 0);
  const at = (u: number, v: number): Point => ({
    x: a.centre.x + u * along.x + v * across.x,
    y: a.centre.y + u * along.y + v * across.y,
  });
  const past = 3 * scale.capital;
  const [wide, high] = [
    offset(a.columns - 1, a.columns, a.pitch[0]) + past,
    offset(a.rows - 1, a.rows, a.pitch[1]) + past,
  ];
  const columns = Array.from({ length: a.columns }, (_, i) => offset(i, a.columns, a.pitch[0]));
  const rows = Array.from({ length: a.rows }, (_, j) => offset(j, a.rows, a.pitch[1]));
  const taken = new Set(a.occupied.map((o) => o.join(' ')));
  const empty = columns.flatMap((u, i) => rows.flatMap((v, j) => (taken.has(`${i} ${j}`) ? [] : [at(u, v)])));
  return [
    ...columns.map((u) => line('note', at(u, -high), at(u, high), pens.centre)),
    ...rows.map((v) => line('note', at(-wide, v), at(wide, v), pens.centre)),
    ...offsetShapes(a, scale),
    ...empty.map((p) => circle('note', p, scale.capital * 0.45, pens.hidden, 1)),
  ];
};

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
        : `Near to ${layout.rough.says}, but the holes miss it everywhere by more than the readings do.`
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
