import { handCure } from './hand.js';
import { type Requirement, type Speech, notKnown, say, sayAll, sayTimes } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { MatedFace, Plate } from '@fayplate/plate';
import { isReamedLater } from '../checks/places.js';
import type { Proof } from '../types.js';
import { clocked } from './clocked.js';
import { eased } from './ease.js';
import { isSure } from './face.js';
import { inLine } from './in-line.js';
import { ofRegisters } from './registers.js';
import { tried } from './tried.js';

/** What is wrong with the hole pattern: a likely mistake, or holes out of place. */
const ofPattern = (proof: Proof): readonly Requirement[] => {
  const suspects = proof.located?.suspects.flatMap((s) => [s.reading, ...s.tiedWith]) ?? [];
  return [
    ...(suspects.length === 0
      ? []
      : [
          notKnown(
            'reading-suspect',
            'reading suspect',
            `${suspects.length === 1 ? 'reading' : 'readings'} ${sayAll(suspects)} of the drilled plate ` +
              `${suspects.length === 1 ? 'does' : 'do'} not agree with the rest`,
            `measure ${suspects.length === 1 ? 'it' : 'them'} again`,
          ),
        ]),
    ...(proof.mistake === null || proof.renumbered !== null
      ? []
      : [
          tried({
            id: 'drilled-as-drawn',
            title: 'drilled as drawn',
            ok: false,
            because: `the plate is not drilled as drawn: ${proof.mistake.says}`,
          }),
        ]),
    ...(proof.handSure
      ? []
      : [
          notKnown(
            'mirror-image',
            'mirror image of the drilled plate',
            'the readings of the drilled plate would be the same on its mirror image',
            handCure(proof.plan.hand),
            handCure(proof.plan.handAtBench) ?? undefined,
          ),
        ]),
    ...(proof.goesOn.size > 0 || proof.unmeasured.length > 0
      ? []
      : [
          notKnown(
            'not-measured',
            'drilled plate not measured',
            'the readings do not reach enough holes to say whether the drilled plate goes on',
            'take the readings that `prove` lists',
            'take the readings that the proof lists',
          ),
        ]),
    ...(proof.unmeasured.length === 0
      ? []
      : [
          notKnown(
            'not-measured',
            'holes not measured',
            `no reading fixes ${sayAll(proof.unmeasured)} of the drilled plate`,
            'take the readings that `prove` lists',
            'take the readings that the proof lists',
          ),
        ]),
  ];
};

/** Whether the drilled plate goes on each face. */
const onFaces = (proof: Proof, speech: Speech): readonly Requirement[] =>
  [...proof.goesOn].map(([face, f]) =>
    tried({
      id: 'goes-on-as-drilled',
      title: `goes on ${face} as drilled`,
      ok: isSure(f),
      value: 100 * f.probability,
      limit: 95,
      unit: '%',
      because:
        f.slack < 0
          ? `the plate as drilled does not go on ${face}: ${say(-f.slack, speech)} is missing at ${sayAll(f.tight)}`
          : `the plate as drilled goes on ${face} ${sayTimes(f.probability)}`,
      ...(f.ease[0] === undefined
        ? {}
        : {
            cure: `ease ${sayAll(f.ease[0].eases.map((e) => eased(e, face)))}, as the proof says`,
            cureAtBench: `ease ${sayAll(f.ease[0].eases.map((e) => eased(e, face)))} (see Proof)`,
          }),
    }),
  );

/**
 * What the drilled plate has to fulfil: its pattern and its hand, every face, and every size that was measured on it. A
 * size is right where its band of ± reaches the limits that it was to have.
 */
export const proofRequirements = (
  job: Job,
  plate: Plate,
  mated: readonly MatedFace[],
  proof: Proof,
  speech: Speech,
): readonly Requirement[] =>
  proof.state === 'not drilled'
    ? []
    : [
        ...ofPattern(proof),
        ...onFaces(proof, speech),
        ...clocked(job, plate, proof),
        ...ofSizes(job, plate, proof, speech),
        ...ofRegisters(plate, mated, proof, speech),
        ...inLine(job, plate, mated, proof, speech),
      ];

/** ± of a drilled hole's size above its drill, mm. Source: common practice, a twist drill cuts a little large. */
const LARGER = 0.2;
const SMALLER = 0.02;

/** Diameters that were read on the plate, against what each hole, bore or register was to be. */
const ofSizes = (job: Job, plate: Plate, proof: Proof, speech: Speech): readonly Requirement[] => {
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
    const [least, most] = limitsOf(cut);
    const short = least - (diameter + plusMinus);
    const over = diameter - plusMinus - most;
    const ok = short <= 1e-9 && over <= 1e-9;
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

/**
 * Least and most that a cut may measure: what it meets depends on it only where it locates; a hole may be its pilot
 * still.
 */
const limitsOf = (cut: Plate['holes'][number] | Plate['bores'][number]): readonly [number, number] => {
  if (!('as' in cut)) {
    if (cut.limits !== null && cut.kind === 'bore') return cut.limits;
    // What goes into a register sets its size; a plain bore may be larger.
    if (cut.kind === 'recess' || cut.kind === 'spigot') return [0, Infinity];
    return [cut.diameter - 0.1, cut.diameter + 1];
  }
  if (cut.limits !== null && cut.as !== 'tapped' && cut.as !== 'set stud')
    return cut.as === 'clearance'
      ? [Math.min(cut.limits[0], cut.diameter) - SMALLER, cut.limits[1] + LARGER]
      : cut.limits;
  const crests = cut.thread === null ? 0 : cut.thread.major - LEAST_THREAD * basicHeight(cut.thread.pitch);
  return [cut.diameter - SMALLER, Math.max(cut.diameter + LARGER, crests)];
};
