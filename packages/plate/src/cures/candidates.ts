import { DEGREE, distance, formatClock } from '@fayplate/core';
import { type Thread, clearanceHole } from '@fayplate/handbook';
import type { Fit, Job } from '@fayplate/job';
import type { Finding } from '../checks/check.js';
import type { Desk } from '../desk.js';
import type { Draft } from '../draft.js';
import { fastenOf } from '../treat/holes.js';
import { nextSmaller, roundUp, threadOf } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import * as change from './change.js';
import type { Change } from './change.js';

export interface Trying {
  readonly job: Job;
  readonly draft: Draft;
  /** Radians clockwise; null where turning cures nothing. */
  readonly turn: number | null;
  readonly say: (mm: number) => string;
}

const faceOf = (hole: PlateHole): string | null => hole.feature?.split('.')[0] ?? null;
const holesOf = (draft: Draft, f: Finding): readonly PlateHole[] => draft.holes.filter((h) => f.of.includes(h.id));
/** By how much it misses, mm; diameters turned into mm by the first hole's. */
const shortOf = (draft: Draft, f: Finding): number => {
  const short = f.sense === 'least' ? f.limit - f.value : f.value - f.limit;
  const [hole] = holesOf(draft, f);
  return f.unit === 'd' && hole !== undefined ? short * Math.max(hole.diameter, hole.thread?.major ?? 0) : short;
};

const smallerThreads = (from: Thread, steps: number): readonly Thread[] => {
  const out: Thread[] = [];
  for (let t = nextSmaller(from); t !== null && out.length < steps; t = nextSmaller(t)) out.push(t);
  return out;
};

const tighter: Readonly<Record<Fit, readonly Fit[]>> = { loose: ['normal', 'close'], normal: ['close'], close: [] };
const looser: Readonly<Record<Fit, readonly Fit[]>> = { close: ['normal', 'loose'], normal: ['loose'], loose: [] };

/** Smaller threads for holes that the plate is free to choose them for: those tapped in it. */
const threadsFor = (t: Trying, holes: readonly PlateHole[], steps = 3): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    const thread = h.as === 'tapped' || h.as === 'set stud' ? threadOf(h.thread?.name ?? null) : null;
    return face === null || thread === null ? [] : smallerThreads(thread, steps).map((s) => change.thread(t.job, face, s.name));
  });

const fitsFor = (t: Trying, holes: readonly PlateHole[], which: typeof tighter): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    if (face === null || h.as !== 'clearance') return [];
    return which[fastenOf(t.draft.desk, face).fit].map((fit) => change.fit(t.job, face, fit));
  });

const slimmer = (t: Trying, holes: readonly PlateHole[]): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    if (face === null) return [];
    return [
      ...(h.sink === null ? [] : [change.fastened(t.job, face, `leave the ${h.fastening?.head?.kind ?? 'nut'} of ${face} standing proud`, { sunk: 'none', head: h.fastening?.head?.kind === 'nut' ? 'nut' : 'cap screw' })]),
      ...(h.as === 'tapped' && h.depth === null ? [change.fastened(t.job, face, `tap the holes for ${face} blind`, { blind: true })] : []),
    ];
  });

const thicker = (t: Trying, by: number): readonly Change[] => {
  const to = roundUp(t.draft.desk.thickness + by, t.job.units);
  return allowedThickness(t.draft.desk, to) ? [change.thickness(t.job, to)] : [];
};

const thinner = (t: Trying, by: number): readonly Change[] => {
  const step = t.job.units === 'in' ? 25.4 / 32 : 0.5;
  const to = Math.floor((t.draft.desk.thickness - by) / step + 1e-9) * step;
  return to > 0 && allowedThickness(t.draft.desk, to) ? [change.thickness(t.job, to)] : [];
};

/** A thickness that comes from the stack may only move within its window. */
const allowedThickness = (desk: Desk, to: number): boolean => {
  if (desk.spec.thickness !== 'from stack') return true;
  const window = desk.stack?.worst ?? null;
  return window !== null && to + desk.shims >= window.from - 1e-9 && to + desk.shims <= window.to + 1e-9;
};

const sunk = (t: Trying, holes: readonly PlateHole[]): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    const head = h.fastening?.head?.kind;
    if (face === null || head === undefined || h.sink !== null) return [];
    return [
      change.fastened(t.job, face, `counterbore the plate for the ${head}s of ${face}`, { sunk: 'counterbored', head }),
      ...(head === 'nut' ? [] : [change.fastened(t.job, face, `use countersunk screws for ${face}`, { sunk: 'countersunk', head: 'countersunk screw' })]),
    ];
  });

