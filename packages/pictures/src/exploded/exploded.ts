import { type Point, type Speech, boxOf, distance, polar } from '@fayplate/core';
import { type Lettering, type Picture, type Shape, type Stroke, group, pathShape, pens } from '@fayplate/drawing';
import { type Label, crossable, labelShapes, lineObstacle } from '../labels.js';
import { sheet } from '../sheet.js';
import { axesOf, sceneOf, shaftsOf } from './apart.js';
import { type Mark, clockMarks, isOpen, sideMark } from './marks.js';
import { namesOn, notesOf, oddOnes, wordsOf } from './names.js';
import type { ExplodedInput, Named } from './piece.js';
import { type Chain, type Spot, chainsOf } from './solid.js';
import { hiderOf, project, seenOf } from './visible.js';

/** Room on paper, mm, that a sheet of A4 or Letter leaves the drawing beside its words. */
const ROOM = { width: 172, height: 165 } as const;
/** Scales 1 : n in which a rule is still read by heart. */
const SCALES = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 25, 30, 40, 50, 100] as const;
/** Capitals, the names' and the marks', mm on paper. */
const LETTERS = { capital: 2.5, small: 2.1, gap: 2.5 } as const;
/** Names and numbers off the rim take about this much on either side, mm on paper. */
const AROUND = 15;
/** The letter on a side, in capitals, the largest that goes. */
const SIDES = [4.5, 3.5, 2.5, 1.8, 1.3] as const;

/** Edges of what is cut or bought. */
const EDGE: Stroke = { ...pens.wide, width: 0.35 };

type Runs = readonly (readonly Point[])[];

/**
 * Places on paper to the thousandth of a millimetre, one that is there already left out; of a closed line also its end.
 */
const placesOf = (run: readonly Point[], closed: boolean): readonly Point[] => {
  const places = run
    .map(({ x, y }): Point => ({ x: Math.round(1000 * x) / 1000, y: Math.round(1000 * y) / 1000 }))
    .filter((p, i, all) => i === 0 || p.x !== all[i - 1]?.x || p.y !== all[i - 1]?.y);
  const [first, last] = [places[0], places.at(-1)];
  return closed && places.length > 1 && first?.x === last?.x && first?.y === last?.y ? places.slice(0, -1) : places;
};

/** Lines on paper; those that are filled are closed. */
const drawn = (runs: Runs, stroke: Stroke | null, fill: number | null = null): readonly Shape[] =>
  runs.flatMap((run) => {
    const [start, ...rest] = placesOf(run, fill !== null);
    if (start === undefined || rest.length === 0) return [];
    const edges = rest.map((to) => ({ kind: 'line' as const, to }));
    return [pathShape('note', { start, closed: fill !== null, edges }, stroke, fill)];
  });

const area = (run: readonly Point[]): number =>
  run.reduce((sum, p, i) => {
    const q = run[(i + 1) % run.length] ?? p;
    return sum + (p.x * q.y - p.y * q.x) / 2;
  }, 0);

/** A mark that is wholly seen is filled, on a white ground; of one that is not, what is seen is drawn. */
const markShapes = (
  mark: Mark,
  toPaper: (p: Spot) => Point,
  isHidden: (p: Spot) => boolean,
  runs: Runs,
): readonly Shape[] => {
  if (!isOpen(mark, isHidden)) return drawn(runs, pens.hair);
  const contours = mark.contours.map((c) => c.map(toPaper));
  // Letters run one way about and their counters the other; the triangle has no counter.
  const most = contours.reduce((a, c) => (c.length > 4 && Math.abs(area(c)) > Math.abs(a) ? area(c) : a), 0);
  const isInk = (c: readonly Point[]): boolean => c.length === 4 || area(c) * most > 0;
  return [
    ...drawn([mark.ground.map(toPaper)], null, 1),
    ...drawn(contours.filter(isInk), null, 0),
    ...drawn(
      contours.filter((c) => !isInk(c)),
      null,
      1,
    ),
  ];
};

/** What lettering keeps clear of needs no finer chords than this, mm on paper. */
const COARSE = 1.2;

const obstaclesOf = (runs: Runs) =>
  runs.flatMap((run) => {
    const kept: Point[] = [];
    for (const [i, p] of run.entries()) {
      const last = kept.at(-1);
      if (last === undefined || i === run.length - 1 || distance(last, p) > COARSE) kept.push(p);
    }
    return kept.slice(1).map((b, i) => lineObstacle(kept[i] ?? b, b));
  });

/**
 * Part, gasket, plate, gasket and part pulled apart along the shaft as they go together, with what fastens them on its
 * axis; isometric, to one scale along all three axes, hidden edges left out. `room`: what it may take on paper, mm.
 */
