import { say } from '@fayplate/core';
import { leastEngagement } from '@fayplate/handbook';
import { holesOf, shortOf } from '../cures/about.js';
import { deeper, openedOut, screwedInstead, threadsFor } from '../cures/fasteners.js';
import { thicker } from '../cures/plate.js';
import type { Placed } from '../desk.js';
import type { Draft } from '../draft.js';
import { fastenOf } from '../treat/holes.js';
import { engagementOf } from '../treat/tapped.js';
import { threadOf } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import { places, sayBoth, sayPlain } from '../words/say.js';
import { type CheckKind, type Found, found, marginOf } from './check.js';
import { metalOf, reachOf, threadLength } from './reach.js';
import { featureOf } from './studs.js';

/** A thread of the plate that takes a bolt or a set stud, with what engages. */
const threadedFor = (draft: Draft, hole: PlateHole, p: Placed) =>
  hole.thread === null || (hole.as !== 'tapped' && hole.as !== 'set stud')
    ? null
    : {
        // What a bolt engages in a wire insert is counted in its own diameters, not in those of the thread that the
        // insert sits in.
        thread:
          hole.insert === undefined
            ? hole.thread
            : { ...hole.thread, major: hole.fastening?.nominal ?? hole.thread.major },
        wanted: engagementOf(
          draft.desk,
          fastenOf(draft.desk, p.face.name),
          hole.insert === undefined ? hole.thread.major : (hole.fastening?.nominal ?? hole.thread.major),
        ),
      };

/**
 * Thread that the bolt proposed engages, mm: all that there is where none is proposed yet, for lack of the part's
 * thickness.
 */
const enteredIn = (draft: Draft, hole: PlateHole, own: NonNullable<ReturnType<typeof threadedFor>>): number => {
  const r = reachOf(draft, hole);
  const entered = r === null ? Infinity : own.wanted.length + (r.stock === null ? 0 : r.stock - r.least);
  // The larger thread below a wire insert holds no bolt.
  return Math.min(threadLength(hole), hole.insert ?? Infinity, entered);
};

const inPlate = (draft: Draft, hole: PlateHole, p: Placed): readonly Found[] => {
  const own = threadedFor(draft, hole, p);
  return own === null
    ? []
    : [
        found([hole.id], enteredIn(draft, hole, own) / own.thread.major, own.wanted.times, {
          source: own.wanted.source,
          unit: 'd',
          at: hole,
        }),
      ];
};

const PITCH_SHORT = 'common practice: a pitch short of the last full thread';

const belowBolt = (draft: Draft, hole: PlateHole, p: Placed): readonly Found[] => {
  const own = threadedFor(draft, hole, p);
  if (own === null || hole.depth === null) return [];
  const least = reachOf(draft, hole);
  const entered = least?.stock == null ? own.wanted.length : least.stock - (least.least - own.wanted.length);
  return [found([hole.id], (own.thread.depth ?? 0) - entered, own.thread.pitch, { source: PITCH_SHORT, at: hole })];
};

/**
 * What the thread is for must pass the part: a hole of the part that is too small, or carries a thread itself, holds
 * the bolt.
 */
const passesPart = (draft: Draft, hole: PlateHole, p: Placed): readonly Found[] => {
  if (threadedFor(draft, hole, p) === null || p.diameter === null) return [];
  if (hole.fastening === null || hole.fastening.largest === null) return [];
  const clear = draft.made.tappedParts.has(hole.id)
    ? Math.min(p.diameter, threadOf(p.feature.thread)?.minor ?? p.diameter)
    : p.diameter;
  return [
    found([hole.id, p.name], clear - hole.fastening.largest, 0, {
      source: "geometry: the part's hole less the largest bolt of its class",
      at: hole,
    }),
  ];
};

