import { type Requirement, say } from '@fayplate/core';
import { unknown } from './unknown.js';
import type { Draft } from '../draft.js';
import type { Placed } from '../desk.js';
import { meets } from '../parts/footprint.js';
import { studNeeds } from '../treat/sink.js';
import { fastenOf } from '../treat/holes.js';
import { usualDrilling } from '../limits.js';
import { knownGasket } from '../stack/gasket.js';
import { threadOf } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import { fitsFor, looser, sunk } from '../cures/fasteners.js';
import { cutBack, longer, thicker, thinner, thinnerToLean } from '../cures/plate.js';
import { faceOf, holesOf, shortOf, turnOf } from '../cures/about.js';
import { places, sayBoth, short } from '../words/say.js';
import { type CheckKind, type Found, SLACK, found, marginOf } from './check.js';

export const featureOf = (draft: Draft, hole: PlateHole): Placed | null =>
  draft.desk.placed.find((p) => p.name === hole.feature) ?? null;

/**
 * From the part's face to the seat of nut or head on the plate's far side, shims and the gasket between them included,
 * mm.
 */
export const grip = (draft: Draft, hole: PlateHole, p: Placed): number => {
  const sink = hole.sink !== null && hole.sink.kind !== 'countersunk' ? hole.sink.depth : 0;
  const seat = p.side === 'A' ? hole.land[1] - sink : draft.desk.thickness - hole.land[0] - sink;
  return seat + draft.desk.shims + knownGasket(draft.desk.job, p.face.name);
};

/** Depth of plate that a fastener leans through at the clearance diameter: what is sunk wider does not count, mm. */
const leanLength = (hole: PlateHole): number =>
  hole.land[1] - hole.land[0] - (hole.sink !== null && hole.sink.kind !== 'countersunk' ? hole.sink.depth : 0);

/**
 * A stud that leans by θ, held at the plate's near side, needs a hole of radius r / cos θ + L tan θ to pass L mm of
 * plate: the level section of a leaning cylinder is an ellipse of half-width r / cos θ, and it wanders by L tan θ.
 */
const leaning = (draft: Draft, { hole, p }: Standing): readonly Found[] => {
  const lean = p.feature.lean;
  if (lean === null || hole.fastener === null || hole.as !== 'clearance') return [];
  const near = hole.fastener / 2 / Math.cos(lean) + leanLength(hole) * Math.tan(lean);
  // What play is left takes up the ± of the stud's place and of the hole's, each by its own chance.
  const place = Math.hypot(2 * p.sigma, draft.desk.spec.drilling ?? usualDrilling);
  return [
    found([hole.id], hole.diameter / 2 - near, place, {
      source: 'geometry of a leaning cylinder; the ± of both places counts',
      at: hole,
    }),
  ];
};

/**
 * How far a stud's end stands past where the other part may begin, mm; negative: below it. That is the plate's far
 * side, or the floor of the recess there that the other part fills; gaskets on both faces lie between.
 */
const pastPlate = (draft: Draft, hole: PlateHole, p: Placed, stands: number): number =>
  stands - mostStanding(draft, hole, p);

/** How far a stud or dowel may stand out of its face before its end is where the other part may begin, mm. */
export const mostStanding = (draft: Draft, hole: PlateHole, p: Placed): number => {
  const { thickness, shims, job, faces } = draft.desk;
  const gaskets = faces.reduce((sum, f) => sum + knownGasket(job, f.name), 0);
  const [low, high] = hole.land[1] > hole.land[0] ? hole.land : [0, thickness];
  return Math.min(thickness, p.side === 'A' ? high : thickness - low) + shims + gaskets;
};

/** A stud of the part that passes the plate. */
export const isStud = (hole: PlateHole, p: Placed): boolean =>
  p.feature.kind === 'stud' && hole.fastening?.kind === 'stud';
const isDowel = (p: Placed): boolean => p.feature.kind === 'dowel';

/** A stud or dowel of the part whose end stands past the plate's far side. */
export const endsPast = (draft: Draft, hole: PlateHole, p: Placed): boolean =>
  (isStud(hole, p) || isDowel(p)) && p.feature.stands !== null && pastPlate(draft, hole, p, p.feature.stands) > SLACK;

/** Whether the other part lies over the end of a stud. */
export const endMeets = (draft: Draft, hole: PlateHole, p: Placed): 'yes' | 'no' | 'not known' => {
  const past = pastPlate(draft, hole, p, p.feature.stands ?? 0);
  return hole.fastener === null ? 'no' : meets(draft.parts[p.side === 'A' ? 1 : 0], hole, hole.fastener / 2, past);
};

/** A hole of the plate and the feature of the part that it is for. */
interface Standing {
  readonly hole: PlateHole;
  readonly p: Placed;
}

const standingIn = (draft: Draft): readonly Standing[] =>
  draft.holes.flatMap((hole) => {
    const p = featureOf(draft, hole);
    return p === null ? [] : [{ hole, p }];
  });

/** What stands through the plate must not reach the other part. */
const end = (draft: Draft, { hole, p }: Standing): readonly Found[] => {
  const { stands } = p.feature;
  if (stands === null || endMeets(draft, hole, p) !== 'yes') return [];
  const other = draft.desk.faces[p.side === 'A' ? 1 : 0].name;
  return [
    found([hole.id, other], pastPlate(draft, hole, p, stands), 0, { source: 'geometry', sense: 'most', at: hole }),
  ];
};

