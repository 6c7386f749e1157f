import type { Clockwise } from '@fayplate/core';
import type { FastenSpec, Feature, Job, LocateSpec, PlateSpec, WorkKind } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import { fastenSpecOf } from '../treat/holes.js';
import type { Step } from '../types.js';
import { editsBetween } from './edits.js';

/** A change to try: the job as it would be, and how it would be said. */
export interface Change {
  readonly cure: Said;
  readonly job: Job;
  /** Radians clockwise; null: as it stands. */
  readonly clocking: Clockwise | null;
  /**
   * Of several of one group (smaller and smaller threads, say) the first that does is enough; left out: a group of its
   * own.
   */
  readonly group?: string;
  /** The part's holes at another diameter; left out: as they are. */
  readonly opened?: { readonly face: string; readonly ids: readonly string[]; readonly diameter: number };
  /** What weakens the joint: told only where nothing else cures. */
  readonly lastResort?: true;
}

/** The patterns with some holes of a part opened out. */
export const withOpened = (
  used: ReadonlyMap<string, UsedPattern>,
  opened: Change['opened'],
): ReadonlyMap<string, UsedPattern> => {
  const own = opened === undefined ? undefined : used.get(opened.face);
  if (opened === undefined || own === undefined) return used;
  const radii = own.pattern.radii.map((r, i) =>
    opened.ids.includes(own.pattern.ids[i] ?? '') ? opened.diameter / 2 : r,
  );
  return new Map([...used, [opened.face, { ...own, pattern: { ...own.pattern, radii } }]]);
};

/** How a change is said: one step, or several together. */
export type Said = Step | { readonly kind: 'together'; readonly steps: readonly Step[] };

const withPlate = (job: Job, more: Partial<PlateSpec>): Job =>
  job.plate === null ? job : { ...job, plate: { ...job.plate, ...more } };

const withFasten = (job: Job, face: string, more: Partial<FastenSpec>): Job =>
  job.plate === null
    ? job
    : withPlate(job, { fasten: new Map([...job.plate.fasten, [face, { ...fastenSpecOf(job.plate, face), ...more }]]) });

/** A change of how the job is, said in words. */
const treated = (from: Job, job: Job, face: string, says: string): Pick<Change, 'cure' | 'job' | 'clocking'> => ({
  cure: { kind: 'treatment', face, says, edits: editsBetween(from, job) },
  job,
  clocking: null,
});

export const turned = (job: Job, from: number, by: number): Change => ({
  cure: { kind: 'turn', by },
  job,
  clocking: from + by,
});
export const thickness = (job: Job, to: number): Change => ({
  cure: { kind: 'thickness', to },
  job: withPlate(job, { thickness: to }),
  clocking: null,
  group: 'thickness',
});
export const thread = (job: Job, face: string, name: string): Change => ({
  cure: { kind: 'thread', face, thread: name },
  job: withFasten(job, face, { thread: name }),
  clocking: null,
  group: `thread ${face}`,
});
export const fit = (job: Job, face: string, to: FastenSpec['fit']): Change => ({
  cure: { kind: 'fit', face, fit: to },
  job: withFasten(job, face, { fit: to }),
  clocking: null,
  group: `fit ${face}`,
});
export const fastened = (job: Job, face: string, says: string, more: Partial<FastenSpec>): Change =>
  treated(job, withFasten(job, face, more), face, says);

const withFeatures = (job: Job, face: string, change: (feature: Feature) => Feature): Job => ({
  ...job,
  faces: job.faces.map((f) => (f.name === face ? { ...f, features: f.features.map(change) } : f)),
});

/** The change, with how the job file has it. */
export const writtenAs = (c: Change, written: string): Change =>
  c.cure.kind === 'treatment' ? { ...c, cure: { ...c.cure, written } } : c;

/** A fastener done without: its place in the plate is not drilled. */
export const leftOut = (job: Job, face: string, id: string, says: string): Change => {
  const except = job.plate === null ? new Map() : fastenSpecOf(job.plate, face).except;
  return { ...fastened(job, face, says, { except: new Map([...except, [id, 'none' as const]]) }), lastResort: true };
};

/** The part's own holes opened out, so that they carry no thread. */
export const opened = (job: Job, face: string, says: string, ids: readonly string[], diameter: number): Change => ({
  cure: { kind: 'treatment', face, says },
  job: withFeatures(job, face, (x) =>
    ids.includes(x.id) ? { ...x, diameter: { value: diameter, plusMinus: null }, diameterFrom: 'job' } : x,
  ),
  clocking: null,
  opened: { face, ids, diameter },
});

/** A change that is work on the part and nothing else: the same as an entry of the job's `work`. */
const asWork = (change: Change, kind: WorkKind, features: readonly string[], to: number): Change =>
  change.cure.kind === 'treatment' ? { ...change, cure: { ...change.cure, work: { kind, features, to } } } : change;

