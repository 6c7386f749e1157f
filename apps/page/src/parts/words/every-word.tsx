import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { useApp, useAppState } from '../../app/use.js';
import type { Path } from '../../edit/set.js';
import type { WordNode } from '../../work/protocol.js';
import { Fold } from '../field.js';
import { Section } from './word.js';

/** The keys that may stand in a section of the file; none where the path leads to no section. */
const keysIn = (node: WordNode, path: Path): readonly WordNode[] => {
  const [name, ...rest] = path;
  for (const way of node.ways) {
    if (way.kind === 'section') {
      if (name === undefined) return way.keys;
      const key = way.keys.find((k) => k.key === name);
      if (key !== undefined) return keysIn(key, rest);
    }
    if (way.kind === 'names' && name !== undefined) return keysIn(way.each, rest);
  }
  return [];
};

const Waiting = ({
  path,
  only,
  without,
}: {
  readonly path: Path;
  readonly only: readonly string[];
  readonly without: readonly string[];
}): JSX.Element => {
  const app = useApp();
  const { words, working } = useAppState(app);
  useEffect(() => app.askSchema(), [app, words, working]);
  if (words === null) return <p class="help">Reading the words …</p>;
  const keys = keysIn(words, path).filter(
    (k) => (only.length === 0 || only.includes(k.key)) && !without.includes(k.key),
  );
  return <Section keys={keys} path={path} entry={null} />;
};

/**
 * Every word that the job file has for a part of it, as boxes that edit the same text, made from the one schema that
 * files are read with: what has no form of its own is said here. `only`, `without`: of its keys, those that are shown.
 */
export const EveryWord = ({
  title,
  path = [],
  only = [],
  without = [],
}: {
  readonly title: string;
  readonly path?: Path;
  readonly only?: readonly string[];
  readonly without?: readonly string[];
}): JSX.Element => (
  <Fold title={title}>
    <Waiting path={path} only={only} without={without} />
  </Fold>
);
