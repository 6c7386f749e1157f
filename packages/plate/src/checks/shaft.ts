import { type Requirement, sayAll } from '@fayplate/core';
import { openingsOf, throughAt } from '../bores/bores.js';
import { isShaft } from '../bores/relief.js';
import { withinBore } from '../bores/shape.js';
import { widerBore } from '../cures/plate.js';
import type { Draft } from '../draft.js';
import type { MatedFace } from '../types.js';
import { sayPlain, sayValue, short } from '../words/say.js';
import { type CheckKind, type Found, found, marginOf } from './check.js';
import { unknown } from './unknown.js';

/** What passes the plate about one shaft's axis: its name, its diameter and the ± of where it runs, mm. */
interface Passing {
  readonly name: string;
  readonly diameter: number;
  readonly at: MatedFace['centre'];
  readonly plusMinus: number;
}

/** The shaft of a face, its key, coupling and nut, as far as their sizes are given. */
const passingOf = (draft: Draft, index: 0 | 1): readonly Passing[] => {
  const face = draft.desk.faces[index];
  const { axis } = draft.desk.mated[index];
  const own = draft.desk.placed.find((p) => p.face === face && isShaft(draft.desk, p, draft.bores));
  const at = axis?.at ?? draft.desk.mated[index].centre;
  const place = draft.desk.placed.find((p) => p.face === face && p.feature.id === axis?.feature);
  const plusMinus = 2 * (place?.sigma ?? 0);
  const sizes = face.shaftSizes;
  const all: readonly (readonly [string, number | null])[] = [
    [`the shaft of ${face.name}`, sizes?.diameter ?? own?.diameter ?? null],
    [`the key of ${face.name}'s shaft`, sizes?.overKey ?? null],
    [`the coupling of ${face.name}`, sizes?.coupling ?? null],
    [`the nut on ${face.name}'s shaft`, sizes?.nut ?? null],
  ];
  return all.flatMap(([name, diameter]) => (diameter === null ? [] : [{ name, diameter, at, plusMinus }]));
};

const passing = (draft: Draft): readonly Passing[] => [...passingOf(draft, 0), ...passingOf(draft, 1)];

/**
 * How far what turns keeps from the wall all round, mm: the offset that the shafts may have. Source: common practice.
 */
const RUNS_CLEAR = 0.2;

const TURNS = 'common practice: what turns runs clear by what the shafts may be out of line; the ± of its place counts';

/** How deep the opening for a shaft is that does not go through; 0 where there is none. */
const blindAt = (p: Passing, { bores, holes, desk }: Draft): readonly [id: string, depth: number] => {
  if (desk.spec.nothingPasses) return ['the plate', 0];
  const [deepest] = openingsOf(bores, holes)
    .filter((b) => withinBore(p.at, b) > 0)
    .toSorted((a, b) => (b.depth ?? desk.thickness) - (a.depth ?? desk.thickness));
  return deepest === undefined ? ['the plate', 0] : [deepest.id, deepest.depth ?? desk.thickness];
};

/**
 * Everything that turns with a shaft passes the openings about it, wherever the ± of its place puts it; and there is
 * one that goes through.
 */
const passes = (draft: Draft): readonly Found[] =>
  passing(draft).flatMap((p) => {
    const [widest] = throughAt(p.at, openingsOf(draft.bores, draft.holes), draft.desk.thickness)
      .map((b) => ({ b, clear: withinBore(p.at, b) - p.diameter / 2 }))
      .toSorted((a, b) => b.clear - a.clear);
    if (widest === undefined) {
      const { spec, thickness } = draft.desk;
      // With nothing said of a bore it is asked for.
      if (spec.bore === null && !spec.nothingPasses) return [];
      const [id, depth] = blindAt(p, draft);
      return [found([id, p.name], depth - thickness, 0, { source: 'geometry: a shaft needs a way through', at: p.at })];
    }
    return [found([widest.b.id, p.name], widest.clear, p.plusMinus + RUNS_CLEAR, { source: TURNS, at: widest.b })];
  });

export const borePassesShaft: CheckKind = {
  id: 'bore-passes-shaft',
  title: 'the bore passes the shaft',
  meaning: 'apart',
  margin: marginOf,
  find: passes,
  cures: widerBore,
  say: (c, speech) =>
    c.limit === 0
      ? `${c.of[1] ?? ''} does not pass: ` +
        (c.of[0] === 'the plate'
          ? 'the plate has no opening for it'
          : `${c.of[0] ?? ''} ends ${short(-c.value, speech)} before it is through`)
      : c.value < 0
        ? `${c.of[1] ?? ''} does not pass ${c.of[0] ?? ''}: all round it is ${short(-c.value, speech)} too small`
        : sayPlain(c, speech),
};

/** Whether anything says that a shaft passes the plate: a shaft, a chain along one, or a register on either side. */
export const hasShaft = (draft: Draft): boolean => {
  const { job, faces, spec } = draft.desk;
  return (
    faces.some((f) => f.shaft !== null) ||
    job.stack !== null ||
    faces.every((f) => spec.locate.get(f.name)?.as === 'register')
  );
};

export const shaftUnknowns = (draft: Draft): readonly Requirement[] => {
  const { desk } = draft;
  if (desk.spec.nothingPasses || !hasShaft(draft)) return [];
  const at = desk.mated[0].axis?.at ?? desk.mated[0].centre;
  if (
    throughAt(at, openingsOf(draft.bores, draft.holes), desk.thickness).length === 0 &&
    (desk.spec.bore === null || passing(draft).length === 0)
  )
    return [
      unknown(
        'bore',
        'No bore is given for the shaft to pass: write `bore: { diameter: … }`, or `bore: none` where nothing ' +
          'passes the plate.',
        'state its diameter, or that nothing passes the plate',
      ),
    ];
  return passing(draft).length > 0
    ? []
    : [
        unknown(
          'shaft-size',
          `Whether the bore passes the shaft is not checked: give its size, such as \`shaft: { diameter: ` +
            `${desk.job.units === 'in' ? '15/16, over key: 1 1/16' : '24 mm, over key: 27 mm'} }\` on ` +
            `${sayAll(desk.faces.map((f) => f.name)).replace(' and ', ' or ')}.`,
          'measure the shaft, over its key too',
        ),
      ];
};

/** What only trials of the whole plate tell; `fit/together` finds these, and proposes its own cures for the first. */
const byTrials = { margin: marginOf, find: () => [], cures: () => [] } as const;

export const chanceOfGoingOn: CheckKind = {
  ...byTrials,
  id: 'goes-on',
  title: 'chance that it goes on',
  meaning: 'chance',
  say: (c, speech) => `${c.of[0] ?? ''} goes on ${sayValue(c, c.value, speech).replace(' %', '')} times in 100`,
};

export const shaftOffset: CheckKind = {
  ...byTrials,
  id: 'shaft-offset',
  title: 'offset of the shafts',
  meaning: 'line',
  say: sayPlain,
};

export const shaftDirection: CheckKind = {
  ...byTrials,
  id: 'shaft-direction',
  title: 'direction of the second shaft',
  meaning: 'line',
  say: sayPlain,
};

export const shaftTilt: CheckKind = {
  ...byTrials,
  id: 'shaft-tilt',
  title: 'tilt of the shafts',
  meaning: 'line',
  say: sayPlain,
};
