import { type Requirement, say } from '@fayplate/core';
import { unknown } from './unknown.js';
import { type Thread, leastEngagement } from '@fayplate/handbook';
import type { Draft } from '../draft.js';
import type { Placed } from '../desk.js';
import { engagementOf } from '../treat/tapped.js';
import { stockLength, threadOf, washerUnder } from '../treat/thread.js';
import { fastenOf } from '../treat/holes.js';
import { gasketUnder, knownGasket } from '../stack/gasket.js';
import type { PlateHole } from '../types.js';
import { deeper, openedOut, screwedInstead, threadsFor } from '../cures/fasteners.js';
import { thicker } from '../cures/plate.js';
import { holesOf, shortOf } from '../cures/about.js';
import { places, sayBoth, sayPlain } from '../words/say.js';
import { type CheckKind, type Found, found, marginOf } from './check.js';
import { featureOf, grip } from './studs.js';

/** Lengths under the head that a fastener may have, mm: least for its engagement, most before it bottoms. */
interface Reach {
  readonly least: number;
  readonly most: number;
  readonly stock: number | null;
}

const reach = (thread: Thread, least: number, most: number): Reach => ({
  least,
  most,
  stock: stockLength(thread, least, most),
});

/** Metal that carries thread in a tapped hole of the plate, mm. */
const threadLength = (hole: PlateHole): number => Math.min(hole.thread?.depth ?? Infinity, hole.land[1] - hole.land[0]);

/**
 * What a part's own thread is cut in: the other piece of two is of the plate's metal, of a part it is taken to be no
 * softer than steel.
 */
const metalOf = ({ desk }: Draft, p: Placed): string | null =>
  desk.spec.joint?.face === p.face.name ? desk.spec.material : 'steel';

/**
 * How long the bolt or screw of a hole may be; null where it depends on something that the job does not give (the
 * part's
 * `flange` for bolts into the plate, the `deep` of the part's tapped hole for screws into the part).
 */
export const reachOf = (draft: Draft, hole: PlateHole): Reach | null => {
  const p = featureOf(draft, hole);
  const thread = threadOf(hole.fastening?.thread ?? null);
  if (p === null || thread === null) return null;
  const spec = fastenOf(draft.desk, p.face.name);
  if (hole.as === 'tapped' && p.face.flange !== null) {
    const gasket = knownGasket(draft.desk.job, p.face.name);
    const before = p.face.flange + draft.desk.shims + gasket + washerUnder(spec, 'bolt', thread);
    const engagement = engagementOf(draft.desk, spec, thread.major).length;
    // In a blind hole the end stays a pitch short of the last full thread; through the plate it may come flush.
    const within = p.face.flangeWithin ?? 0;
    return reach(
      thread,
      before + within + engagement,
      before - within + threadLength(hole) - (hole.depth === null ? 0 : thread.pitch),
    );
  }
  if (hole.fastening?.kind === 'screw' && draft.made.tappedParts.has(hole.id) && p.feature.deep !== null) {
    const before = grip(draft, hole, p) + washerUnder(spec, hole.fastening.head?.kind ?? 'cap screw', thread);
    return reach(
      thread,
      before + leastEngagement(metalOf(draft, p)).value * thread.major,
      before + p.feature.deep - thread.pitch,
    );
  }
  return null;
};

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

/** Features of one face whose holes want something that the job does not give. */
const lacking = (draft: Draft, face: string, lacks: (hole: PlateHole, p: Placed) => boolean): readonly string[] =>
  draft.holes.flatMap((hole) => {
    const p = featureOf(draft, hole);
    return p !== null && p.face.name === face && lacks(hole, p) ? [p.feature.id] : [];
  });

/** Lengths without which bolts and screws cannot be chosen, and gaskets that take from them. */
export const threadUnknowns = (draft: Draft): readonly Requirement[] => [
  ...flangeUnknowns(draft),
  ...depthAndGasketUnknowns(draft),
];

const flangeUnknowns = (draft: Draft): readonly Requirement[] => {
  const faces = draft.desk.faces
    .filter((f) => f.flange === null && lacking(draft, f.name, (h) => h.as === 'tapped').length > 0)
    .map((f) => f.name);
  return faces.length === 0
    ? []
    : [
        unknown(
          'flange',
          `How thick ${faces.join(' and ')} ${faces.length === 1 ? 'is' : 'are'} where bolts pass is not given: ` +
            `write \`flange\`, so that their length can be chosen.`,
          'measure it, so that their length can be chosen',
        ),
      ];
};

const depthAndGasketUnknowns = (draft: Draft): readonly Requirement[] =>
  draft.desk.faces.flatMap(({ name }) => {
    const screws = lacking(
      draft,
      name,
      (h, p) => h.fastening?.kind === 'screw' && draft.made.tappedParts.has(h.id) && p.feature.deep === null,
    );
    const through =
      gasketUnder(draft.desk.job, name) === null
        ? lacking(draft, name, (h) => h.as !== 'dowel' && h.as !== 'slot')
        : [];
    return [
      ...(screws.length === 0
        ? []
        : [
            unknown(
              'thread-depth',
              `How deep the threads of ${name} go is not given (${screws.join(', ')}): write \`deep\`, so that the ` +
                'hold and the length of its screws can be checked.',
              'measure it, so that the hold and the length of its screws can be checked',
            ),
          ]),
      ...(through.length === 0
        ? []
        : [
            unknown(
              'gasket-thickness',
              `The stack does not say how thick the gasket of ${name} is, and its studs, bolts and screws reach ` +
                `that much less: name it there, such as \`${name} gasket\`.`,
              'measure it, and count it in the stack',
            ),
          ]),
    ];
  });

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