/** A screw into the part's own thread; null where it is none, or how deep that goes is not known. */
const screwOf = (draft: Draft, hole: PlateHole, p: Placed) => {
  const thread = threadOf(hole.fastening?.thread ?? null);
  const { deep } = p.feature;
  return hole.fastening?.kind !== 'screw' || thread === null || !draft.made.tappedParts.has(hole.id) || deep === null
    ? null
    : { thread, deep, least: leastEngagement(metalOf(draft, p)) };
};

/** Thread of the part that the screw proposed engages, mm. */
const enteredPart = (draft: Draft, hole: PlateHole, own: NonNullable<ReturnType<typeof screwOf>>): number => {
  const r = reachOf(draft, hole);
  const entered = own.least.value * own.thread.major + (r?.stock == null ? 0 : r.stock - r.least);
  return Math.min(own.deep, entered);
};

const inPart = (draft: Draft, hole: PlateHole, p: Placed): readonly Found[] => {
  const own = screwOf(draft, hole, p);
  return own === null
    ? []
    : [
        found([hole.id, p.name], enteredPart(draft, hole, own) / own.thread.major, own.least.value, {
          source: `the least of any metal, since the part's is not known: ${own.least.source}`,
          unit: 'd',
          at: hole,
        }),
      ];
};

/** Room below the end of the shortest screw that engages enough. */
const belowScrew = (draft: Draft, hole: PlateHole, p: Placed): readonly Found[] => {
  const own = screwOf(draft, hole, p);
  if (own === null) return [];
  const r = reachOf(draft, hole);
  const entered = own.least.value * own.thread.major + (r?.stock == null ? 0 : r.stock - r.least);
  return [found([hole.id, p.name], own.deep - entered, own.thread.pitch, { source: PITCH_SHORT, at: hole })];
};

const overHoles =
  (one: (draft: Draft, hole: PlateHole, p: Placed) => readonly Found[]): CheckKind['find'] =>
  (draft) =>
    draft.holes.flatMap((hole) => {
      const p = featureOf(draft, hole);
      return p === null ? [] : one(draft, hole, p);
    });

const sayEngaged: CheckKind['say'] = (c, speech) => {
  const [a = '', b = ''] = c.of;
  const [value, limit] = sayBoth(c, speech);
  return `${a} has ${value} of thread${b === '' ? '' : ` in ${b}`}, where ${limit} is needed`;
};

export const plateThread: CheckKind = {
  id: 'plate-thread',
  title: 'thread engaged in the plate',
  meaning: 'weak',
  margin: marginOf,
  find: overHoles(inPlate),
  cures: (t, f) => [...threadsFor(t, holesOf(t.draft, f)), ...thicker(t, shortOf(t.draft, f))],
  say: sayEngaged,
};

export const partThread: CheckKind = {
  id: 'part-thread',
  title: 'thread engaged in the part',
  meaning: 'weak',
  margin: marginOf,
  find: overHoles(inPart),
  cures: (t, f) => deeper(t, f, shortOf(t.draft, f)),
  say: sayEngaged,
};

export const boltEndRoom: CheckKind = {
  id: 'bolt-end-room',
  title: "room below the bolt's end",
  meaning: 'apart',
  margin: marginOf,
  find: overHoles((draft, hole, p) => [...belowBolt(draft, hole, p), ...belowScrew(draft, hole, p)]),
  cures: (t, f) => deeper(t, f, shortOf(t.draft, f)),
  say: sayPlain,
};

export const boltPassesPart: CheckKind = {
  id: 'bolt-passes-part',
  title: "bolt passes the part's own hole",
  meaning: 'apart',
  margin: marginOf,
  find: overHoles(passesPart),
  cures: (t, f) => {
    const holes = holesOf(t.draft, f);
    return [...screwedInstead(t, holes), ...threadsFor(t, holes), ...openedOut(t, f)];
  },
  say: (c, speech) =>
    `the bolt of ${c.of[0] ?? ''} is ${say(-c.value, speech, places(speech))} too large for ${c.of[1] ?? ''}`,
};
