import { isMap, isScalar, isSeq } from 'yaml';
import { type Path, nodeAt, pairIn } from './set.js';

/** A feature as typed: every value as its text, '' where it is not said. */
export interface TypedFeature {
  readonly id: string;
  readonly kind: string;
  readonly clock: string;
  readonly diameter: string;
  readonly thread: string;
}

/** A node as the text that stands there; '' for none and for a section. */
const textOf = (node: unknown): string =>
  isScalar(node) ? (node.source ?? (typeof node.value === 'string' ? node.value : '')) : '';

/** What is typed at a place of the file, '' where nothing is. */
export const typedAt = (text: string, path: Path): string => textOf(nodeAt(text, path));

/** The keys of a section, in order. */
export const keysAt = (text: string, path: Path): readonly string[] => {
  const node = nodeAt(text, path);
  return isMap(node) ? node.items.map((p) => textOf(p.key)) : [];
};

/** The texts of a list, or of the one value that stands in its place. */
export const listAt = (text: string, path: Path): readonly string[] => {
  const node = nodeAt(text, path);
  if (isSeq(node)) return node.items.map(textOf);
  const one = textOf(node);
  return one === '' ? [] : [one];
};

/** What the two pieces of the plate are called; none where it is of one. */
export const pieceNames = (text: string): readonly string[] => {
  if (keysAt(text, ['plate', 'pieces']).length === 0) return [];
  const named = listAt(text, ['plate', 'pieces', 'names']);
  return named.length === 2 ? named : ['ring', 'plate'];
};

export const faceNames = (text: string): readonly string[] => keysAt(text, ['faces']);

export const featuresOf = (text: string, face: string): readonly TypedFeature[] => {
  const features = nodeAt(text, ['faces', face, 'features']);
  if (!isMap(features)) return [];
  return features.items.map(({ key, value }) => {
    const said = (name: string): string => (isMap(value) ? textOf(pairIn(value, name)?.value) : '');
    return {
      id: textOf(key),
      kind: said('kind'),
      clock: said('clock'),
      diameter: said('diameter'),
      thread: said('thread'),
    };
  });
};

/** The unit of a bare number. */
export const unitsOf = (text: string): 'in' | 'mm' => (typedAt(text, ['units']).toLowerCase() === 'in' ? 'in' : 'mm');

/** Instruments of the job, in order: name → what stands behind it. */
export const instrumentsOf = (text: string): readonly { readonly name: string; readonly band: string }[] =>
  keysAt(text, ['instruments']).map((name) => ({
    name,
    band: typedAt(text, ['instruments', name]) || typedAt(text, ['instruments', name, 'each']),
  }));

/** A name that no feature of the face has yet: the face's letter and the least free number. */
export const freeName = (text: string, face: string): string => {
  const ids = keysAt(text, ['faces', face, 'features']);
  const names = new Set(ids);
  const letter = ids.map((id) => /^([A-Za-z]{1,3})\d+$/.exec(id)?.[1]).find((l) => l !== undefined);
  const initial = letter ?? (/[A-Za-z]/.exec(face)?.[0] ?? 'F').toUpperCase();
  for (let n = 1; ; n++) if (!names.has(`${initial}${n}`)) return `${initial}${n}`;
};
