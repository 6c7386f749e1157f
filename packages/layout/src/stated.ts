import { MM_PER_INCH, fitCircle, toDegrees, sayAll } from '@fayplate/core';
import type { Face, LayoutSpec, StatedCircle, StatedGrid } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import { type About, type Group, centreOf } from './groups/group.js';
import { informationOf, placesFor, polarOf } from './groups/headings.js';
import type { Measured } from './measured.js';
import { sayRound } from './prior/length.js';
import { reportingOf } from './reporting.js';
import type { Candidate } from './types.js';
import { type Reporting, candidate } from './weigh/candidate.js';
import { type Settled, allFree } from './weigh/quantise.js';

type Stated = Extract<LayoutSpec, { readonly kind: 'stated' }>;
type Built =
  | { readonly ok: true; readonly group: Group; readonly diameter: number | null }
  | { readonly ok: false; readonly why: string };

const indicesOf = (measured: Measured, ids: readonly string[]): readonly number[] | string => {
  const lost = ids.filter((id) => !measured.ids.includes(id));
  return lost.length > 0
    ? `${sayAll(lost)} ${lost.length === 1 ? 'is' : 'are'} not located`
    : ids.map((id) => measured.ids.indexOf(id));
};

/**
 * The feature that stands at 12 o'clock about this one by the face's own frame; null where the frame goes by something
 * else.
 */
const uprightOf = ({ answering: { frame }, measured }: Reporting, about: number): string | null => {
  if (frame.origin !== measured.ids[about] || 'across' in frame) return null;
  if ('up' in frame) return frame.up;
  return typeof frame.direction === 'object' ? frame.direction.up : null;
};

const statedCircle = (circle: StatedCircle, rest: readonly string[], reporting: Reporting, face: Face): Built => {
  const { measured } = reporting;
  const members = indicesOf(measured, circle.features ?? rest);
  if (typeof members === 'string') return { ok: false, why: members };
  const centre = circle.about ?? face.centre;
  const aboutIndex = centre === null ? -1 : measured.ids.indexOf(centre);
  if (circle.about !== null && aboutIndex < 0) return { ok: false, why: `${circle.about} is not located` };
  const fitted = fitCircle(members.map((m) => measured.points[m] ?? { x: 0, y: 0 }));
  if (aboutIndex < 0 && fitted === null)
    return { ok: false, why: 'a circle about its own centre needs three centres that are not in a line' };
  const about: About = aboutIndex >= 0 ? { feature: aboutIndex } : { own: fitted?.centre ?? { x: 0, y: 0 } };
  if (members.length < (aboutIndex >= 0 ? 1 : 3)) return { ok: false, why: 'no feature is left for the stated circle' };
  const polar = polarOf(measured, members, about);
  const diameter = circle.diameter ?? (2 * polar.distances.reduce((a, b) => a + b, 0)) / members.length;
  if (circle.divisions === null) {
    return {
      ok: true,
      group: { kind: 'circle', members, about, headings: polar.headings, diameter },
      diameter: circle.diameter,
    };
  }
  const n = circle.divisions;
  const part = (2 * Math.PI) / n;
  const held = circle.phase !== null;
  const zero = Math.PI / 2 - (circle.phase ?? 0);
  const up = uprightOf(reporting, aboutIndex);
  if (
    circle.phase !== null &&
    up !== null &&
    members.includes(measured.ids.indexOf(up)) &&
    Math.abs(Math.sin((n * circle.phase) / 2)) > 1e-6
  ) {
    return {
      ok: false,
      why:
        `${up} stands at 12 o'clock, for the face says \`up: ${up}\`; a phase of ` +
        `${Number(toDegrees(circle.phase).toFixed(3))}° leaves no division there: leave \`phase\` out, or set ` +
        `another feature \`up\``,
    };
  }
  const found = held
    ? { heading: zero, places: polar.headings.map((a) => ((Math.round((zero - a) / part) % n) + n) % n) }
    : placesFor(polar, informationOf(polar.headingCovariance), n);
  const twice = members
    .filter((_, k) => found.places.indexOf(found.places[k] ?? -1) !== k)
    .map((m) => measured.ids[m] ?? '');
  if (twice.length > 0)
    return { ok: false, why: `of ${n} equal divisions ${sayAll(twice)} would share one with another feature` };
  return {
    ok: true,
    diameter: circle.diameter,
    group: {
      kind: 'divided',
      members,
      about,
      divisions: n,
      places: found.places,
      heading: found.heading,
      held,
      diameter,
    },
  };
};

const statedGrid = (grid: StatedGrid, rest: readonly string[], reporting: Reporting): Built => {
  const { measured } = reporting;
  const { frame } = reporting.answering;
  const members = indicesOf(measured, grid.features ?? rest);
  if (typeof members === 'string') return { ok: false, why: members };
  const from = measured.ids.indexOf(frame.origin);
  if (from < 0) return { ok: false, why: "a grid counts from a feature: name the face's `centre`, or `across`" };
  const zero = centreOf({ feature: from }, measured);
  const inch = Math.abs((64 * grid.step) / MM_PER_INCH - Math.round((64 * grid.step) / MM_PER_INCH)) < 1e-9;
  const steps = members.map((m): readonly [number, number] => {
    const p = measured.points[m] ?? zero;
    return [Math.round((p.x - zero.x) / grid.step), Math.round((p.y - zero.y) / grid.step)];
  });
  return {
    ok: true,
    diameter: null,
    group: {
      kind: 'grid',
      members: members.filter((m) => m !== from),
      about: { feature: from },
      step: grid.step,
      unit: inch ? 'in' : 'mm',
      axis: 0,
      held: true,
      steps: steps.filter((_, k) => members[k] !== from),
    },
  };
};

/** A layout stated in the job, adjusted with its constraints in the face's own frame; or why it cannot be drawn. */
export const statedLayout = (
  face: Face,
  located: LocatedFace,
  stated: Stated,
): { readonly ok: true; readonly candidate: Candidate } | { readonly ok: false; readonly why: string } => {
  const reporting = reportingOf(face, located);
  const named = new Set([...stated.circles.flatMap((c) => c.features ?? []), ...(stated.grid?.features ?? [])]);
  const rest = reporting.measured.fasteners.map((i) => reporting.measured.ids[i] ?? '').filter((id) => !named.has(id));
  const open = stated.circles.filter((c) => c.features === null).length;
  if (open > 1)
    return { ok: false, why: 'several circles are stated without `features`: say which features each one carries' };
  const circles = stated.circles.map((c) => statedCircle(c, rest, reporting, face));
  const grids = stated.grid === null ? [] : [statedGrid(stated.grid, open > 0 ? [] : rest, reporting)];
  const groups: Group[] = [];
  const diameters: (number | null)[] = [];
  for (const built of [...circles, ...grids]) {
    if (!built.ok) return built;
    if (built.group.members.length === 0) continue;
    groups.push(built.group);
    if (built.group.kind !== 'grid') diameters.push(built.diameter);
  }
  const way: Settled = {
    ...allFree,
    values: diameters,
    unitOf: diameters.map((d) => (d === null ? null : sayRound(d, 'in').includes('.') ? 'mm' : 'in')),
  };
  const made = candidate(reporting, groups, way, 1);
  return made === null
    ? { ok: false, why: 'the stated layout cannot be adjusted to the centres' }
    : { ok: true, candidate: made };
};
