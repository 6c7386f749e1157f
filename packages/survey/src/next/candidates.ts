import { type Point, distance, oncePer } from '@fayplate/core';
import {
  type Face,
  type Feature,
  type Instrument,
  type Reading,
  type ReadingKind,
  type Use,
  readingGrammar,
} from '@fayplate/job';

/** An instrument as a reading would be taken with it; `name` null where the job's readings carry their own ±. */
export interface Tool {
  readonly name: string | null;
  /** ± of one reading, mm or radians. */
  readonly plusMinus: number;
}

const jawNames = /calip|vernier|micro|mike|jaw|gau?ge|pin/i;
const scaleNames = /rule|tape|trammel|scale|divider|steel/i;
const squareNames = /square|straight|eye/i;
const placeNames = /read-?out|finder|probe|indicator|scan/i;
/** An instrument with a name that says nothing is taken for a scale where it is coarser than this, mm. */
const COARSE = 0.25;

const usesByName = ({ name, measures, each }: Instrument): readonly Use[] => {
  if (squareNames.test(name)) return [];
  if (measures === 'angle') return ['arms'];
  if (/dial/i.test(name) && !jawNames.test(name)) return [];
  if (placeNames.test(name)) return ['place'];
  if (scaleNames.test(name)) return ['scale'];
  if (jawNames.test(name)) return ['jaws'];
  return each > COARSE ? ['scale'] : ['jaws'];
};

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;

/**
 * The finest tool for each use: an instrument that this face's readings have used so, or whose name says so (one that
 * touches rims on the bench is laid on nothing else); without any instrument in the job, the usual ± of its readings.
 * Uses that nothing serves are absent.
 */
export const toolsOf = (face: Face, instruments: ReadonlyMap<string, Instrument>): ReadonlyMap<Use, Tool> => {
  const tools = new Map<Use, Tool>();
  const offer = (use: Use, tool: Tool): void => {
    const now = tools.get(use);
    if (tool.plusMinus > 0 && (now === undefined || tool.plusMinus < now.plusMinus)) tools.set(use, tool);
  };
  for (const instrument of instruments.values()) {
    const taken = face.readings.filter((r) => r.instrument === instrument.name);
    const seen = taken.flatMap((r) => readingGrammar(r.kind).use ?? []);
    const dial = taken.length > 0 && taken.every((r) => r.kind === 'runout');
    const byName = dial || taken.some((r) => r.kind === 'touch') ? [] : usesByName(instrument);
    for (const use of seen.length > 0 ? new Set(seen) : byName)
      offer(use, { name: instrument.name, plusMinus: instrument.each });
  }
  for (const use of ['jaws', 'scale', 'arms', 'place'] as const) {
    const own = face.readings.filter((r) => r.instrument === null && readingGrammar(r.kind).use === use);
    if (own.length > 0 && !tools.has(use)) offer(use, { name: null, plusMinus: median(own.map((r) => r.plusMinus)) });
  }
  return tools;
};

/** What is known of a feature when readings are planned: its rough place and size; null radius: not known. */
export interface Rough {
  readonly feature: Feature;
  readonly at: Point;
  readonly radius: number | null;
}

const stands = (f: Feature): boolean =>
  f.kind === 'stud' || f.kind === 'dowel' || f.kind === 'spigot' || f.kind === 'boss';
const isMiddle = (f: Feature): boolean => f.kind === 'spigot' || f.kind === 'bore';

/**
 * How jaws are laid on two features: over studs, into the gap beside a spigot or bore, on the web between holes, on the
 * wall inside a bore.
 */
const jawKind = (
  a: Rough,
  b: Rough,
): { readonly kind: ReadingKind; readonly order: readonly [Rough, Rough] } | null => {
  if (a.radius === null || b.radius === null) return null;
  const apart = distance(a.at, b.at);
  // Where sizes are not known yet, a spigot or bore is taken to be the larger.
  const isOuter = (r: Rough, than: Rough): boolean =>
    (r.radius ?? 0) > (than.radius ?? 0) || (r.radius === than.radius && isMiddle(r.feature));
  const [inner, outer] = isOuter(a, b) ? [b, a] : [a, b];
  if (apart + (inner.radius ?? 0) < (outer.radius ?? 0))
    return outer.feature.kind === 'bore' ? { kind: 'wall', order: [inner, outer] } : null;
  if (isMiddle(outer.feature)) return { kind: 'between', order: [inner, outer] };
  if (stands(a.feature) && stands(b.feature)) return { kind: 'over', order: [a, b] };
  return { kind: 'between', order: [a, b] };
};

/** A reading that could be taken, in the language of the job file. */
const proposal = (kind: ReadingKind, features: readonly string[], tool: Tool): Reading => ({
  id: `next ${kind} ${features.join(' ')}`,
  text: `${kind} ${features.join(' ')}`,
  kind,
  features,
  value: 0,
  point: kind === 'at' ? { x: 0, y: 0 } : null,
  plusMinus: tool.plusMinus,
  instrument: tool.name,
  aside: false,
  note: null,
  unit: null,
  place: { line: 0, column: 0 },
});

const keyOf = ({ kind, features }: Pick<Reading, 'kind' | 'features'>): string =>
  [kind, ...features.toSorted()].join(' ');

const takenOf = oncePer(
  (face: Face): ReadonlySet<string> => new Set(face.readings.flatMap((r) => (r.aside ? [] : [keyOf(r)]))),
  new WeakMap<Face, ReadonlySet<string>>(),
);

/** Whether a face has a reading of this kind on these features that takes part. */
export const alreadyTaken = (face: Face, r: Reading): boolean => takenOf(face).has(keyOf(r));

/**
 * Readings of two features, or one: jaws where they fit, a scale from centre to centre where they do not, a diameter, a
 * place on the bench.
 */
export const candidatesFor = (
  face: Face,
  a: Rough,
  b: Rough | null,
  tools: ReadonlyMap<Use, Tool>,
): readonly Reading[] => {
  const [jaws, scale, place] = [tools.get('jaws'), tools.get('scale'), tools.get('place')];
  const out: Reading[] = [];
  if (b === null) {
    const { diameter, id } = a.feature;
    if (jaws !== undefined && (diameter === null || diameter.plusMinus !== null)) out.push(proposal('dia', [id], jaws));
    if (place !== undefined) out.push(proposal('at', [id], place));
  } else {
    const laid = jaws === undefined ? null : jawKind(a, b);
    if (laid !== null && jaws !== undefined)
      out.push(
        proposal(
          laid.kind,
          laid.order.map((r) => r.feature.id),
          jaws,
        ),
      );
    else if (scale !== undefined && distance(a.at, b.at) > Math.max(a.radius ?? 0, b.radius ?? 0))
      out.push(proposal('centres', [a.feature.id, b.feature.id], scale));
  }
  return out.filter((r) => !alreadyTaken(face, r));
};

/** Angles about the face's centre between two others, where the job has a protractor. */
export const anglesFor = (face: Face, a: Rough, b: Rough, tools: ReadonlyMap<Use, Tool>): readonly Reading[] => {
  const arms = tools.get('arms');
  if (arms === undefined || face.centre === null || a.feature.id === face.centre || b.feature.id === face.centre)
    return [];
  const angle = proposal('angle', [a.feature.id, face.centre, b.feature.id], arms);
  return alreadyTaken(face, angle) ? [] : [angle];
};

/** Features that an instrument can be laid on. */
export const canBeRead = (f: Feature): boolean => !f.vacant && f.kind !== 'edge';
