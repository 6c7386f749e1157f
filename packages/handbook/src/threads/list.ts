import { MM_PER_INCH, parseNumber } from '@fayplate/core';
import { baTable } from './british.js';
import { type FormName, threadForms } from './forms.js';
import { metricTable } from './metric.js';
import type { Thread, ThreadSeries } from './forms.js';
import { unifiedSpecial, unifiedTable } from './unified.js';
import { bsfTable, bswTable } from './british.js';

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
  ...unifiedSpecial.rows.map((r) => unified(r.size, r.major, r.tpi, 'UNS', unifiedSpecial.source)),
  ...metricTable.rows.flatMap((r) => (r.coarse === null ? [] : [metric(r.major, r.coarse, true)])),
  ...metricTable.rows.flatMap((r) => r.fine.map((p) => metric(r.major, p, false))),
  ...bswTable.rows.map((r) => whitworth('BSW', r.size, r.tpi, bswTable.source)),
  ...bsfTable.rows.map((r) => whitworth('BSF', r.size, r.tpi, bsfTable.source)),
  ...baTable.rows.map((r) => ba(r.number, r.pitch, r.major, r.depth)),
];
