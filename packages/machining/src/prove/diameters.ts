import { type Requirement, type Speech, notKnown, say } from '@fayplate/core';
import { clearanceHole, hardware, parseThread } from '@fayplate/handbook';
import type { Job } from '@fayplate/job';
import type { Plate, PlateBore, PlateHole } from '@fayplate/plate';
import { isReamedLater } from '../checks/places.js';
import type { Proof } from '../types.js';
import { tried } from './tried.js';

/** ± of a drilled hole's size above its drill, mm. Source: common practice, a twist drill cuts a little large. */
const LARGER = 0.2;
const SMALLER = 0.02;

/** Diameters that were read on the plate, against what each hole, bore or register was to be. */
export const ofDiameters = (job: Job, plate: Plate, proof: Proof, speech: Speech): readonly Requirement[] => {
  const mm = (v: number): string => say(v, speech, speech.unit === 'in' ? 4 : 3);
  const realNames = proof.renumbered ?? new Map<string, string>();
  const read = job.drilled?.readings.filter((r) => r.kind === 'dia' && !r.aside) ?? [];
  return [...new Set(read.flatMap((r) => r.features))].flatMap((id): readonly Requirement[] => {
    const is = realNames.get(id) ?? id;
    const found = proof.sizes?.get(is) ?? null;
    const cut = [...plate.holes, ...plate.bores].find((c) => c.id === is);
    // What is reamed together with its part is only a pilot before that: it says nothing yet.
    if (found === null || cut === undefined || ('as' in cut && isReamedLater(cut))) return [];
    const { value: diameter, plusMinus } = found;
    const [least, most] = limitsOf(cut, plate);
    const short = least - (diameter + plusMinus);
    const over = diameter - plusMinus - most;
    const ok = short <= 1e-9 && over <= 1e-9;
    const wide = over > 1e-9 && 'as' in cut ? underWasher(cut, plate, diameter + plusMinus, speech) : null;
    if (wide !== null) return [wide];
    return [
      tried({
        id: 'drilled-size',
        title: `${is} as drilled`,
        ok,
        value: diameter,
        limit: short > 0 ? least : most,
        because: ok
          ? `${is} measures ${mm(diameter)}`
          : `${is} measures ${mm(diameter)}, ${mm(short > 0 ? short : over)} too ${short > 0 ? 'small' : 'large'}: ` +
            `it was to be ${Math.abs(most - least) < 1e-9 ? mm(least) : `${mm(least)} to ${mm(most)}`}`,
      }),
    ];
  });
};

/** Least share of a full thread that holds. Source: common practice. */
const LEAST_THREAD = 0.5;
/** What a full thread takes off the diameter, mm: twice 5/8 of the height of its triangle (ISO 68-1). */
const basicHeight = (pitch: number): number => 1.0825 * pitch;

/** The checks that a hole's own wall enters. */
const aboutMetal: readonly string[] = ['web-between-cuts', 'hole-to-raised-spigot', 'hole-to-edge', 'metal-to-edge'];

/** Whether what a larger hole takes off its walls leaves every length of metal about it as thick as it has to be. */
const sparesMetal = (hole: PlateHole, plate: Plate, diameter: number): boolean => {
  const off = Math.max(0, diameter - hole.diameter) / 2;
  return plate.checks
    .filter((c) => c.of.includes(hole.id) && aboutMetal.includes(c.id))
    .every((c) => (c.value - c.limit) * (c.unit === 'd' ? hole.diameter : 1) >= off - 1e-9);
};

/**
 * Most that a clearance hole may measure, mm: as planned with what a drill cuts large, or the coarse series of its
 * thread (ISO 273; loose of ASME B18.2.8) where the metal about it spares that.
 */
const mostClear = (hole: PlateHole, plate: Plate, planned: number): number => {
  const thread = parseThread(hole.fastening?.thread ?? '');
  const coarse = thread === null ? 0 : clearanceHole(thread, 'loose').most;
  return Math.max(planned + LARGER, sparesMetal(hole, plate, coarse) ? coarse : 0);
};

/**
 * A clearance hole larger than the coarse series of its thread, whose washer still lies on metal all round. The worst
 * case: the fastener against one wall of the hole, and the washer (ISO 7089, or ASME B18.21.1) pushed the same way
 * on it. No table read covers such a hole, so it is said, with what to do. Null, and the hole is too large, where the
 * washer is left less metal than it is thick (our own limit: a load spreads at about 45° through a washer), or has no
 * size.
 */
const underWasher = (hole: PlateHole, plate: Plate, diameter: number, speech: Speech): Requirement | null => {
  const thread = parseThread(hole.fastening?.thread ?? '');
  const washer = thread === null ? null : hardware(thread).washer;
  const under = hole.fastening?.head?.washer;
  if (thread === null || washer === null || under === undefined || hole.as !== 'clearance') return null;
  const slack = (diameter - thread.major) / 2 + Math.max(0, washer.hole - thread.major) / 2;
  const ring = (under.outside - diameter) / 2 - slack;
  if (ring < under.thickness || !sparesMetal(hole, plate, diameter)) return null;
  const mm = (v: number): string => say(v, speech, speech.unit === 'in' ? 3 : 2);
  return notKnown(
    'drilled-fit',
    `${hole.id} as drilled`,
    `${hole.id} may be ${mm(diameter)} across, larger than the coarse clearance hole of ${thread.name} ` +
      `(${mm(clearanceHole(thread, 'loose').diameter)}); its washer, ${mm(under.outside)} across, still lies on ` +
      `${mm(ring)} of metal all round at the worst`,
    'use a hardened washer there, and tighten again after the first run',
  );
};

/**
 * Least and most that a cut may measure: what it meets depends on it only where it locates; a hole may be its pilot
 * still.
 */
const limitsOf = (cut: PlateHole | PlateBore, plate: Plate): readonly [number, number] => {
  if (!('as' in cut)) {
    if (cut.limits !== null && cut.kind === 'bore') return cut.limits;
    // What goes into a register sets its size; a plain bore may be larger.
    if (cut.kind === 'recess' || cut.kind === 'spigot') return [0, Infinity];
    return [cut.diameter - 0.1, cut.diameter + 1];
  }
  if (cut.limits !== null && cut.as !== 'tapped' && cut.as !== 'set stud')
    return cut.as === 'clearance'
      ? [Math.min(cut.limits[0], cut.diameter) - SMALLER, mostClear(cut, plate, cut.limits[1])]
      : cut.limits;
  const crests = cut.thread === null ? 0 : cut.thread.major - LEAST_THREAD * basicHeight(cut.thread.pitch);
  return [cut.diameter - SMALLER, Math.max(cut.diameter + LARGER, crests)];
};
