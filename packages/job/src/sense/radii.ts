import type { RawLine } from '../reading/lines.js';
import type { Feature } from '../types.js';
import { type Taken, type Context, isSpoiled } from './context.js';
import type { TakenList } from './readings.js';

/** A line that could not be read, but may have been meant to give the diameter. */
const mayGive = (line: RawLine, id: string): boolean =>
  /^\s*(?:dia|touch)\s/i.test(line.text) && line.text.split(/\s+/).includes(id);

/**
 * Features whose radius enters a reading must have one: written, read with `dia`, from a thread, or from three touches
 * of the rim.
 */
export const needRadii = (
  context: Context,
  keys: readonly PropertyKey[],
  features: ReadonlyMap<string, Feature>,
  { taken, failed }: TakenList,
): void => {
  const counts = new Map<string, { dia: number; touch: number }>();
  for (const { reading } of taken) {
    const [f] = reading.features;
    if (f === undefined || reading.aside || (reading.kind !== 'dia' && reading.kind !== 'touch')) continue;
    const count = counts.get(f) ?? { dia: 0, touch: 0 };
    count[reading.kind]++;
    counts.set(f, count);
  }
  const said = new Set<string>();
  for (const { line, raw, reading } of taken) {
    if (reading.aside) continue;
    for (const i of line.grammar.radius) {
      const piece = line.features[i];
      const feature = features.get(piece?.text ?? '');
      if (
        piece === undefined ||
        feature === undefined ||
        feature.diameter !== null ||
        feature.kind === 'edge' ||
        said.has(feature.id)
      )
        continue;
      if (
        isSpoiled(context, [...keys, 'features', feature.id]) ||
        ['diameter', 'thread'].some((k) => isSpoiled(context, [...keys, 'features', feature.id, k]))
      )
        continue;
      const { dia = 0, touch = 0 } = counts.get(feature.id) ?? {};
      if (dia > 0 || touch >= 3 || failed.some((line) => mayGive(line, feature.id))) continue;
      said.add(feature.id);
      context.findings.fault({
        code: 'no-diameter',
        at: raw.offset(piece.at),
        source: raw.source,
        found: feature.id,
        expected:
          `the diameter of ${feature.id} as well: "${reading.kind}" reaches its rim (give \`diameter\`, a \`dia\` reading` +
          (feature.kind === 'stud' || feature.kind === 'hole' ? ', its `thread`' : '') +
          ` or three \`touch\` readings)`,
        path: raw.path,
        sense: true,
      });
    }
  }
};

/** Nothing is read off a straight edge yet. */
export const onlyRound = (context: Context, features: ReadonlyMap<string, Feature>, taken: readonly Taken[]): void => {
  for (const { line, raw } of taken)
    for (const piece of line.features)
      if (features.get(piece.text)?.kind === 'edge')
        context.findings.fault({
          code: 'features',
          at: raw.offset(piece.at),
          source: raw.source,
          found: piece.text,
          expected: `a round feature: "${line.grammar.kind}" cannot be taken off a straight edge`,
          path: raw.path,
          sense: true,
        });
};
