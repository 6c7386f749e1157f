import fc from 'fast-check';
import type { Job } from '../src/index.js';

/** A length as a whole number of 64ths of an inch: exact as a fraction and as decimals in either unit. */
export type Sixtyfourths = number;

export interface Model {
  readonly names: readonly string[];
  readonly diameters: readonly Sixtyfourths[];
  readonly each: Sixtyfourths;
  readonly readings: readonly ModelReading[];
}

export interface ModelReading {
  readonly kind: 'centres' | 'over' | 'between' | 'step' | 'wall' | 'dia' | 'line' | 'offset' | 'at';
  readonly from: number;
  readonly value: Sixtyfourths;
  readonly plusMinus: Sixtyfourths | null;
}

const name = fc.stringMatching(/^[A-Za-z][A-Za-z0-9_]{0,5}$/).filter((n) => !/^(by|aside)$/i.test(n));

const reading: fc.Arbitrary<ModelReading> = fc.record({
  kind: fc.constantFrom('centres', 'over', 'between', 'step', 'wall', 'dia', 'line', 'offset', 'at'),
  from: fc.nat(20),
  value: fc.integer({ min: 1, max: 2000 }),
  plusMinus: fc.option(fc.integer({ min: 1, max: 10 })),
});

export const model: fc.Arbitrary<Model> = fc.uniqueArray(name, { minLength: 3, maxLength: 6 }).chain((names) =>
  fc.record({
    names: fc.constant(names),
    diameters: fc.array(fc.integer({ min: 1, max: 400 }), { minLength: names.length, maxLength: names.length }),
    each: fc.integer({ min: 1, max: 8 }),
    readings: fc.array(reading, { maxLength: 8 }),
  }),
);

export type Pen = (n: Sixtyfourths) => string;

export const mixed = (n: number): string => `${n < 64 ? '' : `${Math.floor(n / 64)} `}${n % 64}/64`;

/** Ways to write the same length, by what a bare number means in the job. */
export const pens: Readonly<Record<'in' | 'mm', readonly Pen[]>> = {
  in: [
    (n) => String(n / 64),
    (n) => `${Math.floor(n / 64)} ${n % 64}/64`,
    (n) => `${(n * 25.4) / 64} mm`,
    (n) => `${n / 64} in`,
    (n) => `${(n * 1000) / 64} thou`,
  ],
  mm: [(n) => String((n * 25.4) / 64), (n) => `${mixed(n)} in`, (n) => `${n / 64}"`, (n) => `${(n * 1000) / 64} thou`],
};

const line = (m: Model, r: ModelReading, pen: Pen): string => {
  const at = (i: number): string => m.names[(r.from + i) % m.names.length] ?? '';
  const tail = r.plusMinus === null ? ' by rule' : ` ± ${pen(r.plusMinus)} by rule`;
  if (r.kind === 'dia') return `dia ${at(0)} = ${pen(r.value)}${tail}`;
  if (r.kind === 'line') return `line ${at(0)} ${at(1)} ${at(2)}${tail}`;
  if (r.kind === 'offset') return `offset ${at(0)} ${at(1)}-${at(2)} = ${pen(r.value)}${tail}`;
  if (r.kind === 'at') return `at ${at(0)} = (${pen(r.value)}, -${pen(r.from + 1)})${tail}`;
  return `${r.kind} ${at(0)} ${at(1)} = ${pen(r.value)}${tail}`;
};

/** The model as a file; quoted, since an inch mark may end a line. */
export const written = (m: Model, units: 'in' | 'mm', pen: Pen): string =>
  [
    'job: model',
    `units: ${units}`,
    'instruments:',
    `  rule: '± ${pen(m.each)}'`,
    'faces:',
    '  f:',
    '    features:',
    ...m.names.map((n, i) => `      ${n}: { kind: hole, diameter: '${pen(m.diameters[i] ?? 1)}' }`),
    '    readings:',
    ...m.readings.map((r) => `      - '${line(m, r, pen)}'`),
    '',
  ].join('\n');

/** The job without what is only about how it was written; numbers to nine places, so that 25.4 x / 64 is one number. */
export const substance = (job: Job): unknown => {
  const bare = (key: string, value: unknown): unknown => {
    if (['text', 'place', 'rimWritten', 'unit', 'units', 'note'].includes(key)) return undefined;
    if (typeof value === 'number') return Math.round(value * 1e9) / 1e9;
    if (value instanceof Map) return [...value];
    return value;
  };
  return JSON.parse(JSON.stringify(job, bare));
};