export const explodedPicture = (
  input: ExplodedInput,
  speech: Speech,
  letters: Lettering,
  room: { readonly width: number; readonly height: number } = ROOM,
): Picture => {
  const { plate, mated } = input;
  const scene = sceneOf(input);
  const { pieces, floating, bodies } = scene;
  const edges = bodies.map(chainsOf);
  const on = boxOf(edges.flat(3).map(project));
  const fits = (n: number): boolean =>
    (on.right - on.left) / n + 2 * AROUND <= room.width && (on.top - on.bottom) / n + 2 * AROUND <= room.height;
  const per = SCALES.find(fits) ?? 200;
  const k = 1 / per;
  const toPaper = (p: Spot): Point => {
    const q = project(p);
    return { x: q.x * k, y: q.y * k };
  };
  const isHidden = hiderOf(bodies);
  const size = LETTERS.capital * per;
  const sides = pieces.flatMap((s, i) => {
    const side = s.piece.kind === 'plate' ? 'B' : i === 0 && s.piece.kind === 'part' ? 'A' : null;
    const mark =
      side === null
        ? null
        : sideMark(
            side,
            s,
            SIDES.map((n) => n * size),
            isHidden,
            letters,
          );
    return mark === null || side === null ? [] : [{ side, mark }];
  });
  const marks = [...pieces.flatMap((s) => clockMarks(s, size, letters)), ...sides.map((s) => s.mark)];
  const flat = edges.flat(2);
  const groups: readonly (readonly Chain[])[] = [
    ...edges.flat(),
    axesOf(plate, scene),
    shaftsOf(mated, scene),
    ...marks.map((m) => m.contours),
  ];
  const seen = seenOf(isHidden, flat, groups.flat());
  let from = 0;
  const runs = groups.map((g): Runs =>
    seen
      .slice(from, (from += g.length))
      .flat()
      .map((run) => run.map(({ x, y }) => ({ x: x * k, y: y * k }))),
  );
  let next = 0;
  const take = (n: number): readonly Runs[] => runs.slice(next, (next += n));
  const solid = edges.map((own, i) => {
    const [rim = [], ...rest] = take(own.length);
    const piece = pieces[i]?.piece ?? null;
    return { name: piece?.name ?? floating[i - pieces.length]?.of.axis ?? '', piece, rim, rest: rest.flat() };
  });
  const [axes = [], shafts = []] = take(2);
  const marked = marks.map((mark, i) => ({ mark, runs: runs[next + i] ?? [] }));

  /** Whether half of the mouth of a hole, or of what stands there, is seen. */
  const isSeen = (n: Named, z: number): boolean =>
    [0, 1, 2, 3, 4, 5, 6, 7].filter((i) => {
      const p = polar(0.51 * n.diameter, (i * Math.PI) / 4);
      return !isHidden({ x: n.x + p.x, y: n.y + p.y, z: z + 1e-3 });
    }).length > 3;
  const odd = oddOnes(input, scene, isSeen);
  const oddAxes = new Set(odd.map((o) => o.axis));
  const labels: readonly Label[] = [
    ...solid.flatMap(({ piece, rim }, i): readonly Label[] => {
      const above = (p: Point): number => p.x / 2 + p.y;
      const top = rim.flat().reduce<Point | null>((a, p) => (a === null || above(p) > above(a) ? p : a), null);
      return piece === null || top === null
        ? []
        : [{ id: `piece ${i}`, centre: top, radius: 0.2, lines: wordsOf(piece, plate.faces) }];
    }),
    ...pieces.flatMap(({ piece, by }, i) =>
      namesOn(piece, oddAxes)
        .filter((n) => isSeen(n, piece.top + by))
        .map((n): Label => ({
          id: `${i} ${n.id}`,
          centre: toPaper({ x: n.x, y: n.y, z: piece.top + by }),
          radius: 0.55 * n.diameter * k,
          lines: [n.id],
        })),
    ),
  ];
  const ink = obstaclesOf([
    ...solid.flatMap((b) => [...b.rim, ...b.rest]),
    ...marked.map((m) => [...m.mark.ground, ...m.mark.ground.slice(0, 1)].map(toPaper)),
  ]);
  const thin = obstaclesOf([...axes, ...shafts]);
  const named = labelShapes(labels, { solid: crossable(ink), thin, leader: 12 }, LETTERS, letters);
  const wordOf = (id: string): string => labels.find((l) => l.id === id)?.lines[0] ?? '';
  return sheet(
    'Pulled apart along the shaft',
    [
      ...solid.map((b) =>
        group(b.name, [
          ...drawn(b.rim, b.piece === null ? pens.narrow : b.piece.broken ? pens.hidden : EDGE),
          ...drawn(b.rest, b.piece === null ? pens.narrow : EDGE),
        ]),
      ),
      group('axes', drawn(axes, { ...pens.centre, width: 0.13 })),
      group('shafts', drawn(shafts, pens.centre)),
      group(
        'marks',
        marked.flatMap((m) => markShapes(m.mark, toPaper, isHidden, m.runs)),
      ),
      ...named.shapes,
    ],
    notesOf(
      input,
      scene,
      odd,
      sides.map((s) => s.side),
      named.unnamed.map(wordOf),
      speech,
    ),
    LETTERS,
    k,
    letters,
  );
};
