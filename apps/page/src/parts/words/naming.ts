import { faceNames, keysAt, unitsOf } from '../../edit/peek.js';
import type { Path } from '../../edit/set.js';
import type { WordNode } from '../../work/protocol.js';

/** A key as a label: `over key` → `Over key, mm`. */
export const labelOf = (node: WordNode, text: string): string => {
  const name = `${node.key.slice(0, 1).toUpperCase()}${node.key.slice(1)}`;
  return node.unit === null ? name : `${name}, ${node.unit.replace('the job’s units', unitsOf(text))}`;
};

/** What holds where a box is left empty. */
export const hintOf = (node: WordNode): string => (node.needed ? 'needed' : (node.left ?? 'not said'));

const featuresAt = (text: string, path: Path): readonly string[] => {
  const faces = path[0] === 'faces' ? [String(path[1])] : faceNames(text);
  return [...new Set(faces.flatMap((face) => keysAt(text, ['faces', face, 'features'])))];
};

/** What a box offers while one types: names of the job where it takes one, else examples. */
export const offersFor = (text: string, path: Path, takes: string, examples: readonly string[]): readonly string[] => {
  if (takes.includes('name of a feature')) return featuresAt(text, path);
  if (takes.includes('name of a face')) return faceNames(text);
  if (takes.includes('name of an instrument')) return keysAt(text, ['instruments']);
  return examples;
};

/** Names that an entry of a section is likely to get: its faces, its features. */
export const namesFor = (text: string, path: Path): readonly string[] => {
  const taken = new Set(keysAt(text, path));
  const section = path.at(-1);
  const likely =
    section === 'locate' || section === 'fasten' || section === 'gaskets'
      ? faceNames(text)
      : section === 'except'
        ? featuresAt(text, path)
        : [];
  return likely.filter((name) => !taken.has(name));
};
