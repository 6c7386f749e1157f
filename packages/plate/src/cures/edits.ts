import { formatClock } from '@fayplate/core';
import type { FastenSpec, Job, LocateSpec, PlateSpec } from '@fayplate/job';
import { fastenSpecOf } from '../treat/holes.js';
import type { JobEdit } from '../types.js';

type Value = JobEdit['to'];

const edit = (at: readonly string[], before: Value, after: Value): readonly JobEdit[] =>
  before === after ? [] : [{ at, to: after }];

const heads = ['nut', 'cap screw', 'countersunk screw'] as const;

/** Sunk or not, as the job file says it of a nut or a head. */
const seat = ({ head, sunk }: FastenSpec, kind: (typeof heads)[number]): string =>
  head !== kind ? '' : sunk === 'none' ? 'plain' : sunk;

const engaged = ({ engagement }: FastenSpec): Value =>
  engagement === null ? '' : 'times' in engagement ? `${engagement.times} d` : engagement.length;

const fastening = (face: string, before: FastenSpec, after: FastenSpec): readonly JobEdit[] => {
  const at = (key: string): readonly string[] => ['plate', 'fasten', face, key];
  const left = [...after.except].filter(([id, as]) => before.except.get(id) !== as);
  return [
    ...edit(at('as'), before.as, after.as),
    ...edit(at('thread'), before.thread ?? '', after.thread ?? ''),
    ...edit(at('engagement'), engaged(before), engaged(after)),
    ...edit(at('blind'), before.blind ? 'true' : '', after.blind ? 'true' : ''),
    ...heads.flatMap((kind) => {
      // A nut or head with sizes of its own keeps them.
      const own = before.own !== null && before.head === kind && after.head === kind;
      return edit(own ? [...at(kind), 'sunk'] : at(kind), seat(before, kind), seat(after, kind));
    }),
    ...left.map(([id, as]) => ({ at: [...at('except'), id], to: as })),
  ];
};

const locating = (face: string, before: LocateSpec | undefined, after: LocateSpec): readonly JobEdit[] => {
  const at = (key: string): readonly string[] => ['plate', 'locate', face, key];
  // Another way to locate: nothing of the one before stays.
  const anew = before === undefined || before.as === after.as ? [] : [{ at: ['plate', 'locate', face], to: '' }];
  switch (after.as) {
    case 'register': {
      const own = before?.as === 'register' ? before : null;
      return [
        ...anew,
        ...edit(at('register'), own?.diameter.value ?? '', after.diameter.value),
        ...edit(at('depth'), own?.depth ?? '', after.depth ?? ''),
      ];
    }
    case 'new dowels':
      return [...anew, { at: at('dowels'), to: String(after.count) }, { at: at('diameter'), to: after.diameter }];
    case 'own dowels':
      return [...anew, { at: at('dowels'), to: [...after.features] }, { at: at('second'), to: after.second }];
  }
};

/** Where jacking and lifting holes sit on their circle. */
const extraHoles = (before: PlateSpec, after: PlateSpec): readonly JobEdit[] =>
  after.extras.flatMap(({ what, clocks }) => {
    const was = before.extras.find((e) => e.what === what)?.clocks ?? [];
    if (clocks.every((c, i) => c === was[i])) return [];
    const [one = '', ...more] = clocks.map(formatClock);
    return [{ at: ['plate', what, 'clock'], to: more.length === 0 ? one : [one, ...more] }];
  });

/**
 * What is to be written into the job file so that one job becomes the other. What is done to a part is no edit of the
 * plate.
 */
export const editsBetween = (before: Job, after: Job): readonly JobEdit[] => {
  const [plate, next] = [before.plate, after.plate];
  if (plate === null || next === null) return [];
  const round = (spec: typeof plate): Value =>
    spec.outline.shape === 'round' && spec.outline.diameter !== null ? spec.outline.diameter : '';
  return [
    ...next.between.flatMap((face) => fastening(face, fastenSpecOf(plate, face), fastenSpecOf(next, face))),
    ...[...next.locate].flatMap(([face, spec]) =>
      plate.locate.get(face) === spec ? [] : locating(face, plate.locate.get(face), spec),
    ),
    ...edit(['plate', 'bore', 'diameter'], plate.bore?.diameter ?? '', next.bore?.diameter ?? ''),
    ...edit(['plate', 'outline', 'diameter'], round(plate), round(next)),
    ...extraHoles(plate, next),
  ];
};