const nutLength = (draft: Draft, { hole, p }: Standing): readonly Found[] => {
  const thread = threadOf(hole.fastening?.thread ?? null);
  const needs = studNeeds(thread, fastenOf(draft.desk, p.face.name));
  return needs === null || p.feature.stands === null
    ? []
    : [
        found([hole.id], p.feature.stands - grip(draft, hole, p), needs, {
          source: 'common practice: nut, washer and one thread showing',
          at: hole,
        }),
      ];
};

const listed = (all: readonly Standing[]): string => all.map((s) => s.hole.id).join(', ');

/** Studs and dowels whose length is not given, or whose end may meet the other part. */
export const studUnknowns = (draft: Draft): readonly Requirement[] => {
  const all = standingIn(draft);
  return draft.desk.faces.flatMap((face, i) => {
    const own = all.filter((s) => isStud(s.hole, s.p) && s.p.face === face);
    const dowels = all.filter((s) => isDowel(s.p) && s.p.face === face);
    const unmeasured = own.filter((s) => s.p.feature.stands === null);
    const unmeasuredDowels = dowels.filter((s) => s.p.feature.stands === null);
    const past = [...own, ...dowels].filter(
      (s) =>
        s.p.feature.stands !== null &&
        pastPlate(draft, s.hole, s.p, s.p.feature.stands) > 0 &&
        endMeets(draft, s.hole, s.p) === 'not known',
    );
    const what = past.every((s) => isDowel(s.p))
      ? 'dowels'
      : past.some((s) => isDowel(s.p))
        ? 'studs and dowels'
        : 'studs';
    const ids = (some: readonly Standing[]): string => some.map((s) => s.p.feature.id).join(', ');
    const other = draft.desk.faces[i === 0 ? 1 : 0].name;
    return [
      ...(unmeasured.length === 0
        ? []
        : [
            unknown(
              'stud-length',
              `How far the studs of ${face.name} stand out is not given (${ids(unmeasured)}): write \`stands\`, so ` +
                'that their length can be checked.',
              'measure it, so that their length can be checked',
            ),
          ]),
      ...(unmeasuredDowels.length === 0
        ? []
        : [
            unknown(
              'dowel-length',
              `How far the dowels of ${face.name} stand out is not given (${ids(unmeasuredDowels)}): write ` +
                `\`stands\`, so that they are known to end within the plate.`,
              'measure it, so that they are known to end within the plate',
            ),
          ]),
      ...(past.length === 0
        ? []
        : [
            unknown(
              'end-under-part',
              `The ${what} in ${listed(past)} end past the plate, and whether ${other} reaches over them is not ` +
                `known: give the \`rim\` of ${other}, or cut them back.`,
              `measure the outline of ${other} (its diameter, where it is round), or cut them back`,
            ),
          ]),
    ];
  });
};

/** Face of the first hole that a finding is about. */
const firstFace = (holes: readonly PlateHole[]): string | null => (holes[0] === undefined ? null : faceOf(holes[0]));

export const studLength: CheckKind = {
  id: 'stud-length',
  title: 'stud left for its nut and washer',
  meaning: 'weak',
  margin: marginOf,
  find: (draft) => standingIn(draft).flatMap((s) => (isStud(s.hole, s.p) ? nutLength(draft, s) : [])),
  cures: (t, f) => {
    const holes = holesOf(t.draft, f);
    return [...thinner(t, shortOf(t.draft, f)), ...sunk(t, holes), ...longer(t, f, firstFace(holes))];
  },
  say: (c, speech) =>
    c.value < 0
      ? `the stud in ${c.of[0] ?? ''} ends ${short(-c.value, speech)} below the seat of its nut`
      : `the stud in ${c.of[0] ?? ''} stands only ${sayBoth(c, speech)[0]} above the seat of its nut, where ` +
        `${sayBoth(c, speech)[1]} is wanted`,
};

export const studEnd: CheckKind = {
  id: 'stud-end',
  title: "stud's end under the other part",
  meaning: 'apart',
  margin: marginOf,
  find: (draft) => standingIn(draft).flatMap((s) => (isStud(s.hole, s.p) ? end(draft, s) : [])),
  cures: (t, f) => [...thicker(t, shortOf(t.draft, f)), ...turnOf(t), ...cutBack(t, f, firstFace(holesOf(t.draft, f)))],
  say: (c, speech) => `the end of the stud in ${c.of[0] ?? ''} stands ${short(c.value, speech)} into ${c.of[1] ?? ''}`,
};

export const dowelEnd: CheckKind = {
  ...studEnd,
  id: 'dowel-end',
  title: "dowel's end under the other part",
  find: (draft) => standingIn(draft).flatMap((s) => (isDowel(s.p) && !isStud(s.hole, s.p) ? end(draft, s) : [])),
  say: (c, speech) => `the dowel's end in ${c.of[0] ?? ''} stands ${short(c.value, speech)} into ${c.of[1] ?? ''}`,
};

export const studLean: CheckKind = {
  id: 'stud-lean',
  title: 'a leaning stud clears the whole thickness',
  meaning: 'apart',
  margin: marginOf,
  find: (draft) => standingIn(draft).flatMap((s) => leaning(draft, s)),
  cures: (t, f) => {
    const holes = holesOf(t.draft, f);
    return [...fitsFor(t, holes, looser), ...sunk(t, holes), ...thinnerToLean(t, holes)];
  },
  say: (c, speech) =>
    `the stud in ${c.of[0] ?? ''} may lean ` +
    `${say(c.limit - c.value, speech, places(speech))} more than its hole lets it`,
};
