import { type LengthUnit, oncePer } from '@fayplate/core';
import * as z from 'zod/mini';
import { drilled } from './drilled.js';
import { assembled } from './reading.js';
import { face } from './face.js';
import { section, text, word } from './leaf.js';
import { faceName, instrumentName, namedBy } from './names.js';
import { moves } from './places.js';
import { plate } from './plate.js';
import { drawing, machine, print } from './shop.js';
import { gaskets, old, stack, trial } from './stack.js';
import { type Values, valuesIn } from './values.js';
import { work } from './work.js';

const instrument = (v: Values) =>
  z.union([
    v.instrumentBand('± of one reading.'),
    section('an instrument such as ± 0.002 in, or { each: ± 1/64 in, zero: ± 1/64 in }', {
      each: v.instrumentBand('± of one reading.'),
      zero: z.optional(v.instrumentBand('± of one error that all its readings share, such as a worn end.')),
    }),
  ]);

const jobFile = (unit: LengthUnit) => {
  const v = valuesIn(unit);
  return section('a job: sections such as job, units, instruments and faces', {
    job: text('the name of the job', { description: 'The name of the job.', examples: ['Heron Lane lift pump'] }),
    units: word(['in', 'mm'], 'What a bare number means; a written unit always wins.'),
    instruments: z.optional(
      namedBy(
        instrumentName,
        instrument(v),
        'a section of instruments',
        'Instruments by name, with the ± that holds 95 times in 100.',
      ),
    ),
    faces: z.optional(namedBy(faceName, face(v, unit), 'a section of faces', 'The faces by name.')),
    plate: z.optional(plate(v, unit)),
    machine: z.optional(machine(v, unit)),
    stack: z.optional(stack(v)),
    old: z.optional(old(v)),
    gaskets: z.optional(gaskets(v)),
    drilled: z.optional(drilled(v)),
    trial: z.optional(trial(v)),
    assembled: z.optional(assembled()),
    moves: z.optional(moves(v)),
    print: z.optional(print(v)),
    drawing: z.optional(drawing(v)),
    work: z.optional(work(v)),
  });
};

export type JobFile = z.output<ReturnType<typeof jobFile>>;

/** The one schema of a job file whose bare numbers are in `unit`. */
export const schemaIn = oncePer(jobFile);

/**
 * JSON Schema (2020-12) of the job file for editors: the one schema that files are read with, before its words are
 * read.
 */
export const jobSchema = (): object => ({
  ...z.toJSONSchema(schemaIn('mm'), { io: 'input', target: 'draft-2020-12' }),
  title: 'Fayplate job',
});
