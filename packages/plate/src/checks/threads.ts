import { type Thread, hardware, leastEngagement } from '@fayplate/handbook';
import type { Draft } from '../draft.js';
import type { Placed } from '../desk.js';
import { engagementOf } from '../treat/tapped.js';
import { stockLength } from '../treat/stock.js';
import { fastenOf } from '../treat/holes.js';
import { threadOf } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import { type Finding, finding } from './check.js';
import { featureOf, grip } from './studs.js';

/** Lengths under the head that a fastener may have, mm: least for its engagement, most before it bottoms. */
export interface Reach {
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
 * How long the bolt or screw of a hole may be; null where it depends on something that the job does not give (the part's
 * `flange` for bolts into the plate, the `deep` of the part's tapped hole for screws into the part).
 */
export const reachOf = (draft: Draft, hole: PlateHole): Reach | null => {
  const p = featureOf(draft, hole);
  const thread = threadOf(hole.fastening?.thread ?? null);
  if (p === null || thread === null) return null;
  const washer = fastenOf(draft.desk, p.face.name).washer ? (hardware(thread).washer?.thickness ?? 0) : 0;
  if (hole.as === 'tapped' && p.face.flange !== null) {
    const before = p.face.flange + draft.desk.shims + washer;
    const engagement = engagementOf(draft.desk, fastenOf(draft.desk, p.face.name), thread.major).length;
    // In a blind hole the end stays a pitch short of the last full thread; through the plate it may come flush.
    return reach(thread, before + engagement, before + threadLength(hole) - (hole.depth === null ? 0 : thread.pitch));
  }
  if (hole.fastening?.kind === 'screw' && draft.made.tappedParts.has(hole.id) && p.feature.deep !== null) {
    const before = grip(draft, hole, p) + washer;
    return reach(
      thread,
      before + leastEngagement('steel').value * thread.major,
      before + p.feature.deep - thread.pitch,
    );
  }
  return null;
};

const plateThread = (draft: Draft, hole: PlateHole, p: Placed): readonly Finding[] => {
  if (hole.thread === null || (hole.as !== 'tapped' && hole.as !== 'set stud')) return [];
  const wanted = engagementOf(draft.desk, fastenOf(draft.desk, p.face.name), hole.thread.major);
  const out = [
    finding('thread engaged in the plate', [hole.id], threadLength(hole) / hole.thread.major, wanted.times, {
      source: wanted.source,
      unit: 'd',
      at: hole,
    }),
  ];
  if (hole.depth !== null) {
    const least = reachOf(draft, hole);
    const entered = least?.stock == null ? wanted.length : least.stock - (least.least - wanted.length);
    out.push(
      finding("room below the bolt's end", [hole.id], (hole.thread.depth ?? 0) - entered, hole.thread.pitch, {
        source: 'common practice: a pitch short of the last full thread',
        at: hole,
      }),
    );
  }
  // What the thread is for must pass the part: a hole of the part that is too small, or carries a thread itself, holds the bolt.
  if (p.diameter !== null && hole.fastening !== null && hole.fastening.largest !== null) {
    const clear = draft.made.tappedParts.has(hole.id)
      ? Math.min(p.diameter, threadOf(p.feature.thread)?.minor ?? p.diameter)
      : p.diameter;
    out.push(
      finding("bolt passes the part's own hole", [hole.id, p.name], clear - hole.fastening.largest, 0, {
        source: "geometry: the part's hole less the largest bolt of its class",
        at: hole,
      }),
    );
  }
  return out;
};

/** A screw into the part: thread enough for it, and room below the end of the shortest that engages enough. */
const partThread = (draft: Draft, hole: PlateHole, p: Placed): readonly Finding[] => {
  const thread = threadOf(hole.fastening?.thread ?? null);
  if (
    hole.fastening?.kind !== 'screw' ||
    thread === null ||
    !draft.made.tappedParts.has(hole.id) ||
    p.feature.deep === null
  )
    return [];
  const least = leastEngagement('steel');
  const r = reachOf(draft, hole);
  const entered = least.value * thread.major + (r?.stock == null ? 0 : r.stock - r.least);
  return [
    finding('thread engaged in the part', [hole.id, p.name], p.feature.deep / thread.major, least.value, {
      source: `the least of any metal, since the part's is not known: ${least.source}`,
      unit: 'd',
      at: hole,
    }),
    finding("room below the bolt's end", [hole.id, p.name], p.feature.deep - entered, thread.pitch, {
      source: 'common practice: a pitch short of the last full thread',
      at: hole,
    }),
  ];
};

/** Features of one face whose holes want something that the job does not give. */
const lacking = (draft: Draft, face: string, lacks: (hole: PlateHole, p: Placed) => boolean): readonly string[] =>
  draft.holes.flatMap((hole) => {
    const p = featureOf(draft, hole);
    return p !== null && p.face.name === face && lacks(hole, p) ? [p.feature.id] : [];
  });

/** Lengths without which bolts and screws cannot be chosen, and gaskets that take from them. */
export const threadUnknowns = (draft: Draft): readonly string[] => [
  ...flangeUnknowns(draft),
  ...depthAndGasketUnknowns(draft),
];

const flangeUnknowns = (draft: Draft): readonly string[] => {
  const faces = draft.desk.faces
    .filter((f) => f.flange === null && lacking(draft, f.name, (h) => h.as === 'tapped').length > 0)
    .map((f) => f.name);
  return faces.length === 0
    ? []
    : [
        `How thick ${faces.join(' and ')} ${faces.length === 1 ? 'is' : 'are'} where bolts pass is not given: write \`flange\`, so that their length can be chosen.`,
      ];
};

const depthAndGasketUnknowns = (draft: Draft): readonly string[] =>
  draft.desk.faces.flatMap(({ name }) => {
    const screws = lacking(
      draft,
      name,
      (h, p) => h.fastening?.kind === 'screw' && draft.made.tappedParts.has(h.id) && p.feature.deep === null,
    );
    const through = draft.desk.job.gaskets.some((g) => g.face === name)
      ? lacking(draft, name, (h) => h.as !== 'dowel' && h.as !== 'slot')
      : [];
    return [
      ...(screws.length === 0
        ? []
        : [
            `How deep the threads of ${name} go is not given (${screws.join(', ')}): write \`deep\`, so that the hold and the length of its screws can be checked.`,
          ]),
      ...(through.length === 0
        ? []
        : [
            `The gasket of ${name} is not counted: its thickness comes off what its studs, bolts and screws are said to reach.`,
          ]),
    ];
  });

export const threadFindings = (draft: Draft): readonly Finding[] =>
  draft.holes.flatMap((hole) => {
    const p = featureOf(draft, hole);
    return p === null ? [] : [...plateThread(draft, hole, p), ...partThread(draft, hole, p)];
  });
