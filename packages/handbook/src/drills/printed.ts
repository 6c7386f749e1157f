import type { Table } from '../source.js';

/** Thread by name, drill by name: what the charts print. */
type Row = readonly [thread: string, drill: string];

/** About 75 % of thread. */
const unified: Table<Row> = {
  source: 'tap drill charts, ASME B1.1 threads: read in two places to 1 in, in one from there on',
  rows: [
    ['#0-80 UNF', '3/64'], ['#1-64 UNC', '#53'], ['#1-72 UNF', '#53'], ['#2-56 UNC', '#50'], ['#2-64 UNF', '#50'], ['#3-48 UNC', '#47'],
    ['#3-56 UNF', '#45'], ['#4-40 UNC', '#43'], ['#4-48 UNF', '#42'], ['#5-40 UNC', '#38'], ['#5-44 UNF', '#37'], ['#6-32 UNC', '#36'],
    ['#6-40 UNF', '#33'], ['#8-32 UNC', '#29'], ['#8-36 UNF', '#29'], ['#10-24 UNC', '#25'], ['#10-32 UNF', '#21'], ['#12-24 UNC', '#16'],
    ['#12-28 UNF', '#14'], ['1/4-20 UNC', '#7'], ['1/4-28 UNF', '#3'], ['5/16-18 UNC', 'F'], ['5/16-24 UNF', 'I'], ['3/8-16 UNC', '5/16'],
    ['3/8-24 UNF', 'Q'], ['7/16-14 UNC', 'U'], ['7/16-20 UNF', '25/64'], ['1/2-13 UNC', '27/64'], ['1/2-20 UNF', '29/64'],
    ['9/16-12 UNC', '31/64'], ['9/16-18 UNF', '33/64'], ['5/8-11 UNC', '17/32'], ['5/8-18 UNF', '37/64'], ['3/4-10 UNC', '21/32'],
    ['3/4-16 UNF', '11/16'], ['7/8-9 UNC', '49/64'], ['7/8-14 UNF', '13/16'], ['1-8 UNC', '7/8'], ['1-12 UNF', '59/64'], ['1-14 UNS', '15/16'],
    ['1 1/8-7 UNC', '63/64'], ['1 1/8-12 UNF', '1 3/64'], ['1 1/4-7 UNC', '1 7/64'], ['1 1/4-12 UNF', '1 11/64'], ['1 3/8-6 UNC', '1 7/32'],
    ['1 3/8-12 UNF', '1 19/64'], ['1 1/2-6 UNC', '1 11/32'], ['1 1/2-12 UNF', '1 27/64'],
  ],
};

/** Major less pitch, to a stock size. */
const metric: Table<Row> = {
  source: 'ISO 2306: M2.5 to M24 coarse and most fine pitches read in two places, the others in one',
  rows: [
    ['M2', '1.6 mm'], ['M2x0.25', '1.75 mm'], ['M2.5', '2.05 mm'], ['M2.5x0.35', '2.1 mm'], ['M3', '2.5 mm'], ['M3.5', '2.9 mm'],
    ['M4', '3.3 mm'], ['M4x0.5', '3.5 mm'], ['M5', '4.2 mm'], ['M5x0.5', '4.5 mm'], ['M6', '5 mm'], ['M6x0.75', '5.2 mm'], ['M8', '6.8 mm'],
    ['M8x1', '7 mm'], ['M8x0.75', '7.2 mm'], ['M10', '8.5 mm'], ['M10x1.25', '8.8 mm'], ['M10x1', '9 mm'], ['M10x0.75', '9.2 mm'],
    ['M12', '10.2 mm'], ['M12x1.5', '10.5 mm'], ['M12x1.25', '10.8 mm'], ['M12x1', '11 mm'], ['M14', '12 mm'], ['M14x1.5', '12.5 mm'],
    ['M14x1.25', '12.8 mm'], ['M16', '14 mm'], ['M16x1.5', '14.5 mm'], ['M16x1', '15 mm'], ['M18', '15.5 mm'], ['M18x2', '16 mm'],
    ['M18x1.5', '16.5 mm'], ['M20', '17.5 mm'], ['M20x2', '18 mm'], ['M20x1.5', '18.5 mm'], ['M22', '19.5 mm'], ['M22x2', '20 mm'],
    ['M22x1.5', '20.5 mm'], ['M24', '21 mm'], ['M24x2', '22 mm'], ['M24x1.5', '22.5 mm'],
  ],
};

const british: Table<Row> = {
  source: 'BSW and BSF drill lists: read in one or two places; 1/8 and 9/16 BSW from memory',
  rows: [
    ['1/8 BSW', '2.55 mm'], ['3/16 BSW', '3.7 mm'], ['7/32 BSW', '4.6 mm'], ['1/4 BSW', '5.1 mm'], ['5/16 BSW', '6.5 mm'], ['3/8 BSW', '7.9 mm'],
    ['7/16 BSW', '9.3 mm'], ['1/2 BSW', '10.5 mm'], ['9/16 BSW', '12.1 mm'], ['5/8 BSW', '13.5 mm'], ['3/4 BSW', '16.25 mm'],
    ['7/8 BSW', '19.25 mm'], ['1 BSW', '22 mm'], ['3/16 BSF', '4 mm'], ['7/32 BSF', '4.6 mm'], ['1/4 BSF', '5.3 mm'], ['5/16 BSF', '6.8 mm'],
    ['3/8 BSF', '8.3 mm'], ['7/16 BSF', '9.7 mm'], ['1/2 BSF', '7/16'], ['9/16 BSF', '1/2'], ['5/8 BSF', '14 mm'], ['11/16 BSF', '15.5 mm'],
    ['3/4 BSF', '16.75 mm'], ['7/8 BSF', '25/32'], ['1 BSF', '22.75 mm'],
  ],
};

const ba: Table<Row> = {
  source: 'BA drill lists: 0 to 2 BA read in one place, the others from memory',
  rows: [
    ['0 BA', '5.1 mm'], ['1 BA', '4.5 mm'], ['2 BA', '4 mm'], ['3 BA', '3.4 mm'], ['4 BA', '3 mm'], ['5 BA', '2.65 mm'], ['6 BA', '2.3 mm'],
    ['7 BA', '2.05 mm'], ['8 BA', '1.8 mm'], ['9 BA', '1.55 mm'], ['10 BA', '1.4 mm'],
  ],
};

const printed = new Map(
  [unified, metric, british, ba].flatMap((table) => table.rows.map(([thread, drill]) => [thread, { drill, source: table.source }] as const)),
);

/** The drill that the charts print for a thread, by its name, or null where they print none. */
export const printedTapDrill = (thread: string): { readonly drill: string; readonly source: string } | null => printed.get(thread) ?? null;
export const printedTapDrills: ReadonlyMap<string, { readonly drill: string; readonly source: string }> = printed;
