import { type Thread, clearanceHole } from '@fayplate/handbook';
import type { Face, Fit, Job } from '@fayplate/job';
import type { Finding, Trying } from '../checks/check.js';
import { fastenOf } from '../treat/holes.js';
import { isTapped, nextSmaller, roundUp, threadOf } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import { sayOpened } from '../words/say.js';
import * as change from './change.js';
import type { Change } from './change.js';
import { faceOf, holesOf } from './about.js';

const smallerThreads = (from: Thread, steps: number): readonly Thread[] => {
  const out: Thread[] = [];
  for (let t = nextSmaller(from); t !== null && out.length < steps; t = nextSmaller(t)) out.push(t);
  return out;
};

export const tighter: Readonly<Record<Fit, readonly Fit[]>> = {
  loose: ['normal', 'close'],
  normal: ['close'],
  close: [],
};
export const looser: Readonly<Record<Fit, readonly Fit[]>> = {
  close: ['normal', 'loose'],
  normal: ['loose'],
  loose: [],
};

/** Smaller threads for holes that the plate is free to choose them for: those tapped in it. */
export const threadsFor = (t: Trying, holes: readonly PlateHole[], steps = 3): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    const thread = h.as === 'tapped' || h.as === 'set stud' ? threadOf(h.thread?.name ?? null) : null;
    return face === null || thread === null
      ? []
      : smallerThreads(thread, steps).map((s) => change.thread(t.job, face, s.name));
  });

export const fitsFor = (t: Trying, holes: readonly PlateHole[], which: typeof tighter): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    if (face === null || h.as !== 'clearance') return [];
    return which[fastenOf(t.draft.desk, face).fit].map((fit) => change.fit(t.job, face, fit));
  });

/** A nut or head that is not sunk; what was countersunk becomes a cap screw. */
const proud = (t: Trying, h: PlateHole, face: string): Change => {
  const kind = h.fastening?.head?.kind ?? 'nut';
  const says =
    kind === 'countersunk screw'
      ? `use cap screws for ${face}, standing proud`
      : `leave the ${kind}s of ${face} standing proud`;
  return change.fastened(t.job, face, says, { sunk: 'none', head: kind === 'nut' ? 'nut' : 'cap screw' });
};

export const slimmer = (t: Trying, holes: readonly PlateHole[]): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    if (face === null) return [];
    return [
      ...(h.sink === null ? [] : [proud(t, h, face)]),
      ...(h.as === 'tapped' && h.depth === null
        ? [change.fastened(t.job, face, `tap the holes for ${face} blind`, { blind: true })]
        : []),
    ];
  });

export const sunk = (t: Trying, holes: readonly PlateHole[]): readonly Change[] =>
  holes.flatMap((h) => {
    const face = faceOf(h);
    const head = h.fastening?.head?.kind;
    if (face === null || head === undefined || h.sink !== null) return [];
    return [
      change.fastened(t.job, face, `counterbore the plate for the ${head}s of ${face}`, { sunk: 'counterbored', head }),
      ...(head === 'nut'
        ? []
        : [
            change.fastened(t.job, face, `use countersunk screws for ${face}`, {
              sunk: 'countersunk',
              head: 'countersunk screw',
            }),
          ]),
    ];
  });

/** The part's own holes opened out to a close fit. */
export const openedOut = (t: Trying, f: Finding): readonly Change[] => {
  const placed = t.draft.desk.placed.find((p) => f.of.includes(p.name));
  const thread = threadOf(holesOf(t.draft, f)[0]?.fastening?.thread ?? null);
  if (placed === undefined || thread === null || placed.feature.kind !== 'hole') return [];
  const { name } = placed.face;
  const { diameter, says } = closeFit(t, thread);
  return [change.openedAlone(t.job, name, `open the holes of ${name} out to ${says}`, holesIn(t.job, name), diameter)];
};

const closeFit = (t: Trying, thread: Thread): { readonly diameter: number; readonly says: string } => {
  const { diameter, drill } = clearanceHole(thread, 'close');
  return { diameter, says: sayOpened(diameter, drill?.name ?? null, t.job.units) };
};

export const holesIn = (job: Job, face: string): readonly string[] =>
  (job.faces.find((f) => f.name === face)?.features ?? []).filter((x) => x.kind === 'hole').map((x) => x.id);

/**
 * Where the part's own holes are threaded, screws through the plate into them: a bolt through such a hole is seldom
 * meant.
 */
