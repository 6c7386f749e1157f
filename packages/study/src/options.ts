import { shellWord } from '@fayplate/core';
import { type Face, type Job, nearestName } from '@fayplate/job';
import { Refusal } from './refusal.js';

/**
 * What may be asked beside the command; each command reads its own. All of it is plain text and numbers, as a person
 * gives it.
 */
export interface Options {
  /** How lengths are said, instead of in the job's own unit. */
  readonly units?: 'in' | 'mm';
  /** Inches in fractions: to the nearest 1/n. */
  readonly fractions?: number;
  /** Readings left out: `FACE:ID`, or `ID` for every face. */
  readonly setAside?: readonly string[];
  /** Every check of a plate, not only the tightest of its kind. */
  readonly verbose?: boolean;
  /** Name of the file to make; of `packet`, the folder. `-`: standard output. */
  readonly out?: string;
  /** Names of the pictures and of the solid to make beside the answer. */
  readonly picture?: string;
  readonly step?: string;
  /** `plate`, `packet`: trials for the odds that it goes on. */
  readonly trials?: number;
  /** `packet`: what the answer rests on stands behind the templates, from a sheet named Appendix on. */
  readonly full?: boolean;
  /** Of a plate of two pieces: this one alone. */
  readonly piece?: string;
  /**
   * `table`, `packet`: programs and the solid are made though readings are not settled; each then begins with a stop.
   */
  readonly unsettled?: boolean;
  /** `compare`: text of the job file as it was. */
  readonly earlier?: string;
  /** `prove`: which of the ways to go on, from 1; the best unless told. */
  readonly way?: number;
  // `table`
  readonly origin?: string;
  readonly horizontal?: readonly string[];
  readonly oneSided?: boolean;
  readonly csv?: boolean;
  readonly cnc?: boolean;
  readonly dryRun?: boolean;
  /** `table`, `packet`: the unit words of ISO 6983, G70 and G71, in programs. */
  readonly g70G71?: boolean;
  // `print`, and of these `paper` and `printer` of `packet`
  readonly what?: string;
  readonly side?: string;
  readonly paper?: string;
  readonly printer?: string;
  readonly sheet?: string;
  readonly margin?: string;
  readonly overlap?: string;
  readonly turned?: string;
  readonly svg?: boolean;
  /** Of a test piece: the width of a laser's burn, and how thick it is. */
  readonly kerf?: string;
  readonly thick?: string;
}

/** `pump:7` → the ids set aside on one face. */
export const asideOn = (face: string, all: readonly string[] = []): readonly string[] =>
  all.flatMap((entry) => {
    const cut = entry.indexOf(':');
    if (cut < 0) return [entry];
    return entry.slice(0, cut) === face ? [entry.slice(cut + 1)] : [];
  });

/**
 * The option that leaves a reading out, as it is pasted into a shell: one of the two halves of a place, `4.x`, stands
 * for the whole.
 */
export const asideFlag = (face: Face, reading: string): string => {
  const has = face.readings.some((r) => r.id === reading);
  const half = /\.[xy]$/.test(reading) ? reading.slice(0, -2) : null;
  const id = !has && half !== null && face.readings.some((r) => r.id === half) ? half : reading;
  return `--set-aside ${shellWord(`${face.name}:${id}`)}`;
};

/** A reading that is not there cannot be set aside: a slip here would pass for an answer without it. */
export const refuseUnknownAside = (job: Job, all: readonly string[] = []): void => {
  for (const entry of all) {
    const faces = job.faces.filter((f) => asideOn(f.name, [entry]).length > 0);
    const ids = faces.flatMap((f) => [...f.readings.map((r) => r.id), ...f.features.map((x) => `diameter ${x.id}`)]);
    if (faces.some((f) => asideOn(f.name, [entry]).some((id) => ids.includes(id)))) continue;
    if (faces.length === 0)
      throw new Refusal(
        `--set-aside ${entry}: there is no face of that name; the faces are ${job.faces.map((f) => f.name).join(', ')}`,
      );
    const id = entry.slice(entry.indexOf(':') + 1);
    const near = /^\d+$/.test(id) ? null : nearestName(id, ids);
    throw new Refusal(
      `--set-aside ${entry}: there is no such reading${near === null ? '' : `; did you mean ${near}?`}. Readings ` +
        `are numbered from 1 in the order of the file, face by face, such as ${job.faces[0]?.name ?? 'pump'}:3`,
    );
  }
};
