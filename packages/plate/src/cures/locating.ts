import { DEGREE, distance, formatClock } from '@fayplate/core';
import type { Finding, Trying } from '../checks/check.js';
import { roundUp } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import * as change from './change.js';
import type { Change } from './change.js';
import { faceOf, shortOf } from './about.js';

/** Registers made to go on, or deep enough. */
export const registersFor = (t: Trying, f: Finding, what: 'diameter' | 'depth' | 'entry'): readonly Change[] => {
  const bore = t.draft.bores.find((b) => f.of.includes(b.id));
  const face = bore === undefined ? undefined : (faceOf(bore) ?? undefined);
  const spec = face === undefined ? undefined : t.draft.desk.spec.locate.get(face);
  if (bore === undefined || face === undefined || spec?.as !== 'register') return [];
  const short = shortOf(t.draft, f);
  if (what !== 'diameter') {
    const deeper = what === 'entry' || bore.kind === 'recess';
    const depth = deeper ? roundUp((bore.depth ?? 0) + short, t.job.units) : Math.max(0.5, (bore.depth ?? 0) - short);
    return [
      change.located(t.job, face, `make the register ${t.say(depth)} ${bore.kind === 'recess' ? 'deep' : 'high'}`, {
        ...spec,
        depth,
      }),
    ];
  }
  // A hundredth more than it needs, so that it slides.
  const by = short + 0.01;
  const value = spec.diameter.value + (bore.kind === 'recess' ? by : -by);
  return [
    change.located(t.job, face, `make the register ${t.say(value)}`, {
      ...spec,
      diameter: { ...spec.diameter, value },
    }),
  ];
};

/** New dowels in place of a register that gets in the way. */
export const dowelledInstead = (t: Trying, f: Finding): readonly Change[] => {
  const bore = t.draft.bores.find((b) => f.of.includes(b.id) && (b.kind === 'spigot' || b.kind === 'recess'));
  const face = bore === undefined ? null : faceOf(bore);
  if (face === null) return [];
  const [diameter, name] = t.job.units === 'in' ? [(25.4 * 5) / 16, '5/16 in'] : [8, '8 mm'];
  return [
    change.located(t.job, face, `locate ${face} by two new ${name} dowels in place of its register`, {
      as: 'new dowels',
      count: 2,
      diameter,
    }),
  ];
};

export const dowelsFor = (t: Trying, holes: readonly PlateHole[]): readonly Change[] => {
  const [first] = holes;
  const face = first === undefined ? null : faceOf(first);
  const spec = face === null ? undefined : t.draft.desk.spec.locate.get(face);
  if (face === null || spec?.as !== 'own dowels') return [];
  return [
    change.located(t.job, face, `make the hole for ${face}'s second dowel a slot`, { ...spec, second: 'slot' }),
    change.located(
      t.job,
      face,
      `locate ${face} by ${spec.features.slice(0, 2).join(' and ')} alone, the second in a slot`,
      { ...spec, features: spec.features.slice(0, 2), second: 'slot' },
    ),
  ];
};

/** A jacking or lifting hole at the nearest quarter hours of its circle. */
export const extraMoved = (t: Trying, hole: PlateHole | undefined): readonly Change[] => {
  const spec = t.draft.desk.spec;
  if (hole === undefined || (hole.as !== 'jacking' && hole.as !== 'lifting')) return [];
  return Array.from({ length: 24 }, (_, i) => (i % 2 === 0 ? 1 : -1) * (Math.floor(i / 2) + 1) * 7.5 * DEGREE).map(
    (by) => {
      const extras = spec.extras.map((e) => ({
        ...e,
        clocks: e.clocks.map((c) =>
          e.what === hole.as &&
          distance({ x: (e.circle / 2) * Math.cos(c), y: (e.circle / 2) * Math.sin(c) }, hole) < 1e-6
            ? c + by
            : c,
        ),
      }));
      const at = Math.atan2(hole.y, hole.x) + by;
      return change.extrasMoved(t.job, `move ${hole.id} to ${formatClock(at)}`, extras);
    },
  );
};
