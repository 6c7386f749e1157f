import { type Point, type Requirement, add, polar } from '@fayplate/core';
import { classLimits, tapDrill } from '@fayplate/handbook';
import type { FastenAs, FastenSpec, LocateSpec, PlateSpec } from '@fayplate/job';
import { landAt } from '../bores/bores.js';
import { isShaft } from '../bores/relief.js';
import { centreOf } from '../bores/registers.js';
import { type Desk, type Placed, partOf } from '../desk.js';
import type { PlateBore, PlateHole } from '../types.js';
import { clearance } from './clearance.js';
import { ownDowel, reamed } from './dowel.js';
import { placeNewDowels } from './new-dowels.js';
import { cutHoles } from './cuts.js';
import type { Made, Treated } from './made.js';
import { tapped } from './tapped.js';
import { threadOf } from './thread.js';

/** Where the job says nothing about a face: everything passes through. */
const usualFasten: FastenSpec = {
  as: 'clearance',
  fit: 'normal',
  head: null,
  sunk: 'none',
  thread: null,
  engagement: null,
  blind: false,
  washer: null,
  own: null,
  except: new Map(),
};

export const fastenSpecOf = (plate: PlateSpec, face: string): FastenSpec => plate.fasten.get(face) ?? usualFasten;
export const fastenOf = (desk: Desk, face: string): FastenSpec => fastenSpecOf(desk.spec, face);

const isOwnDowel = (desk: Desk, p: Placed): boolean => {
  const spec = desk.spec.locate.get(p.face.name);
  if (spec?.as === 'register')
    return spec.clock !== undefined && 'feature' in spec.clock && spec.clock.feature === p.feature.id;
  return spec?.as === 'own dowels' && spec.features.includes(p.feature.id);
};

/** What a feature asks for; null where it gets no hole. */
const treat = (desk: Desk, p: Placed): Treated | null => {
  if (p.feature.vacant || isShaft(desk, p, [])) return null;
  const spec = fastenOf(desk, p.face.name);
  const exception = spec.except.get(p.feature.id);
  if (exception === 'none') return null;
  if (p.feature.kind === 'dowel' || isOwnDowel(desk, p)) return ownDowel(desk, p);
  if (p.feature.kind !== 'stud' && p.feature.kind !== 'hole') return null;
  const as: FastenAs = exception ?? spec.as;
  return as === 'clearance' ? clearance(desk, p, spec) : tapped(desk, p, spec, as);
};

/** What is left out of the plate but stands out of its part. */
export const standsThere = (plate: PlateSpec, p: Placed): boolean =>
  (p.feature.kind === 'stud' || p.feature.kind === 'dowel') &&
  !p.feature.vacant &&
  fastenSpecOf(plate, p.face.name).except.get(p.feature.id) === 'none';

const extraMade = (thread: string, what: 'jacking' | 'lifting'): Made | null => {
  const t = threadOf(thread);
  if (t === null) return null;
  const drill = tapDrill(t);
  const limits = classLimits(t);
  return {
    as: what,
    diameter: drill.drill.diameter,
    limits: [limits.internal.least, limits.internal.most],
    from: 'B',
    depth: null,
    thread: { name: t.name, major: t.major, pitch: t.pitch, depth: null },
    sink: null,
    slot: null,
    fastening: null,
    fastener: null,
    drill: drill.drill.name,
    source: drill.source,
  };
};

/** Jacking and lifting holes: clock positions of the plate as drawn, about the first face's centre. */
const extras = (
  desk: Desk,
): { readonly made: readonly { readonly made: Made; readonly at: Point }[]; readonly faults: readonly string[] } => {
  const about = centreOf(desk, desk.faces[0].name)?.at ?? { x: 0, y: 0 };
  const faults: string[] = [];
  const made = desk.spec.extras.flatMap((e) => {
    const one = extraMade(e.thread, e.what);
    if (one === null) faults.push(`no thread called ${e.thread} (${e.what} holes)`);
    return one === null ? [] : e.clocks.map((clock) => ({ made: one, at: add(about, polar(e.circle / 2, clock)) }));
  });
  return { made, faults };
};

/** Dowels that are set at assembly: those that locate a face, or the one that keeps it from turning on its register. */
const newDowelsOf = (spec: LocateSpec | undefined): { readonly count: number; readonly diameter: number } | null => {
  if (spec?.as === 'new dowels') return spec;
  return spec?.as === 'register' && spec.clock !== undefined && 'diameter' in spec.clock
    ? { count: 1, diameter: spec.clock.diameter }
    : null;
};

export interface HolesMade {
  readonly holes: readonly PlateHole[];
  readonly faults: readonly string[];
  readonly remarks: readonly Requirement[];
  /** Hole id → where the sizes of its nut, head and socket come from. */
  readonly seatSources: ReadonlyMap<string, string>;
  /** Holes whose counterpart in the part carries a thread. */
  readonly tappedParts: ReadonlySet<string>;
}

/**
 * H1, H2, … : the first face's features in the order of the job, the second's, then jacking and lifting holes and new
 * dowels.
 */
export const makeHoles = (desk: Desk, bores: readonly PlateBore[]): HolesMade => {
  const holes: PlateHole[] = [];
  const faults: string[] = [];
  const remarks: Requirement[] = [];
  const seatSources = new Map<string, string>();
  const tappedParts = new Set<string>();
  const put = (made: Made, at: Point, p: Placed | null): string => {
    const id = `H${holes.length + 1}`;
    holes.push({
      id,
      feature: p?.name ?? null,
      part: p === null ? null : partOf(p),
      x: at.x,
      y: at.y,
      ...made,
      land: landAt(at, bores, desk.thickness),
    });
    return id;
  };
  for (const p of desk.placed) {
    const treated = treat(desk, p);
    if (treated === null) continue;
    if (!treated.ok) {
      faults.push(treated.fault);
      continue;
    }
    const id = put(treated.made, p.at, p);
    remarks.push(...treated.remarks);
    if (treated.seatSource !== null) seatSources.set(id, treated.seatSource);
    if (treated.tappedPart) tappedParts.add(id);
  }
  const more = extras(desk);
  const cut = cutHoles(desk);
  for (const e of [...more.made, ...cut.made]) put(e.made, e.at, null);
  for (const index of desk.setNewDowels ? ([0, 1] as const) : []) {
    const spec = desk.spec.locate.get(desk.faces[index].name);
    const wanted = newDowelsOf(spec);
    if (wanted === null) continue;
    const made = reamed(wanted.diameter);
    const source = `reamed at assembly together with ${desk.faces[index].name}, once the shafts run true; ${made.source}`;
    const stated = spec?.as === 'new dowels' ? spec.at : undefined;
    const { centre } = desk.mated[index];
    const places =
      stated === undefined
        ? placeNewDowels(desk, index, wanted.count, wanted.diameter, holes, bores)
        : stated.clocks.map((clock) => add(centre, polar(stated.circle / 2, clock)));
    for (const at of places) put({ ...made, source }, at, null);
  }
  return { holes, faults: [...faults, ...more.faults, ...cut.faults], remarks, seatSources, tappedParts };
};
