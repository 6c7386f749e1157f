import {
  type LengthUnit,
  type Speech,
  apply,
  norm,
  say,
  sayAll,
  sayAtLeast,
  sayEnough,
  subtract,
} from '@fayplate/core';
import { plateStock } from '@fayplate/handbook';
import type { Job } from '@fayplate/job';
import { type Plate, outlineSize } from '@fayplate/plate';
import { isReamedLater } from '../checks/places.js';
import type { TableAxes } from '../frame/axes.js';
import { type Cut, toolLength } from '../operations/operation.js';
import type { ToolGroup } from '../operations/plan.js';
import type { ContourMade, Operation, Stock, TableNotes } from '../types.js';
import { lackedDrills, lackedTaps } from './lacked.js';
import { clampingWords, viceWords } from './setup.js';
import { reachWords } from './reach.js';
import { outlineWords } from './outline-words.js';
import { isRaised, packingWords, plain } from './packing.js';

/** What the rows do not say, in the order of the work: metal, marks, packing, clamps, tools, and the saw last. */
export const tableNotes = (
  plate: Plate,
  job: Job,
  groups: readonly ToolGroup[],
  axes: TableAxes,
  stock: Stock,
  unit: LengthUnit,
  contour: ContourMade | null,
): TableNotes => {
  const speech = { unit, fraction: null };
  return {
    stock: stockWords(plate, axes, stock, speech),
    setting: [
      'Before you drill, stamp B on side B and 12 beside the edge that lies towards 12 o’clock of ' +
        `${plate.faces[0]}: then nobody can turn it over by mistake.`,
      ...packingWords(plate, groups, stock.side, unit),
      ...reachWords(job.machine, groups, axes, speech),
      ...viceWords(job.machine?.vice ?? null, axes, speech),
      clampingWords(plate, axes, speech, stock.faced > 0 || isRaised(plate, stock.side), job.machine),
      ...byHandWords(plate),
      ...throughOther(plate),
    ],
    tools: [
      ...tooDeep(groups, speech),
      ...tooLong(groups, job, plate, speech),
      ...boringWords(plate, groups, axes, speech),
      ...lackedDrills(plate, groups, job.machine?.drills ?? [], speech),
      ...lackedTaps(plate, job.machine?.taps ?? null),
    ],
    last: [
      'Break the edges of every hole on the far side as well.',
      ...contourNotes(contour, outlineWords(plate, axes, speech), speech),
    ],
  };
};

/** How the outline is cut, and why no program does it where the job names a cutter that cannot. */
const contourNotes = (made: ContourMade | null, shape: string, speech: Speech): readonly string[] => {
  if (made?.ok !== true)
    return [
      ...(made?.faults ?? []).map((f) => `${capital(f)}. So the outline has no program.`),
      `Saw and file the outline last: you clamp and measure by the square blank. ${shape}`,
    ];
  const { cutter, tabs } = made.contour;
  const held =
    tabs.length === 0
      ? 'Nothing but its own clamps holds the plate then'
      : `${tabs.length} tabs hold the plate: saw and file them`;
  return [
    `Cut the outline last, by its own program, with an end mill of ${say(cutter, speech)}. ${held}; offcuts may ` +
      `come free. ${shape}`,
  ];
};

/** All of them in the order of the work. */
export const inOrder = (n: TableNotes): readonly string[] => [...n.stock, ...n.setting, ...n.tools, ...n.last];

/** What the programs leave to the person. */
const byHandWords = (plate: Plate): readonly string[] => {
  const raised = plate.bores
    .filter((b) => b.kind === 'spigot' || (b.kind === 'relief' && b.box === undefined))
    .map((b) => b.id);
  return raised.length === 0
    ? []
    : [
        `${sayAll(raised)} ${raised.length === 1 ? 'has' : 'have'} no program: cut ` +
          `${raised.length === 1 ? 'it' : 'them'} by the handwheels, on a rotary table or in a lathe.`,
      ];
};

/** Dowel holes that wait for the other piece of two. */
const throughOther = ({ joint, holes }: Plate): readonly string[] => {
  const later = joint?.takes === true ? holes.filter(isReamedLater).map((h) => h.id) : [];
  return later.length === 0
    ? []
    : [
        `${sayAll(later)} ${later.length === 1 ? 'is' : 'are'} not cut here: drilled and reamed through ` +
          `${joint?.face ?? ''} when it has been set true.`,
      ];
};