const edges = (t: Trying, f: Finding): readonly Change[] => {
  const short = shortOf(t.draft, f);
  const spec = t.draft.desk.spec.outline;
  if (spec.shape === 'round' && spec.diameter !== null) {
    const to = roundUp(spec.diameter + 2 * short, t.job.units);
    return [change.roundPlate(t.job, `make the plate ${t.say(to)} in diameter`, to) ?? []].flat();
  }
  return [change.margin(t.job, roundUp((spec.margin ?? 0) + short, t.job.units)) ?? []].flat();
};

const bores = (t: Trying, f: Finding): readonly Change[] => {
  const bore = t.draft.bores.find((b) => b.kind === 'bore' && f.of.includes(b.id));
  if (bore === undefined) return [];
  const step = t.job.units === 'in' ? 25.4 / 32 : 0.5;
  const to = Math.floor((bore.diameter - 2 * shortOf(t.draft, f)) / step + 1e-9) * step;
  const said = to > 0 ? change.bored(t.job, `make the bore ${t.say(to)}`, to) : null;
  return said === null ? [] : [said];
};

/** Registers made to go on, or deep enough. */
const registersFor = (t: Trying, f: Finding, what: 'diameter' | 'depth'): readonly Change[] => {
  const bore = t.draft.bores.find((b) => f.of.includes(b.id));
  const face = bore?.feature?.split('.')[0];
  const spec = face === undefined ? undefined : t.draft.desk.spec.locate.get(face);
  if (bore === undefined || face === undefined || spec?.as !== 'register') return [];
  const short = shortOf(t.draft, f);
  if (what === 'depth') {
    const depth = bore.kind === 'recess' ? roundUp((bore.depth ?? 0) + short, t.job.units) : Math.max(0.5, (bore.depth ?? 0) - short);
    return [change.located(t.job, face, `make the register ${t.say(depth)} ${bore.kind === 'recess' ? 'deep' : 'high'}`, { ...spec, depth })];
  }
  // A hundredth more than it needs, so that it slides.
  const by = short + 0.01;
  const value = spec.diameter.value + (bore.kind === 'recess' ? by : -by);
  return [change.located(t.job, face, `make the register ${t.say(value)}`, { ...spec, diameter: { ...spec.diameter, value } })];
};

const dowelsFor = (t: Trying, holes: readonly PlateHole[]): readonly Change[] => {
  const [first] = holes;
  const face = first === undefined ? null : faceOf(first);
  const spec = face === null ? undefined : t.draft.desk.spec.locate.get(face);
  if (face === null || spec?.as !== 'own dowels') return [];
  return [
    change.located(t.job, face, `make the hole for ${face}'s second dowel a slot`, { ...spec, second: 'slot' }),
    change.located(t.job, face, `locate ${face} by ${spec.features.slice(0, 2).join(' and ')} alone, the second in a slot`, { ...spec, features: spec.features.slice(0, 2), second: 'slot' }),
  ];
};

/** A jacking or lifting hole at the nearest quarter hours of its circle. */
const extraMoved = (t: Trying, hole: PlateHole | undefined): readonly Change[] => {
  const spec = t.draft.desk.spec;
  if (hole === undefined || (hole.as !== 'jacking' && hole.as !== 'lifting')) return [];
  return Array.from({ length: 24 }, (_, i) => (i % 2 === 0 ? 1 : -1) * (Math.floor(i / 2) + 1) * 7.5 * DEGREE).map((by) => {
    const extras = spec.extras.map((e) => ({
      ...e,
      clocks: e.clocks.map((c) => (e.what === hole.as && distance({ x: (e.circle / 2) * Math.cos(c), y: (e.circle / 2) * Math.sin(c) }, hole) < 1e-6 ? c + by : c)),
    }));
    const at = Math.atan2(hole.y, hole.x) + by;
    return change.extrasMoved(t.job, `move ${hole.id} to ${formatClock(at)}`, extras);
  });
};

