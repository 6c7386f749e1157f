import { type MachinistTable, type Program, iso6983, stepSolid, tableCsv } from '@fayplate/machining';
import type { Plate } from '@fayplate/plate';
import { Refusal } from './answer.js';
import type { Io } from './io.js';

/** What `fayplate table` is asked to give in place of words. */
export interface ContentOptions {
  readonly csv?: boolean;
  readonly cnc?: boolean;
  readonly dryRun?: boolean;
  readonly g20G21?: boolean;
  readonly out?: string;
  readonly force?: boolean;
}

const programsOf = (plate: Plate, made: MachinistTable, name: string, options: ContentOptions): readonly Program[] => {
  const programs = iso6983(plate, made, {
    name,
    dryRun: options.dryRun === true,
    usualUnitWords: options.g20G21 === true,
  });
  if (!programs.ok) throw new Refusal(programs.faults.join('\n'));
  return programs.programs;
};

/** The content asked for in place of words. Programs of two sides never share a file: one is run, the plate turned over, then the other. */
export const tableContent = (
  plate: Plate,
  made: MachinistTable,
  name: string,
  options: ContentOptions,
  io: Io,
): string | null => {
  if (options.csv === true) return tableCsv(made);
  if (options.cnc !== true) return null;
  const programs = programsOf(plate, made, name, options);
  const { out } = options;
  if (out === undefined || out === '-' || programs.length === 1) return programs.map((p) => p.text).join('\n');
  const dot = out.lastIndexOf('.') > out.lastIndexOf('/') ? out.lastIndexOf('.') : out.length;
  io.write(
    programs.map(({ side, text }) => ({
      path: `${out.slice(0, dot)}-side-${side.toLowerCase()}${out.slice(dot)}`,
      content: text,
    })),
    options.force === true,
  );
  return null;
};

/** Writes the plate as a solid, ISO 10303-21. */
export const saveSolid = (plate: Plate, name: string, path: string, io: Io, force: boolean): void => {
  const solid = stepSolid(plate, { name });
  if (!solid.ok) throw new Refusal(`no solid can be made: ${solid.faults.join('; ')}`);
  io.write([{ path, content: solid.text }], force);
};
