import { type Point, distance, oncePer } from '@fayplate/core';
import type { Face, Feature, Reading, ReadingKind, Use } from '@fayplate/job';
import type { Tool } from './tools.js';

/** What is known of a feature when readings are thought of: about where it is, and about how large; null radius: not known. */
export interface Rough {
  readonly feature: Feature;
  readonly at: Point;
  readonly radius: number | null;
}

const stands = (f: Feature): boolean =>
  f.kind === 'stud' || f.kind === 'dowel' || f.kind === 'spigot' || f.kind === 'boss';
const isMiddle = (f: Feature): boolean => f.kind === 'spigot' || f.kind === 'bore';

/** How jaws are laid on two features: over studs, into the gap beside a spigot or bore, on the web between holes, on the wall inside a bore. */
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

/** Readings of two features, or one: jaws where they fit, a scale from centre to centre where they do not, a diameter, a place on the bench. */
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
