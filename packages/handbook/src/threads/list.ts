import { MM_PER_INCH, parseNumber } from '@fayplate/core';
import { baTable, brassTable, bscTable, bsfTable, bswTable } from './british.js';
import { type FormName, threadForms } from './forms.js';
import { metricTable } from './metric.js';
import type { Thread, ThreadSeries } from './forms.js';
import { bspTable } from './pipe.js';
import { unefTable, unifiedSpecial, unifiedTable } from './unified.js';

const build = (
  name: string,
  size: string,
  series: ThreadSeries,
  form: FormName,
  major: number,
  pitch: number,
  tpi: number | null,
  source: string,
): Thread => {
  const f = threadForms[form];
  return {
    name,
    size,
    series,
    form,
    major,
    pitch,
    tpi,
    angle: f.angle,
    depth: f.external * pitch,
    pitchDiameter: major - 2 * f.effective * pitch,
    minor: major - 2 * f.internal * pitch,
    source,
  };
};

const unified = (size: string, major: number, tpi: number, series: ThreadSeries, source: string): Thread =>
  build(`${size}-${tpi} ${series}`, size, series, 'unified', major * MM_PER_INCH, MM_PER_INCH / tpi, tpi, source);

const inches = (size: string): number => {
  const n = parseNumber(size);
  if (!n.ok) throw new RangeError(`a thread's size is no number: ${size}`);
  return n.value;
};

const whitworth = (series: 'BSW' | 'BSF', size: string, tpi: number, source: string): Thread =>
  build(`${size} ${series}`, size, series, 'whitworth', inches(size) * MM_PER_INCH, MM_PER_INCH / tpi, tpi, source);

/** Cycle and brass threads are named by their size, all of one kind have one pitch, except the smallest. */
const cycle = (size: string, tpi: number): Thread =>
  build(`${size} BSC`, size, 'BSC', 'cycle', inches(size) * MM_PER_INCH, MM_PER_INCH / tpi, tpi, bscTable.source);
const brass = (size: string, tpi: number): Thread =>
  build(
    `${size} brass`,
    size,
    'brass',
    'whitworth',
    inches(size) * MM_PER_INCH,
    MM_PER_INCH / tpi,
    tpi,
    brassTable.source,
  );

/** The tables' own minor diameter, which the standard rounds. */
const pipe = (size: string, tpi: number, major: number, minor: number): Thread => ({
  ...build(`G${size}`, `G${size}`, 'G', 'whitworth', major, MM_PER_INCH / tpi, tpi, bspTable.source),
  minor,
});

const metric = (major: number, pitch: number, coarse: boolean): Thread =>
  build(
    coarse ? `M${major}` : `M${major}x${pitch}`,
    `M${major}`,
    coarse ? 'metric coarse' : 'metric fine',
    'metric',
    major,
    pitch,
    null,
    metricTable.source,
  );

/** BS 93 rounds the depth to 0.005 mm before the other diameters are taken from it. */
const ba = (number: number, pitch: number, major: number, depth: number): Thread => ({
  ...build(`${number} BA`, `${number} BA`, 'BA', 'BA', major, pitch, null, baTable.source),
  depth,
  pitchDiameter: major - depth,
  minor: major - 2 * depth,
});

/** Every thread of the tables, each series from the smallest up. */
export const threads: readonly Thread[] = [
  ...unifiedTable.rows.flatMap((r) =>
    r.unc === null ? [] : [unified(r.size, r.major, r.unc, 'UNC', unifiedTable.source)],
  ),
  ...unifiedTable.rows.flatMap((r) =>
    r.unf === null ? [] : [unified(r.size, r.major, r.unf, 'UNF', unifiedTable.source)],
  ),
  ...unefTable.rows.map(([size, major, tpi]) => unified(size, major, tpi, 'UNEF', unefTable.source)),
  ...unifiedSpecial.rows.map((r) => unified(r.size, r.major, r.tpi, 'UNS', unifiedSpecial.source)),
  ...metricTable.rows.flatMap((r) => (r.coarse === null ? [] : [metric(r.major, r.coarse, true)])),
  ...metricTable.rows.flatMap((r) => r.fine.map((p) => metric(r.major, p, false))),
  ...bswTable.rows.map((r) => whitworth('BSW', r.size, r.tpi, bswTable.source)),
  ...bsfTable.rows.map((r) => whitworth('BSF', r.size, r.tpi, bsfTable.source)),
  ...bscTable.rows.map((r) => cycle(r.size, r.tpi)),
  ...brassTable.rows.map((r) => brass(r.size, r.tpi)),
  ...bspTable.rows.map(([size, tpi, major, minor]) => pipe(size, tpi, major, minor)),
  ...baTable.rows.map((r) => ba(r.number, r.pitch, r.major, r.depth)),
];
