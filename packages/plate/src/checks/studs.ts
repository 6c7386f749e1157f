import type { Draft } from '../draft.js';
import type { Placed } from '../desk.js';
import { meets } from '../parts/footprint.js';
import { studNeeds } from '../treat/sink.js';
import { fastenOf } from '../treat/holes.js';
import { threadOf } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import { type Finding, SLACK, finding } from './check.js';

export const featureOf = (draft: Draft, hole: PlateHole): Placed | null =>
  draft.desk.placed.find((p) => p.name === hole.feature) ?? null;

/** From the part's face to the seat of nut or head on the plate's far side, shims included, mm. */
export const grip = (draft: Draft, hole: PlateHole, p: Placed): number => {
  const sink = hole.sink !== null && hole.sink.kind !== 'countersunk' ? hole.sink.depth : 0;
  const seat = p.side === 'A' ? hole.land[1] - sink : draft.desk.thickness - hole.land[0] - sink;
  return seat + draft.desk.shims;
};

/** Depth of plate that a fastener leans through at the clearance diameter: what is sunk wider does not count, mm. */
const leanLength = (hole: PlateHole): number =>
  hole.land[1] - hole.land[0] - (hole.sink !== null && hole.sink.kind !== 'countersunk' ? hole.sink.depth : 0);

/**
 * A stud that leans by θ, held at the plate's near side, needs a hole of radius r / cos θ + L tan θ to pass L mm of plate:
 * the level section of a leaning cylinder is an ellipse of half-width r / cos θ, and it wanders by L tan θ.
 */
const leaning = (hole: PlateHole, p: Placed): readonly Finding[] => {
  const lean = p.feature.lean;
  if (lean === null || hole.fastener === null || hole.as !== 'clearance') return [];
  const near = hole.fastener / 2 / Math.cos(lean) + leanLength(hole) * Math.tan(lean);
  return [
    finding('a leaning stud clears the whole thickness', [hole.id], hole.diameter / 2 - near, 0, {
      source: 'geometry of a leaning cylinder',
      at: hole,
    }),
  ];
};

/**
 * How far a stud's end stands past where the other part may begin, mm; negative: below it. That is the plate's far side, or the floor of the
 * recess there that the other part fills.
 */
const pastPlate = (draft: Draft, hole: PlateHole, p: Placed, stands: number): number => {
  const { thickness, shims } = draft.desk;
  const [low, high] = hole.land[1] > hole.land[0] ? hole.land : [0, thickness];
  return stands - Math.min(thickness, p.side === 'A' ? high : thickness - low) - shims;
};

const isStud = (hole: PlateHole, p: Placed): boolean => p.feature.kind === 'stud' && hole.fastening?.kind === 'stud';
const isDowel = (p: Placed): boolean => p.feature.kind === 'dowel';

/** A stud or dowel of the part whose end stands past the plate's far side. */
export const endsPast = (draft: Draft, hole: PlateHole, p: Placed): boolean =>
  (isStud(hole, p) || isDowel(p)) && p.feature.stands !== null && pastPlate(draft, hole, p, p.feature.stands) > SLACK;

/** Whether the other part lies over the end of a stud. */
const endMeets = (draft: Draft, hole: PlateHole, p: Placed): 'yes' | 'no' | 'not known' =>
  hole.fastener === null ? 'no' : meets(draft.parts[p.side === 'A' ? 1 : 0], hole, hole.fastener / 2);

/** What stands through the plate must not reach the other part. */
const end = (draft: Draft, hole: PlateHole, p: Placed, stands: number): readonly Finding[] => {
  const other = draft.desk.faces[p.side === 'A' ? 1 : 0].name;
  const rule = isDowel(p) ? "dowel's end under the other part" : "stud's end under the other part";
  return endMeets(draft, hole, p) === 'yes'
    ? [
        finding(rule, [hole.id, other], pastPlate(draft, hole, p, stands), 0, {
          source: 'geometry',
          sense: 'most',
          at: hole,
        }),
      ]
    : [];
};

const oneStud = (draft: Draft, hole: PlateHole, p: Placed, stands: number): readonly Finding[] => {
  const thread = threadOf(hole.fastening?.thread ?? null);
  const needs = thread === null ? null : studNeeds(thread, fastenOf(draft.desk, p.face.name).washer);
  return [
    ...(needs === null
      ? []
      : [
          finding('stud left for its nut and washer', [hole.id], stands - grip(draft, hole, p), needs, {
            source: 'common practice: nut, washer and one thread showing',
            at: hole,
          }),
        ]),
    ...end(draft, hole, p, stands),
  ];
};

export interface StudFindings {
  readonly findings: readonly Finding[];
  readonly unknowns: readonly string[];
}

const listed = (holes: readonly { readonly hole: PlateHole }[]): string => holes.map((s) => s.hole.id).join(', ');

export const studFindings = (draft: Draft): StudFindings => {
  const all = draft.holes.flatMap((hole) => {
    const p = featureOf(draft, hole);
    return p === null ? [] : [{ hole, p, stud: isStud(hole, p), dowel: isDowel(p), stands: p.feature.stands }];
  });
  const unknowns = draft.desk.faces.flatMap((face, i) => {
    const own = all.filter((s) => s.stud && s.p.face === face);
    const unmeasured = own.filter((s) => s.stands === null);
    const dowels = all.filter((s) => s.dowel && s.p.face === face);
    const unmeasuredDowels = dowels.filter((s) => s.stands === null);
    const past = [...own, ...dowels].filter(
      (s) =>
        s.stands !== null &&
        pastPlate(draft, s.hole, s.p, s.stands) > 0 &&
        endMeets(draft, s.hole, s.p) === 'not known',
    );
    const other = draft.desk.faces[i === 0 ? 1 : 0].name;
    return [
      ...(unmeasured.length === 0
        ? []
        : [
            `How far the studs of ${face.name} stand out is not given (${unmeasured.map((s) => s.p.feature.id).join(', ')}): write \`stands\`, so that their length can be checked.`,
          ]),
      ...(unmeasuredDowels.length === 0
        ? []
        : [
            `How far the dowels of ${face.name} stand out is not given (${unmeasuredDowels.map((s) => s.p.feature.id).join(', ')}): write \`stands\`, so that they are known to end within the plate.`,
          ]),
      ...(past.length === 0
        ? []
        : [
            `The ${past.every((s) => s.dowel) ? 'dowels' : past.some((s) => s.dowel) ? 'studs and dowels' : 'studs'} in ${listed(past)} end past the plate, and whether ${other} reaches over them is not known: give the \`rim\` of ${other}, or cut them back.`,
          ]),
    ];
  });
  const measured = ({ hole, p, stud, dowel, stands }: (typeof all)[number]): readonly Finding[] =>
    stands === null ? [] : stud ? oneStud(draft, hole, p, stands) : dowel ? end(draft, hole, p, stands) : [];
  return { findings: all.flatMap((s) => [...measured(s), ...leaning(s.hole, s.p)]), unknowns };
};