export const screwedInstead = (t: Trying, holes: readonly PlateHole[]): readonly Change[] => {
  const [name] = holes.flatMap((h) => (h.as === 'tapped' ? (faceOf(h) ?? []) : []));
  const face = t.job.faces.find((f) => f.name === name);
  const own = face?.features.filter((f) => f.kind === 'hole' && !f.vacant) ?? [];
  if (
    face === undefined ||
    own.length === 0 ||
    !own.every((feature) => isTapped({ feature, diameter: feature.diameter?.value ?? null }))
  )
    return [];
  const screws = { as: 'clearance', thread: null, engagement: null, blind: false, head: 'cap screw' } as const;
  const into = `screws pass the plate into the threads of ${face.name}`;
  return [
    change.fastened(t.job, face.name, `let ${into}`, { ...screws, sunk: 'none' }),
    change.fastened(t.job, face.name, `let counterbored ${into}`, { ...screws, sunk: 'counterbored' }),
  ].map((c) => change.writtenAs(c, 'as: clearance'));
};

const isAsWide = ({ features }: Face, id: string, diameter: number): boolean =>
  (features.find((f) => f.id === id)?.diameter?.value ?? 0) >= diameter;

/**
 * Bolts from the part's far side into the plate; where the part's own holes carry a thread they are opened out for
 * them.
 */
export const tappedInstead = (t: Trying): readonly Change[] =>
  t.draft.desk.faces.flatMap((face) => {
    const holes = t.draft.holes.filter((h) => h.part?.face === face.name);
    const name = holes[0]?.fastening?.thread ?? null;
    const tapped = { as: 'tapped', head: null, sunk: 'none', ...(name === null ? {} : { thread: name }) } as const;
    const thread = threadOf(name);
    const studs = holes.filter((h) => h.fastening?.kind === 'stud').map((h) => h.part?.feature ?? '');
    if (thread !== null && studs.length > 0) {
      const { diameter, says } = closeFit(t, thread);
      const drawn = `draw the studs of ${face.name}, open their holes out to ${says} and tap the plate for bolts`;
      const { job } = change.fastened(t.job, face.name, drawn, tapped);
      return [change.studsDrawn(job, face.name, drawn, studs, diameter)];
    }
    const plain = [change.fastened(t.job, face.name, `tap the plate for the bolts of ${face.name}`, tapped)];
    if (thread === null || !holes.some((h) => t.draft.made.tappedParts.has(h.id))) return plain;
    const { diameter, says } = closeFit(t, thread);
    const ids = holesIn(t.job, face.name).filter((id) => !isAsWide(face, id, diameter));
    if (ids.length === 0) return plain;
    const both = `open the holes of ${face.name} out to ${says} and tap the plate for bolts through them`;
    const { job } = change.fastened(t.job, face.name, both, tapped);
    return [change.openedToo(t.job, job, face.name, both, ids, diameter)];
  });

/** Fewest fasteners that a face keeps where some are done without. Source: common practice. */
const FEWEST = 3;

/** Whether a face holds without all its fasteners that fail in the same way: at least half are left, and three. */
const canSpare = (t: Trying, face: string, id: Finding['id']): boolean => {
  const own = t.draft.holes.filter((h) => faceOf(h) === face && h.fastening !== null && h.fastening.kind !== 'dowel');
  const bad = own.filter((h) => t.findings.some((f) => !f.ok && f.id === id && f.of.includes(h.id)));
  return own.length - bad.length >= Math.max(FEWEST, own.length / 2);
};

/**
 * Fasteners done without, bolts before studs, which have to come out of their part; only where the rest are enough to
 * do it for all that fail alike.
 */
export const leftOut = (t: Trying, f: Finding): readonly Change[] =>
  holesOf(t.draft, f)
    .filter((h) => canSpare(t, faceOf(h) ?? '', f.id))
    .toSorted((a, b) => Number(a.fastening?.kind === 'stud') - Number(b.fastening?.kind === 'stud'))
    .flatMap((h) => {
      if (h.part === null || h.as === 'dowel' || h.as === 'slot' || h.fastening?.kind === 'dowel') return [];
      const { face, feature } = h.part;
      return h.fastening?.kind === 'stud'
        ? [
            change.writtenAs(
              change.leftOut(t.job, face, feature, `leave out stud ${h.feature} and take it out`),
              'vacant: true',
            ),
          ]
        : [change.leftOut(t.job, face, feature, `leave out ${h.feature} (if the joint can spare it)`)];
    });

/** The part's own threads made deep enough for a screw that engages enough. */
export const deeper = (t: Trying, f: Finding, short: number): readonly Change[] => {
  const placed = t.draft.desk.placed.find((p) => f.of.includes(p.name));
  if (placed === undefined || placed.feature.deep === null) return [];
  const deep = roundUp(placed.feature.deep + short, t.job.units);
  return [change.deepened(t.job, placed.face.name, `tap the holes of ${placed.face.name} ${t.say(deep)} deep`, deep)];
};
