import { type Motion, type Point, apply, covarianceOfPoints, wrapAngle } from '@fayplate/core';
import { bestFit, movePattern } from '@fayplate/plate';
import type { Pattern } from '@fayplate/survey';
import { layOn } from '../prove/lay.js';
import type { Attempt } from './attempt.js';
import { otherClockings, otherPlaces } from './other-places.js';
import type { WrongHole } from './types.js';
import { type MidwayGiven, jointsWith, leave } from './works.js';

const picked = (p: Pattern, ids: readonly string[]): Pattern => {
  const at = ids.map((id) => p.ids.indexOf(id));
  return {
    ids,
    points: at.flatMap((i) => p.points[i] ?? []),
    radii: at.map((i) => p.radii[i] ?? null),
    covariance: covarianceOfPoints(p.covariance, at),
  };
};

/**
 * The drilled holes laid so that the one that has least clearance among them has the most: what is left is then drawn
 * round them.
 */
export const relaid = (given: MidwayGiven, laid: Pattern): { readonly laid: Pattern; readonly motion: Motion } => {
  const joints = jointsWith(given, laid).flatMap((met) =>
    met.spec.joints.filter((_, i) => laid.ids.includes(met.holes[i] ?? '')),
  );
  const { turn, shift } = bestFit(joints);
  const motion: Motion = { mirrored: false, turn, shift };
  return { motion, laid: joints.length < 2 ? laid : movePattern(motion, laid) };
};

const without = (laid: Pattern, ids: readonly string[]): Pattern =>
  picked(
    laid,
    laid.ids.filter((id) => !ids.includes(id)),
  );

/**
 * Other uses of what is drilled: the plate turned or turned over on the parts, or the second part turned on the plate.
 */
export const turnedWays = (
  given: MidwayGiven,
  laid: Pattern,
  wrong: readonly WrongHole[],
): { readonly attempts: readonly Attempt[]; readonly all: boolean } => {
  const { plate, mated } = given;
  const designed = new Map([...plate.holes, ...plate.bores].map((h): [string, Point] => [h.id, { x: h.x, y: h.y }]));
  const { uses, all } = otherPlaces(plate, laid, wrong.length);
  const whole = uses.map((use): Attempt => {
    const used = picked(laid, [...use.names.keys()]);
    const named = layOn({ ...movePattern(use.motion, used), ids: [...use.names.values()] }, designed);
    const moved = relaid(given, named);
    const turned = use.over ? 0 : -wrapAngle(use.motion.turn);
    return {
      kind: use.over ? 'turn over' : 'turn',
      laid: moved.laid,
      serves: use.names,
      turn: turned,
      turns: null,
      works: use.unused.map((id) => leave(id, plate)),
      unused: new Map(
        use.unused.flatMap((id) => {
          const at = laid.points[laid.ids.indexOf(id)];
          return at === undefined ? [] : [[id, apply(use.motion, at)] as const];
        }),
      ),
    };
  });
  const second = mated[1];
  if (second === undefined) return { attempts: whole, all };
  const own = laid.ids.filter((id) => plate.holes.some((h) => h.id === id && h.part?.face === second.face));
  const others = laid.ids.filter((id) => !own.includes(id));
  const pivot = second.axis?.at ?? second.centre;
  const clocked = otherClockings(plate, laid, pivot).map(({ turn, names }): Attempt => {
    const kept = picked(laid, [...others, ...names.keys()]);
    const unused = own.filter((id) => !names.has(id));
    return {
      kind: 'turn',
      laid: { ...kept, ids: [...others, ...names.values()] },
      serves: names,
      turn: -turn,
      turns: second.face,
      clocking: plate.clocking - turn,
      works: unused.map((id) => leave(id, plate)),
      unused: placesIn(laid, unused),
    };
  });
  const astray = wrong.map((w) => w.id).filter((id) => own.includes(id));
  const search = given.job.plate?.clocking;
  const dodge: readonly Attempt[] =
    astray.length === 0 || own.some((id) => !astray.includes(id))
      ? []
      : [
          {
            kind: 'turn',
            laid: without(laid, astray),
            turn: plate.clocking,
            turns: second.face,
            clocking:
              search !== undefined && 'search' in search
                ? { from: search.search[0], to: search.search[1] }
                : { from: -Math.PI, to: Math.PI },
            works: astray.map((id) => leave(id, plate)),
            unused: placesIn(laid, astray),
          },
        ];
  return { attempts: [...whole, ...clocked, ...dodge], all };
};

const placesIn = (laid: Pattern, ids: readonly string[]): ReadonlyMap<string, Point> =>
  new Map(
    ids.flatMap((id) => {
      const at = laid.points[laid.ids.indexOf(id)];
      return at === undefined ? [] : [[id, at] as const];
    }),
  );
