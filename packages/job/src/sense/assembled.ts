import type { JobFile } from '../schema/file.js';
import type { AssembledReading, Face, Instrument } from '../types.js';
import { type Taken, type Context, faultAt, listed, namesAt } from './context.js';
import { readingsOf } from './readings.js';

const KEYS = ['assembled', 'readings'];
const plateHole = /^H[1-9]\d{0,3}$/;
const example = (a: string, b: string): string => `runout ${a} about ${b} = 0.1 mm high toward H1 by dial`;

/**
 * Run-out of one shaft swept from the other, once the machine stands: the two parts by their names, the direction by a
 * hole of the plate.
 */
export const assembledOf = (
  context: Context,
  written: NonNullable<JobFile['assembled']>,
  instruments: ReadonlyMap<string, Instrument>,
  faces: readonly Face[],
): { readonly readings: readonly AssembledReading[]; readonly taken: readonly Taken[] } => {
  const between = faces.map((f) => f.name);
  const features = faces.flatMap((f) => f.features.map(({ id }) => id));
  const toward = [...features, ...faces.flatMap((f) => f.features.map(({ id }) => `${f.name}.${id}`))];
  const known = new Set([...between, ...toward]);
  const { taken } = readingsOf(
    context,
    KEYS,
    {
      names: [...between, ...toward],
      has: (n) => known.has(n) || plateHole.test(n),
      expected:
        `the two parts by name (${listed(between)}), or after \`toward\` a hole of the plate, H1, H2 …, or the ` +
        'feature that it is for',
    },
    instruments,
  );
  if (written.readings !== undefined && !namesAt(context, []).includes('plate'))
    faultAt(context, ['assembled'], 'missing', 'a `plate` section as well: nothing is put together without one', {
      key: true,
    });
  const [first = 'pump', second = 'motor'] = between;
  const readings = taken.flatMap((t): readonly AssembledReading[] => {
    const { reading, line, raw } = t;
    const refuse = (at: number, found: string, expected: string): readonly AssembledReading[] => {
      context.findings.fault({
        code: 'features',
        at: raw.offset(at),
        source: raw.source,
        found,
        expected,
        path: raw.path,
        sense: true,
      });
      return [];
    };
    const { runOut } = reading;
    if (runOut === undefined)
      return refuse(0, line.grammar.kind, `a run-out, such as ${example(second, first)}; \`drilled\` takes the others`);
    for (const piece of line.features.slice(0, runOut.radius === null ? 2 : 1))
      if (!between.includes(piece.text))
        return refuse(
          piece.at,
          piece.text,
          `one of the two parts, ${listed(between)}, as in: ${example(second, first)}`,
        );
    const to = runOut.high?.toward ?? null;
    if (to !== null && 'feature' in to && features.filter((f) => f === to.feature).length > 1)
      return refuse(
        line.runOut?.high?.at.at ?? 0,
        to.feature,
        'the hole of the plate, or ' +
          `${between.map((n) => `${n}.${to.feature}`).join(' or ')}: both parts have a ${to.feature}`,
      );
    const about = reading.features[1] ?? '';
    const swept = runOut.radius === null ? (reading.features[0] ?? '') : (between.find((n) => n !== about) ?? '');
    return reading.aside
      ? []
      : [
          {
            id: reading.id,
            text: reading.text,
            swept,
            about,
            radius: runOut.radius,
            travel: reading.value,
            plusMinus: reading.plusMinus,
            toward: runOut.high?.toward ?? null,
          },
        ];
  });
  return { readings, taken };
};
