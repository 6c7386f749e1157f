import { handCure } from './hand.js';
import { type Requirement, type Speech, notKnown, say, sayAll, sayTimes } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { MatedFace, Plate } from '@fayplate/plate';
import type { Proof } from '../types.js';
import { clocked } from './clocked.js';
import { ofDiameters } from './diameters.js';
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
        ...ofDiameters(job, plate, proof, speech),
        ...ofRegisters(plate, mated, proof, speech),
        ...inLine(job, plate, mated, proof, speech),
      ];
