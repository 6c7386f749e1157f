import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { jobSchema } from '../src/index.js';

/** Ajv is the independent reader of the schema: an editor checks a file in the same way. */
const validate = new Ajv2020({ strict: false, allErrors: true }).compile(jobSchema());
const folder = join(import.meta.dirname, '../../../test/cases');
const cases = readdirSync(folder).filter((f) => f.endsWith('.yaml'));
const read = (file: string): unknown => parse(readFileSync(join(folder, file), 'utf8'));
const contract = (): unknown => parse(readFileSync(join(import.meta.dirname, 'contract.yaml'), 'utf8'));

describe('the JSON Schema for editors', () => {
  test.each(cases)('takes %s', (file) => expect(validate(read(file)) ? [] : validate.errors).toEqual([]));
  test('takes a job that uses every section', () => expect(validate(contract()) ? [] : validate.errors).toEqual([]));

  const base = { job: 'x', units: 'mm' };
  test.each([
    ['a key that is not known', { ...base, instrument: {} }],
    ['no units', { job: 'x' }],
    ['other units', { ...base, units: 'cm' }],
    ['a feature of no kind', { ...base, faces: { f: { features: { A: { diameter: 3 } } } } }],
    ['a kind that is none', { ...base, faces: { f: { features: { A: { kind: 'stub' } } } } }],
    ['a name with a dot', { ...base, faces: { 'a.b': {} } }],
    ['a reading of no kind', { ...base, faces: { f: { readings: ['ovr A B = 3'] } } }],
    ['two readings in one', { ...base, faces: { f: { readings: [{ a: 'dia A = 3', b: 'dia A = 3' }] } } }],
    ['a list that is no CSV', { ...base, faces: { f: { readings: 'pump.txt' } } }],
    ['a plate between three', { ...base, plate: { between: ['a', 'b', 'c'], thickness: 3 } }],
    [
      'a treatment that is none',
      { ...base, plate: { between: ['a', 'b'], thickness: 3, fasten: { a: { as: 'glued' } } } },
    ],
  ])('refuses %s', (_, file) => expect(validate(file)).toBe(false));
});

type Schema = { readonly [key: string]: unknown };
const isSchema = (x: unknown): x is Schema => typeof x === 'object' && x !== null && !Array.isArray(x);

/** Every key that a person can type, with the words an editor shows for it. */
const keysOf = (schema: Schema, path: string): readonly (readonly [string, unknown])[] => {
  const inner = [
    ...['anyOf', 'oneOf', 'allOf'].flatMap((k) => (Array.isArray(schema[k]) ? (schema[k] as unknown[]) : [])),
    schema.items,
    schema.additionalProperties,
  ].filter(isSchema);
  const own = isSchema(schema.properties) ? Object.entries(schema.properties) : [];
  return [
    ...own.map(([key, s]) => [`${path}.${key}`, isSchema(s) ? s.description : undefined] as const),
    ...own.flatMap(([key, s]) => (isSchema(s) ? keysOf(s, `${path}.${key}`) : [])),
    ...inner.flatMap((s) => keysOf(s, path)),
  ];
};

test('every key says what it is for', () => {
  const keys = keysOf(jobSchema() as Schema, '');
  expect(keys.length).toBeGreaterThan(90);
  expect(keys.filter(([, words]) => typeof words !== 'string' || words.length < 5).map(([key]) => key)).toEqual([]);
});
