import type { JSX, TargetedEvent } from 'preact';
import { useId, useState } from 'preact/hooks';
import { useApp, useAppState } from '../../app/use.js';
import { addItem, countAt, writtenAt } from '../../edit/entries.js';
import { keysAt } from '../../edit/peek.js';
import { type Path, removeAt, setAt } from '../../edit/set.js';
import type { Way, WordNode } from '../../work/protocol.js';
import { Fold, Remove } from '../field.js';
import { Add } from './add.js';
import { type At, Box, Fault, type Of, Rename, Words, inJob, isBox } from './box.js';
import { labelOf, namesFor, offersFor } from './naming.js';

/** The keys of a section: boxes side by side, what has parts of its own behind its word. */
export const Section = ({
  keys,
  path,
  entry,
}: {
  readonly keys: readonly WordNode[];
  readonly path: Path;
  readonly entry: Path | null;
}): JSX.Element => {
  const { text } = useAppState(useApp()).history;
  const boxes = keys.filter(isBox);
  return (
    <>
      <Fault path={path} />
      {boxes.length === 0 ? null : (
        <div class="fields words">
          {boxes.map((node) => (
            <Word key={node.key} node={node} path={[...path, node.key]} label={labelOf(node, text)} entry={entry} />
          ))}
        </div>
      )}
      {keys
        .filter((node) => !isBox(node))
        .map((node) => {
          const at = [...path, node.key];
          const label = labelOf(node, text);
          return (
            <Fold key={node.key} title={inJob(text, at) ? `${label}: in the job` : label}>
              {node.means === '' ? null : <p class="help">{node.means}</p>}
              <Word node={node} path={at} label={label} entry={entry} />
            </Fold>
          );
        })}
    </>
  );
};

const Names = ({ way, path, label, entry }: At<Of<'names'>>): JSX.Element => {
  const app = useApp();
  const { text } = useAppState(app).history;
  const [fresh, setFresh] = useState<string | null>(null);
  const [first] = way.each.ways;
  const names = keysAt(text, path).filter((name) => !way.keys.some((k) => k.key === name));
  const plain = first?.kind === 'text' && way.each.ways.length === 1;
  return (
    <>
      <Fault path={path} />
      {way.keys.length === 0 ? null : <Section keys={way.keys} path={path} entry={entry} />}
      {names.map((name, i) => {
        const at = [...path, name];
        return plain || isBox(way.each) ? (
          <div key={i} class="entry">
            <Word node={way.each} path={at} label={name} entry={at} />
            <Remove what={name} path={at} />
          </div>
        ) : (
          <Fold key={i} title={name} open={fresh === name}>
            <Word node={way.each} path={at} label={name} entry={at} />
            <div class="entry">
              <Rename path={at} />
              <Remove what={name} path={at} />
            </div>
          </Fold>
        );
      })}
      <Add
        label={`Add to ${label.toLowerCase()}: a name`}
        offers={namesFor(text, path)}
        add={(name) => {
          setFresh(name);
          if (!keysAt(text, path).includes(name)) app.change(setAt(text, [...path, name], plain ? '' : {}));
        }}
      />
    </>
  );
};

const List = ({ way, path, label }: At<Of<'list'>>): JSX.Element => {
  const app = useApp();
  const { text } = useAppState(app).history;
  const { each } = way;
  const [first] = each.ways;
  const count = writtenAt(text, path) === 'list' ? countAt(text, path) : 0;
  return (
    <>
      <Fault path={path} />
      {Array.from({ length: count }, (_, i) => {
        const at = [...path, i];
        const name = `${label} ${i + 1}`;
        return (
          <div key={i} class="entry">
            <div class="field">
              <Word node={each} path={at} label={name} entry={at} />
            </div>
            <button
              type="button"
              class="remove"
              aria-label={`Remove ${name}`}
              onClick={() => app.change(removeAt(app.state().history.text, at))}
            >
              Remove
            </button>
          </div>
        );
      })}
      {first?.kind === 'text' || first?.kind === 'words' ? (
        <Add
          label={`Add to ${label.toLowerCase()}`}
          hint={first.kind === 'text' ? (first.examples[0] ?? '') : ''}
          offers={first.kind === 'text' ? offersFor(text, path, first.takes, first.examples) : first.of}
          add={(value) => app.change(addItem(app.state().history.text, path, value))}
        />
      ) : (
        <button
          type="button"
          onClick={() => app.change(addItem(app.state().history.text, path, first?.kind === 'list' ? [] : {}))}
        >
          Add one to {label.toLowerCase()}
        </button>
      )}
    </>
  );
};

const View = (at: At<Way>): JSX.Element => {
  const { way } = at;
  switch (way.kind) {
    case 'text':
      return <Box {...at} way={way} />;
    case 'words':
      return <Words {...at} way={way} />;
    case 'section':
      return <Section keys={way.keys} path={at.path} entry={at.entry} />;
    case 'names':
      return <Names {...at} way={way} />;
    case 'list':
      return <List {...at} way={way} />;
  }
};

const wayWords: Readonly<Record<Way['kind'], string>> = {
  text: 'one value',
  words: 'one word',
  section: 'in parts',
  names: 'by names',
  list: 'a list',
};

const standsAs = (kind: Way['kind'], written: 'text' | 'section' | 'list'): boolean =>
  written === 'list'
    ? kind === 'list'
    : written === 'section'
      ? kind === 'section' || kind === 'names'
      : kind === 'text' || kind === 'words';

/** One word of the job: in the way that it is written in the file, or in another that it may be written. */
const Word = ({
  node,
  path,
  label,
  entry,
}: {
  readonly node: WordNode;
  readonly path: Path;
  readonly label: string;
  readonly entry: Path | null;
}): JSX.Element | null => {
  const { text } = useAppState(useApp()).history;
  const [wanted, setWanted] = useState<Way['kind'] | null>(null);
  const id = useId();
  const there = writtenAt(text, path);
  // An entry that is only named so far may be written in any way.
  const written = there === 'section' && countAt(text, path) === 0 ? null : there;
  const [usual] = node.ways;
  const now = written === null ? undefined : node.ways.find((w) => standsAs(w.kind, written));
  const way = node.ways.find((w) => w.kind === wanted) ?? now ?? usual;
  if (way === undefined) return null;
  if (node.ways.length === 1) return <View node={node} way={way} path={path} label={label} entry={entry} />;
  return (
    <>
      <div class="fields words">
        <div class="field">
          <label for={id}>{label}: how it is written</label>
          <select
            id={id}
            value={way.kind}
            onChange={(event: TargetedEvent<HTMLSelectElement>) => setWanted(event.currentTarget.value as Way['kind'])}
          >
            {node.ways.map((w) => (
              <option key={w.kind} value={w.kind}>
                {wayWords[w.kind]}
              </option>
            ))}
          </select>
        </div>
        {way.kind === 'text' || way.kind === 'words' ? (
          <View node={node} way={way} path={path} label={label} entry={entry} />
        ) : null}
      </div>
      {way.kind === 'text' || way.kind === 'words' ? null : (
        <View node={node} way={way} path={path} label={label} entry={entry} />
      )}
    </>
  );
};
