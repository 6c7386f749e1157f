import type { Table } from '../source.js';

/** ISO 965-1 by pitch, mm: deviation g, tolerance of the external major (grade 6), of the internal minor (grades 5 and 6), all µm. */
export interface MetricTolerance {
  readonly pitch: number;
  readonly g: number;
  readonly major6: number;
  readonly minor5: number;
  readonly minor6: number | null;
}

const row = (pitch: number, g: number, major6: number, minor5: number, minor6: number | null): MetricTolerance => ({
  pitch,
  g,
  major6,
  minor5,
  minor6,
});

/** The standard rounds its own formulas to preferred numbers, so the rounded values are what gauges are made to. */
export const metricTolerances: Table<MetricTolerance> = {
  source: 'ISO 965-1, values from memory, held against its formulas',
  rows: [
    row(0.2, 17, 56, 48, null),
    row(0.25, 18, 67, 56, 71),
    row(0.3, 18, 75, 67, 85),
    row(0.35, 19, 85, 80, 100),
    row(0.4, 19, 95, 90, 112),
    row(0.45, 20, 100, 100, 125),
    row(0.5, 20, 106, 112, 140),
    row(0.6, 21, 125, 125, 160),
    row(0.7, 22, 140, 140, 180),
    row(0.75, 22, 140, 150, 190),
    row(0.8, 24, 150, 160, 200),
    row(1, 26, 180, 190, 236),
    row(1.25, 28, 212, 212, 265),
    row(1.5, 32, 236, 236, 300),
    row(1.75, 34, 265, 265, 335),
    row(2, 38, 280, 300, 375),
    row(2.5, 42, 335, 355, 450),
    row(3, 48, 375, 400, 500),
    row(3.5, 53, 425, 450, 560),
    row(4, 60, 475, 475, 600),
    row(4.5, 63, 500, 530, 670),
    row(5, 71, 530, 560, 710),
    row(5.5, 75, 560, 600, 750),
    row(6, 80, 600, 630, 800),
  ],
};
