import { paper, papers } from '@fayplate/handbook';
import type { Lettering, Picture } from '@fayplate/drawing';
import type { MachinistTable } from '@fayplate/machining';
import { type SheetPaper, type WorkshopDrawing, habitsOf, workshopDrawing } from '@fayplate/pictures';
import { positionTolerances } from '@fayplate/plate';
import { Refusal } from '../refusal.js';
import type { Study } from '../types.js';
import { unsettledOf } from '../verdict.js';

/** Sheets that are tried in turn where none is asked for. */
const tried = { ISO: ['A3', 'A2', 'A1', 'A0'], ASME: ['ANSI B', 'ANSI C', 'ANSI D', 'ANSI E'] } as const;

const lying = (name: string): SheetPaper => {
  const found = paper(name);
  if (found === null)
    throw new Refusal(`--paper ${name}: no such paper; there is ${papers.map((p) => p.name).join(', ')}`);
  return {
    name: found.name,
    width: Math.max(found.width, found.height),
    height: Math.min(found.width, found.height),
  };
};

/**
 * What thickness another shop may leave, mm: as the stack bears it, or as the job states its ±; else a general ± (ISO
 * 2768-m, from memory).
 */
const thicknessOf = (study: Study, table: MachinistTable): readonly [number, number] => {
  const { thickness } = study.plate().plate;
  const { window } = table.stock;
  if (window !== null) return [window[0], window[1]];
  const off = study.job.plate?.parallel ?? (thickness <= 6 ? 0.1 : thickness <= 30 ? 0.2 : 0.3);
  // A chain that the stated thickness lies in bears no more than its own window.
  const worst = study.job.stack?.unknown.name.toLowerCase().includes('plate') === true ? study.stack()?.worst : null;
  const [least, most] = worst == null ? [0, Infinity] : [worst.from, worst.to];
  return thickness < least || thickness > most
    ? [thickness - off, thickness + off]
    : [Math.max(least, thickness - off), Math.min(most, thickness + off)];
};

/** The drawing for another shop on the paper that is asked for, else on the smallest that holds it. */
export const workshopSheet = (
  study: Study,
  table: MachinistTable,
  asked: string | undefined,
  letters: Lettering,
): { readonly drawing: Picture; readonly paper: SheetPaper; readonly zones: ReadonlyMap<string, number> } => {
  const { plate, mated } = study.plate();
  const zones = positionTolerances(plate, study.job, mated);
  const d: WorkshopDrawing = {
    plate,
    table,
    zones,
    job: study.job,
    thickness: thicknessOf(study, table),
    across: unsettledOf(study),
  };
  for (const name of asked === undefined ? tried[habitsOf(study.job)] : [asked]) {
    const sheet = lying(name);
    const drawing = workshopDrawing(d, sheet, letters);
    if (drawing !== null) return { drawing, paper: sheet, zones };
  }
  throw new Refusal(
    asked === undefined
      ? 'the drawing does not fit on the largest sheet: leave some holes to a drawing of their own'
      : `the drawing does not fit on ${asked}: leave --paper out, and the smallest sheet that holds it is taken`,
  );
};
