import { expect, test } from 'vitest';
import { readJob } from '../../src/index.js';
import { faultsOf, jobOf } from '../support.js';

const job = (
  centre: string,
  more = '',
  features = 'S1: { kind: stud }, S2: { kind: stud }, S3: { kind: stud }, S4: { kind: stud, vacant: true }, E: { kind: edge }',
): string => `job: x\nunits: mm\nfaces:\n  pad:\n    centre: ${centre}\n${more}    features: { ${features} }\n`;

test('a centre that the layout marks is that of all studs, holes and dowels, or of the circle that is stated', () => {
  expect(jobOf(job('{ circle: layout }')).faces[0]).toMatchObject({
    centre: null,
    centreCircle: ['S1', 'S2', 'S3'],
    centreLaid: true,
  });
  const stated = job('{ circle: layout }', '    layout: { circle: 100, features: [S1, S2, S4] }\n');
  expect(jobOf(stated).faces[0]?.centreCircle).toEqual(['S1', 'S2', 'S4']);
});

test('a feature that is called layout is that feature', () =>
  expect(
    faultsOf(readJob(job('{ circle: layout }', '', 'layout: { kind: stud }, S2: { kind: stud }'))).map(
      (f) => f.expected,
    ),
  ).toContainEqual(expect.stringMatching(/three different features or more/)));

test('a layout of too few is refused', () =>
  expect(
    faultsOf(readJob(job('{ circle: layout }', '', 'S1: { kind: stud }, S2: { kind: stud }'))).map((f) => f.expected),
  ).toContainEqual(expect.stringMatching(/a layout of three studs/)));
