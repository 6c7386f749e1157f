import { type Face, type Instrument, type ReadingKind, isDistance, readOf, readingGrammar } from '@fayplate/job';
import { type LocatedFace, type Rough, candidatesFor, toolsOf } from '@fayplate/survey';

/** The instruments that the face's own readings name, each at the finest ± that it was read to. */
const instrumentsOf = (face: Face): ReadonlyMap<string, Instrument> => {
  const found = new Map<string, Instrument>();
  for (const { instrument: name, plusMinus, kind } of face.readings) {
    if (name === null) continue;
    const each = Math.min(plusMinus, found.get(name)?.each ?? Number.POSITIVE_INFINITY);
    found.set(name, {
      name,
      each,
      zero: null,
      measures: readingGrammar(kind).measures === 'angle' ? 'angle' : 'length',
    });
  }
  return found;
};

/**
 * A reading of two features as a person would take it with the tools of this face, whether or not it was taken before.
 */
export interface Taken {
  readonly a: string;
  readonly b: string;
  readonly text: string;
  readonly instrument: string | null;
  /** Standard uncertainty, mm. */
  readonly sigma: number;
  /** What it says where the centres are this far apart, mm. */
  readonly says: (apart: number) => number;
}

const saysOf = (kind: ReadingKind, first: number, second: number): ((apart: number) => number) =>
  isDistance(kind) ? (apart) => readOf(kind, apart, first, second) : (apart) => apart;

/**
 * The readings of two of these features that survey would propose; `unknown`: standard uncertainty where the face has
 * no tool to go by, mm.
 */
export const readingsOf = (
  face: Face,
  located: LocatedFace,
  features: readonly string[],
  unknown: number,
): readonly Taken[] => {
  const tools = toolsOf(face, instrumentsOf(face));
  const anew = { ...face, readings: [] };
  const roughOf = (id: string): Rough | null => {
    const [feature, at] = [face.features.find((f) => f.id === id), located.features.get(id)];
    return feature === undefined || at === undefined ? null : { feature, at, radius: at.radius };
  };
  return features.flatMap((a, i) =>
    features.slice(i + 1).flatMap((b): readonly Taken[] => {
      const [one, other] = [roughOf(a), roughOf(b)];
      if (one === null || other === null) return [];
      const [reading] = candidatesFor(anew, one, other, tools);
      // Where nothing is read between features (a milling table's coordinates alone), a distance as good as the centres
      // are now.
      if (reading === undefined)
        return tools.has('jaws') || tools.has('scale')
          ? []
          : [{ a, b, text: `centres ${a} ${b}`, instrument: null, sigma: unknown, says: (d) => d }];
      const [first, second] = reading.features.map((id) => located.features.get(id)?.radius ?? 0);
      return [
        {
          a,
          b,
          text: reading.text,
          instrument: reading.instrument,
          sigma: reading.plusMinus / 2,
          says: saysOf(reading.kind, first ?? 0, second ?? 0),
        },
      ];
    }),
  );
};