const idsOf = (job: Job, face: string, which: (f: Feature) => boolean): readonly string[] =>
  (job.faces.find((f) => f.name === face)?.features ?? []).filter(which).map((f) => f.id);

/** The part's own holes opened out, and no other change. */
export const openedAlone = (...args: Parameters<typeof opened>): Change => {
  const [, , , ids, diameter] = args;
  return asWork(opened(...args), 'open', ids, diameter);
};

/** The part's own holes opened out in a job whose plate has been changed for it: both are written. */
export const openedToo = (from: Job, ...args: Parameters<typeof opened>): Change => {
  const change = openedAlone(...args);
  return change.cure.kind === 'treatment'
    ? { ...change, cure: { ...change.cure, edits: editsBetween(from, args[0]) } }
    : change;
};

/** Studs taken out of the part and their holes opened out, for bolts. */
export const studsDrawn = (job: Job, face: string, says: string, ids: readonly string[], diameter: number): Change => {
  const change = opened(job, face, says, ids, diameter);
  return {
    ...change,
    job: withFeatures(change.job, face, (x) =>
      ids.includes(x.id) ? { ...x, kind: 'hole', stands: null, lean: null } : x,
    ),
  };
};

/** The part's own threads tapped deeper. */
export const deepened = (job: Job, face: string, says: string, deep: number): Change =>
  asWork(
    {
      cure: { kind: 'treatment', face, says },
      job: withFeatures(job, face, (x) => (x.deep !== null && x.kind === 'hole' && x.deep < deep ? { ...x, deep } : x)),
      clocking: null,
    },
    'deepen',
    idsOf(job, face, (x) => x.deep !== null && x.kind === 'hole' && x.deep < deep),
    deep,
  );

/** What the drawn plate has nothing to do with: how its holes are placed, or how well a part is measured. */
export const advised = (job: Job, face: string, says: string): Change => treated(job, job, face, says);

export const located = (job: Job, face: string, says: string, spec: LocateSpec): Change =>
  treated(
    job,
    job.plate === null ? job : withPlate(job, { locate: new Map([...job.plate.locate, [face, spec]]) }),
    face,
    says,
  );

export const bored = (job: Job, says: string, diameter: number): Change | null => {
  const bore = job.plate?.bore ?? null;
  return bore === null
    ? null
    : treated(job, withPlate(job, { bore: { ...bore, diameter } }), job.plate?.between[0] ?? '', says);
};

/** The central bore right through, where it ends within the plate. */
export const boredThrough = (job: Job, says: string): Change | null => {
  const bore = job.plate?.bore ?? null;
  return bore === null || bore.side === 'through'
    ? null
    : treated(
        job,
        withPlate(job, { bore: { ...bore, side: 'through', depth: null } }),
        job.plate?.between[0] ?? '',
        says,
      );
};

export const margin = (job: Job, to: number): Change | null => {
  const outline = job.plate?.outline;
  if (outline === undefined || (outline.shape === 'round' && outline.diameter !== null)) return null;
  return { cure: { kind: 'margin', to }, job: withPlate(job, { outline: { ...outline, margin: to } }), clocking: null };
};

export const roundPlate = (job: Job, says: string, diameter: number): Change | null => {
  const outline = job.plate?.outline;
  if (outline?.shape !== 'round' || outline.diameter === null) return null;
  return treated(job, withPlate(job, { outline: { ...outline, diameter } }), job.plate?.between[0] ?? '', says);
};

/** The part's studs cut back to a length, for those that stand out further. */
export const studsCut = (job: Job, face: string, says: string, to: number): Change =>
  asWork(
    {
      cure: { kind: 'treatment', face, says },
      job: withFeatures(job, face, (x) =>
        x.kind === 'stud' && x.stands !== null && x.stands > to ? { ...x, stands: to } : x,
      ),
      clocking: null,
    },
    'shorten',
    idsOf(job, face, (x) => x.kind === 'stud' && x.stands !== null && x.stands > to),
    to,
  );

/** Longer studs in the part, for those that stand out less. */
export const studsLonger = (job: Job, face: string, says: string, to: number): Change =>
  asWork(
    {
      cure: { kind: 'treatment', face, says },
      job: withFeatures(job, face, (x) =>
        x.kind === 'stud' && x.stands !== null && x.stands < to ? { ...x, stands: to } : x,
      ),
      clocking: null,
    },
    'fit',
    idsOf(job, face, (x) => x.kind === 'stud' && x.stands !== null && x.stands < to),
    to,
  );

export const extrasMoved = (job: Job, says: string, extras: PlateSpec['extras']): Change => ({
  ...treated(job, withPlate(job, { extras }), job.plate?.between[0] ?? '', says),
  group: 'extras',
});