/** Blank and thickness, with what the stack bears beside them. */
const stockWords = (plate: Plate, axes: TableAxes, stock: Stock, speech: Speech): readonly string[] => {
  const { blank } = axes;
  const thick = speech.unit === 'in' ? 3 : 2;
  const size = (w: number, h: number): string => `${plain(w, speech)} × ${plain(h, speech)} ${speech.unit}`;
  const proud = plate.outline.blank.thickness > plate.thickness + 1e-9;
  const to =
    stock.window === null
      ? ''
      : ` (${say(stock.window[0], speech, thick)} to ${say(stock.window[1], speech, thick)} will do)`;
  const thickness = proud
    ? `${stock.faced > 0 ? `faced to ${say(plate.outline.blank.thickness, speech, thick)}, then` : 'first'} cut ` +
      'round what stands proud, down to the flat that all depths are measured from; finished thickness between the ' +
      `flats ${say(plate.thickness, speech, thick)}${to}`
    : stock.faced > 0
      ? `faced to ${say(plate.thickness, speech, thick)}${to}`
      : `as bought${to}`;
  const others = stock.window === null || proud ? [] : asBought(stock.window, stock.name);
  return [
    `Blank: ${size(blank.width, blank.height)}, ${stock.name ?? say(stock.thickness, speech, thick)} ` +
      'thick' +
      (stock.name === null && stock.own !== true
        ? ' (more than is sold: two pieces, screwed and dowelled together, do it)'
        : '') +
      ', ' +
      `${thickness}. The finished outline, ${outlineSize(blank.finished, speech)}, leaves at least ` +
      `${sayAtLeast(blank.allowance, speech, speech.unit === 'in' ? 2 : 1)} round it.`,
    ...(others.length === 0
      ? []
      : [
          `Plate of ${others.join(' or ')} is within those limits as bought and needs no facing: state it as the ` +
            'thickness and print again.',
        ]),
  ];
};

/** Stock of either system that serves without facing. */
const asBought = ([least, most]: readonly [number, number], taken: string | null): readonly string[] =>
  (['mm', 'in'] as const)
    .flatMap((unit) => plateStock(unit))
    .filter((s) => s.name !== taken && s.thickness >= least - 1e-9 && s.thickness <= most + 1e-9)
    .map((s) => s.name);

/** Tools that do not fit between the spindle and a plate on packing, where the job says how much room there is. */
const tooLong = (groups: readonly ToolGroup[], job: Job, plate: Plate, speech: Speech): readonly string[] => {
  const room = job.machine?.room ?? null;
  if (room === null) return [];
  const free = room - plate.outline.blank.thickness - PACKING;
  return groups.flatMap(({ tool, cuts }) => {
    const long = Math.max(...cuts.map(toolLength));
    return long <= free
      ? []
      : [
          `${capital(tool)} is about ${say(long, speech, speech.unit === 'in' ? 1 : 0)} long and the machine has ` +
            `${say(free, speech, speech.unit === 'in' ? 1 : 0)} over the ` +
            'plate: take a short one, or one with a reduced shank.',
        ];
  });
};

/** Packing under the plate, mm (common practice). */
export const PACKING = 20;

/** More cuts of a boring head than this are slower than other ways. */
const MANY_CUTS = 12;

/** How many cuts each boring takes, and the other ways where they are many. */
const boringWords = (plate: Plate, groups: readonly ToolGroup[], axes: TableAxes, speech: Speech): readonly string[] =>
  groups
    .flatMap((g) => g.cuts)
    .flatMap((c) => {
      const passes = c.passes ?? null;
      if (passes === null || passes <= MANY_CUTS) return [];
      const swing = 2 * farthestCorner(c, axes);
      const through = plate.bores.some((b) => b.id === c.hole && b.depth === null);
      const trepan = through
        ? 'trepan it (a ring of drilled holes or a hole saw leaves a disc) and bore the last of it; or '
        : '';
      return [
        `${c.hole} is ${passes} cuts with a ${c.tool.replace('to', 'that reaches')}. Quicker: ${trepan}turn it on ` +
          `a faceplate, in a lathe that swings ${sayEnough(swing, speech, speech.unit === 'in' ? 1 : 0)}.`,
      ];
    });

const farthestCorner = (c: Cut, { blank, motion }: TableAxes): number => {
  const at = apply(motion, c.at);
  return Math.max(
    ...[blank.left, blank.left + blank.width].flatMap((x) =>
      [blank.bottom, blank.bottom + blank.height].map((y) => norm(subtract({ x, y }, at))),
    ),
  );
};

const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

/**
 * How deep the tools that are usually sold go, in diameters (common practice: jobber drills 7 to 10, hand taps about
 * 4).
 */
const DRILL_REACHES = 8;
const TAP_REACHES = 4;

/** Drills and taps that would bottom on their own shanks. */
const tooDeep = (groups: readonly ToolGroup[], speech: Speech): readonly string[] =>
  groups.flatMap(({ tool, cuts }) => {
    const far = (of: (op: Operation) => boolean, reach: number): readonly Cut[] =>
      cuts.filter((c) => of(c.op) && c.depth > reach * c.toolDiameter);
    const said = (deep: readonly Cut[]): string =>
      `${capital(tool)} goes ${say(Math.max(...deep.map((c) => c.depth)), speech, speech.unit === 'in' ? 2 : 0)} ` +
      `deep in ${[...new Set(deep.map((c) => c.hole))].join(', ')}`;
    const drilled = far((op) => op === 'pilot' || op === 'drill', DRILL_REACHES);
    const tapped = far((op) => op === 'tap', TAP_REACHES);
    return [
      ...(drilled.length === 0
        ? []
        : [
            `${said(drilled)}, beyond ${DRILL_REACHES} diameters: take a long-series drill, and clear the chips often.`,
          ]),
      ...(tapped.length === 0
        ? []
        : [
            `${said(tapped)}, deeper than a usual tap reaches: leave thread for the bolt on its entry side, and ` +
              'open the rest to the clearance drill from the other.',
          ]),
    ];
  });
