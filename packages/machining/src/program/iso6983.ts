import { say } from '@fayplate/core';
import type { Plate, Side } from '@fayplate/plate';
import { AT_ASSEMBLY } from '../operations/hole.js';
import { PACKING } from '../table/notes.js';
import { inSetting, settingTag } from '../table/settings.js';
import type { Contour, MachinistTable } from '../types.js';
import { written } from './blocks.js';
import { type ProgramOptions, isAlone, isByHand } from './head.js';

/**
 * One program: the drilling of a side, or one bore, slot, pocket or notch of it, for which the machine is set by hand.
 */
export interface Program {
  readonly side: Side;
  /** `side-b`, `side-b-bore-c1`: what its file is called. */
  readonly name: string;
  /** What it is, for a list of files. */
  readonly says: string;
  readonly text: string;
}

/**
 * Every program of a table, or what stands in their way, in words; `without`: why the outline has none though the job
 * names its cutter.
 */
export type ProgramMade =
  | { readonly ok: true; readonly programs: readonly Program[]; readonly without: readonly string[] }
  | { readonly ok: false; readonly faults: readonly string[] };

/**
 * Programs of a table: absolute, with plane, unit, feed, offset and compensation said at the start, Z zero on the flat
 * of the side that is uppermost, no move before a zero and the tool's length are set, rapid moves on the safe plane
 * alone, a stop at every tool. Refused where the plate's material, and with it every speed, is not known, or where a
 * tool is longer than the room that the job states.
 */
export const iso6983 = (plate: Plate, table: MachinistTable, options: ProgramOptions = {}): ProgramMade => {
  const faults = faultsIn(plate, table);
  if (faults.length > 0) return { ok: false, faults };
  const { contour } = table;
  return {
    ok: true,
    without: contour === undefined || contour.ok ? [] : contour.faults,
    programs: [
      ...sidePrograms(plate, table, options),
      ...(contour?.ok === true ? [outlineProgram(plate, table, contour.contour, options)] : []),
    ],
  };
};

const outlineProgram = (plate: Plate, table: MachinistTable, contour: Contour, options: ProgramOptions): Program => {
  const { side } = contour;
  return {
    side,
    name: `side-${side.toLowerCase()}-outline`,
    says: `program for the outline, side ${side} uppermost, after all else`,
    text: written({ plate, table, side, options, rows: [], title: 'outline', contour }),
  };
};

/** What is milled with a program of its own. */
const milledAs = (plate: Plate, hole: string): 'slot' | 'pocket' | 'notch' => {
  const box = plate.bores.find((b) => b.id === hole)?.box;
  return box === undefined ? 'slot' : box.notch === true ? 'notch' : 'pocket';
};

const sidePrograms = (plate: Plate, table: MachinistTable, options: ProgramOptions): readonly Program[] =>
  table.setups.flatMap((setup): readonly Program[] => {
    const { side } = setup;
    const here = inSetting(table, setup);
    const own = here.rows.filter((r) => r.side === side && r.note !== AT_ASSEMBLY);
    const drilled = own.filter((r) => !isAlone(r) && !isByHand(r));
    const tag = settingTag(setup);
    const within = setup.setting === undefined ? '' : `, setting ${setup.setting} of 2`;
    const base = { plate, table: here, side, options, setup };
    const alone = [...new Set(own.filter(isAlone).map((r) => r.hole))];
    return [
      ...(drilled.length === 0
        ? []
        : [
            {
              side,
              name: tag,
              says: `program for the drilling of side ${side}${within}`,
              text: written({ ...base, rows: drilled, title: null }),
            },
          ]),
      ...alone.map((hole): Program => {
        const rows = own.filter((r) => r.hole === hole && isAlone(r));
        const what = rows[0]?.op === 'bore' ? 'bore' : milledAs(plate, hole);
        return {
          side,
          name: `${tag}-${what}-${hole.toLowerCase()}`,
          says:
            `program for ${what} ${hole} on side ` +
            `${side}${within}${what === 'bore' ? ', run once for each cut of the boring head' : ''}`,
          text: written({ ...base, rows, title: what }),
        };
      }),
    ];
  });

const faultsIn = (plate: Plate, table: MachinistTable): readonly string[] => {
  const cut = table.rows.filter((r) => !isByHand(r));
  const { contour } = table;
  if (cut.some((r) => r.speed === null || r.feed === null) || (contour?.ok === true && contour.contour.speed === null))
    return [
      'speeds are not known: name the plate’s material (plate: material: aluminium, for example) so that the ' +
        'program can state them',
    ];
  const room = table.room === null ? Infinity : table.room - plate.outline.blank.thickness - PACKING;
  const long = [...new Map(cut.filter((r) => r.toolLength > room).map((r) => [r.tool, r])).values()];
  const own = { unit: table.unit, fraction: null };
  return long.map(
    (r) =>
      `${r.tool} is about ${say(r.toolLength, own, 1)} long and the machine has ${say(room, own, 1)} over the ` +
      'plate: list a shorter drill, or state more room',
  );
};
