import { type Thread, clearanceHole } from '@fayplate/handbook';
import type { Fit } from '@fayplate/job';
import type { Finding } from '../checks/check.js';
import { fastenOf } from '../treat/holes.js';
import { nextSmaller, threadOf } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import * as change from './change.js';
import type { Change } from './change.js';
import { type Trying, faceOf, holesOf } from './trying.js';

const smallerThreads = (from: Thread, steps: number): readonly Thread[] => {
  const out: Thread[] = [];
  for (let t = nextSmaller(from); t !== null && out.length < steps; t = nextSmaller(t)) out.push(t);
  return out;
};

export const tighter: Readonly<Record<Fit, readonly Fit[]>> = { loose: ['normal', 'close'], normal: ['close'], close: [] };
export const looser: Readonly<Record<Fit, readonly Fit[]>> = { close: ['normal', 'loose'], normal: ['loose'], loose: [] };

/** Smaller threads for holes that the plate is free to choose them for: those tapped in it. */
export const threadsFor = (t: Trying, holes: readonly PlateHole[], steps = 3): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    const thread = h.as === 'tapped' || h.as === 'set stud' ? threadOf(h.thread?.name ?? null) : null;
    return face === null || thread === null ? [] : smallerThreads(thread, steps).map((s) => change.thread(t.job, face, s.name));
  });

export const fitsFor = (t: Trying, holes: readonly PlateHole[], which: typeof tighter): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    if (face === null || h.as !== 'clearance') return [];
    return which[fastenOf(t.draft.desk, face).fit].map((fit) => change.fit(t.job, face, fit));
  });

export const slimmer = (t: Trying, holes: readonly PlateHole[]): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    if (face === null) return [];
    return [
      ...(h.sink === null ? [] : [change.fastened(t.job, face, `leave the ${h.fastening?.head?.kind ?? 'nut'} of ${face} standing proud`, { sunk: 'none', head: h.fastening?.head?.kind === 'nut' ? 'nut' : 'cap screw' })]),
      ...(h.as === 'tapped' && h.depth === null ? [change.fastened(t.job, face, `tap the holes for ${face} blind`, { blind: true })] : []),
    ];
  });

export const sunk = (t: Trying, holes: readonly PlateHole[]): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    const head = h.fastening?.head?.kind;
    if (face === null || head === undefined || h.sink !== null) return [];
    return [
      change.fastened(t.job, face, `counterbore the plate for the ${head}s of ${face}`, { sunk: 'counterbored', head }),
      ...(head === 'nut' ? [] : [change.fastened(t.job, face, `use countersunk screws for ${face}`, { sunk: 'countersunk', head: 'countersunk screw' })]),
    ];
  });

/** The part's own holes opened out to a close fit. */
export const openedOut = (t: Trying, f: Finding): readonly Change[] => {
  const placed = t.draft.desk.placed.find((p) => f.of.includes(p.name));
  const thread = threadOf(holesOf(t.draft, f)[0]?.fastening?.thread ?? null);
  if (placed === undefined || thread === null || placed.feature.kind !== 'hole') return [];
  const { name, features } = placed.face;
  const { diameter, drill } = clearanceHole(thread, 'close');
  const says = `open the holes of ${name} out to ${drill?.name ?? t.say(diameter)}`;
  return [{ cure: { kind: 'treatment', face: name, says }, job: t.job, clocking: null, opened: { face: name, ids: features.filter((x) => x.kind === 'hole').map((x) => x.id), diameter } }];
};

export const tappedInstead = (t: Trying): readonly Change[] =>
  t.draft.desk.faces.flatMap((face) => {
    const thread = t.draft.holes.find((h) => h.feature?.startsWith(`${face.name}.`) === true)?.fastening?.thread ?? null;
    return [change.fastened(t.job, face.name, `tap the plate for the bolts of ${face.name}`, { as: 'tapped', head: null, sunk: 'none', ...(thread === null ? {} : { thread }) })];
  });
