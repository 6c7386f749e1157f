import { DEGREE, MM_PER_INCH, parseNumber } from '@fayplate/core';
import type { Table } from '../source.js';

/** Size, threads to the inch, major and minor diameter, tolerances of the major outside and of the minor inside: mm. */
export const bspTable: Table<
  readonly [size: string, tpi: number, major: number, minor: number, outside: number, inside: number]
> = {
  source:
    'ISO 228-1, table 1 (classes A and B), read in bd_warehouse, data/iso_228_1.csv; the sizes to 1 in from memory too',
  rows: [
    ['1/16', 28, 7.723, 6.561, 2 * 0.107, 0.282],
    ['1/8', 28, 9.728, 8.566, 2 * 0.107, 0.282],
    ['1/4', 19, 13.157, 11.445, 2 * 0.125, 0.445],
    ['3/8', 19, 16.662, 14.95, 2 * 0.125, 0.445],
    ['1/2', 14, 20.955, 18.631, 2 * 0.142, 0.541],
    ['5/8', 14, 22.911, 20.587, 2 * 0.142, 0.541],
    ['3/4', 14, 26.441, 24.117, 2 * 0.142, 0.541],
    ['7/8', 14, 30.201, 27.877, 2 * 0.142, 0.541],
    ['1', 11, 33.249, 30.291, 2 * 0.18, 0.64],
    ['1 1/8', 11, 37.897, 34.939, 2 * 0.18, 0.64],
    ['1 1/4', 11, 41.91, 38.952, 2 * 0.18, 0.64],
    ['1 1/2', 11, 47.803, 44.845, 2 * 0.18, 0.64],
    ['1 3/4', 11, 53.746, 50.788, 2 * 0.18, 0.64],
    ['2', 11, 59.614, 56.656, 2 * 0.18, 0.64],
    ['2 1/2', 11, 75.184, 72.226, 2 * 0.217, 0.64],
    ['3', 11, 87.884, 84.926, 2 * 0.217, 0.64],
    ['4', 11, 113.03, 110.072, 2 * 0.217, 0.64],
  ],
};

/** Size, threads to the inch, outside diameter of the pipe in inches: what a caliper finds near the large end. */
const nptTable: Table<readonly [size: string, tpi: number, outside: number]> = {
  source: 'ASME B1.20.1, table 2, from memory',
  rows: [
    ['1/16', 27, 0.3125],
    ['1/8', 27, 0.405],
    ['1/4', 18, 0.54],
    ['3/8', 18, 0.675],
    ['1/2', 14, 0.84],
    ['3/4', 14, 1.05],
    ['1', 11.5, 1.315],
    ['1 1/4', 11.5, 1.66],
    ['1 1/2', 11.5, 1.9],
    ['2', 11.5, 2.375],
  ],
};

/** A taper pipe thread, 1 in 16 on the diameter; lengths mm. It seals on its flanks and is no bolt's thread. */
export interface TaperThread {
  readonly name: string;
  readonly series: 'R' | 'NPT';
  readonly size: string;
  /** At the gauge plane (R), or the pipe's outside (NPT). */
  readonly major: number;
  readonly pitch: number;
  readonly tpi: number;
  /** Included angle of the flanks, radians. */
  readonly angle: number;
  readonly source: string;
}

/** Taper pipe threads: ISO 7-1 (R, BSPT), the sizes of ISO 228, and NPT. */
export const taperThreads: readonly TaperThread[] = [
  ...bspTable.rows.map(([size, tpi, major]) => ({
    name: `R${size}`,
    series: 'R' as const,
    size,
    major,
    pitch: MM_PER_INCH / tpi,
    tpi,
    angle: 55 * DEGREE,
    source: `ISO 7-1, gauge plane: the diameters of ${bspTable.source}`,
  })),
  ...nptTable.rows.map(([size, tpi, outside]) => ({
    name: `${size}-${tpi} NPT`,
    series: 'NPT' as const,
    size,
    major: outside * MM_PER_INCH,
    pitch: MM_PER_INCH / tpi,
    tpi,
    angle: 60 * DEGREE,
    source: nptTable.source,
  })),
];

const taperForm = /^(?:(r|rc|rp|bspt) ?)?(\d[\d /-]{0,8}?)(?:-[\d.]{1,4})?(?: ?(bspt|bsp taper|npt|r))?$/;

/** A taper pipe thread as people write it: `R1/8`, `1/8 BSPT`, `1/4 NPT`, `1/4-18 NPT`. Null where it is none. */
export const parseTaper = (text: string): TaperThread | null => {
  const m = taperForm.exec(text.trim().toLowerCase().replace(/\s+/g, ' ').slice(0, 40));
  const mark = m?.[1] ?? m?.[3];
  const size = m === null ? null : parseNumber((m[2] ?? '').replace('-', ' '));
  if (mark === undefined || size === null || !size.ok) return null;
  const series = mark === 'npt' ? 'NPT' : 'R';
  return (
    taperThreads.find((t) => {
      const own = parseNumber(t.size);
      return t.series === series && own.ok && Math.abs(own.value - size.value) < 1e-9;
    }) ?? null
  );
};