/** What might cure a failed check, best first; each is tried before it is told. */
export const candidates = (t: Trying, f: Finding): readonly Change[] => {
  const holes = holesOf(t.draft, f);
  const short = shortOf(t.draft, f);
  const turn = t.turn === null ? [] : [change.turned(t.job, t.draft.desk.clocking, t.turn)];
  const [hole] = holes;
  const extra = holes.find((h) => h.as === 'jacking' || h.as === 'lifting');
  const face = hole === undefined ? null : faceOf(hole);
  switch (f.rule) {
    case 'web between cuts':
      return [...turn, ...extraMoved(t, extra), ...threadsFor(t, holes), ...fitsFor(t, holes, tighter), ...slimmer(t, holes), ...bores(t, f)];
    case 'floor between cuts':
      return [...turn, ...thicker(t, short), ...slimmer(t, holes)];
    case 'hole to edge':
    case 'metal to the edge':
      return [...edges(t, f), ...turn, ...threadsFor(t, holes), ...fitsFor(t, holes, tighter)];
    case 'floor under the counterbore':
    case 'floor under the countersink':
    case 'floor of the recess':
      return [...thicker(t, short), ...slimmer(t, holes), ...registersFor(t, f, 'depth')];
    case 'floor under the drill point':
      return [...thicker(t, short), ...(face === null ? [] : [change.fastened(t.job, face, `tap the holes for ${face} through`, { blind: false })]), ...threadsFor(t, holes)];
    case 'thread engaged in the plate':
      return [...threadsFor(t, holes), ...thicker(t, short)];
    case 'a stock length fits':
      return [1, -1, 2, -2, 3, -3].flatMap((by) => (by > 0 ? thicker(t, by) : thinner(t, -by)));
    case "bolt passes the part's own hole":
      return [...threadsFor(t, holes), ...openedOut(t, f)];
    case 'room for the socket':
    case 'seat of the nut or head':
      return [...turn, ...extraMoved(t, extra), ...sunk(t, holes.slice(0, 1)), ...threadsFor(t, holes)];
    case 'fasteners out of reach once the other part is on':
      return [...turn, ...tappedInstead(t)];
    case 'stud left for its nut and washer':
      return [...thinner(t, short), ...sunk(t, holes)];
    case "stud's end under the other part":
      return [...thicker(t, short), ...cutBack(t, face)];
    case 'a leaning stud clears the whole thickness':
      return [...fitsFor(t, holes, looser), ...sunk(t, holes), ...thinnerToLean(t, holes)];
    case 'register goes on':
      return registersFor(t, f, 'diameter');
    case 'faces meet before the register bottoms':
      return registersFor(t, f, 'depth');
    case 'wall of the register':
    case 'wall of the raised spigot':
      return bores(t, f);
    case 'dowels that locate the same thing':
    case 'two round dowels fight':
      return dowelsFor(t, holes);
    case 'jacking screw pushes on metal':
      return extraMoved(t, hole);
    default:
      return f.rule.endsWith('under the other part') ? [...sunk(t, holes), ...turn] : turn;
  }
};

/** The part's own holes opened out to a close fit. */
const openedOut = (t: Trying, f: Finding): readonly Change[] => {
  const placed = t.draft.desk.placed.find((p) => f.of.includes(p.name));
  const thread = threadOf(holesOf(t.draft, f)[0]?.fastening?.thread ?? null);
  if (placed === undefined || thread === null || placed.feature.kind !== 'hole') return [];
  const { name, features } = placed.face;
  const { diameter, drill } = clearanceHole(thread, 'close');
  const says = `open the holes of ${name} out to ${drill?.name ?? t.say(diameter)}`;
  return [{ cure: { kind: 'treatment', face: name, says }, job: t.job, clocking: null, opened: { face: name, ids: features.filter((x) => x.kind === 'hole').map((x) => x.id), diameter } }];
};

const tappedInstead = (t: Trying): readonly Change[] =>
  t.draft.desk.faces.flatMap((face) => {
    const thread = t.draft.holes.find((h) => h.feature?.startsWith(`${face.name}.`) === true)?.fastening?.thread ?? null;
    return [change.fastened(t.job, face.name, `tap the plate for the bolts of ${face.name}`, { as: 'tapped', head: null, sunk: 'none', ...(thread === null ? {} : { thread }) })];
  });

const cutBack = (t: Trying, face: string | null): readonly Change[] => {
  if (face === null) return [];
  const to = t.draft.desk.thickness + t.draft.desk.shims;
  return [change.studsCut(t.job, face, `cut the studs of ${face} back to ${t.say(to)}`, to)];
};

/** Thinner by what the lean needs: the hole's spare radius is all that may be used up. */
const thinnerToLean = (t: Trying, holes: readonly PlateHole[]): readonly Change[] =>
  holes.slice(0, 1).flatMap((h) => {
    const lean = t.draft.desk.placed.find((p) => p.name === h.feature)?.feature.lean ?? null;
    if (lean === null || h.fastener === null) return [];
    const reach = (h.diameter / 2 - h.fastener / 2 / Math.cos(lean)) / Math.tan(lean);
    return reach > 0 ? thinner(t, h.land[1] - h.land[0] - (h.sink?.depth ?? 0) - reach) : [];
  });

