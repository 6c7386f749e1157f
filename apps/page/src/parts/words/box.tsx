import type { JSX, TargetedEvent } from 'preact';
import { useId } from 'preact/hooks';
import { useApp, useAppState } from '../../app/use.js';
import { clearAt, renameAt, writtenAt } from '../../edit/entries.js';
import { type Path, setAt } from '../../edit/set.js';
import type { Way, WordNode } from '../../work/protocol.js';
import { Choice, Field } from '../field.js';
import { hintOf, offersFor } from './naming.js';

export interface At<W> {
  readonly node: WordNode;
  readonly way: W;
  readonly path: Path;
  readonly label: string;
  /** The named entry or the item of a list that it stands in, which stays when its last value is taken out. */
  readonly entry: Path | null;
}
export type Of<K extends Way['kind']> = Extract<Way, { readonly kind: K }>;

export const inJob = (text: string, path: Path): boolean => writtenAt(text, path) !== null;

export const Box = ({ node, way, path, label, entry }: At<Of<'text'>>): JSX.Element => {
  const app = useApp();
  const { text } = useAppState(app).history;
  const isItem = typeof path.at(-1) === 'number';
  return (
    <Field
      label={label}
      path={path}
      hint={hintOf(node)}
      help={isItem ? '' : node.means === '' ? `Takes ${way.takes}.` : node.means}
      offers={offersFor(text, path, way.takes, way.examples)}
      put={(value) =>
        app.change(
          // An item that is emptied keeps its place in its list.
          value === '' && !isItem ? clearAt(text, path, entry) : setAt(text, path, value),
          path.join('.'),
        )
      }
    />
  );
};

export const Words = ({ node, way, path, label, entry }: At<Of<'words'>>): JSX.Element => {
  const app = useApp();
  const { text } = useAppState(app).history;
  return (
    <Choice
      label={label}
      path={path}
      of={[['', hintOf(node)], ...way.of.map((w) => [w, w] as const)]}
      help={node.means}
      onChoose={(value) =>
        app.change(
          value === ''
            ? clearAt(text, path, entry)
            : setAt(text, path, value === 'true' || value === 'false' ? value === 'true' : value),
        )
      }
    />
  );
};

/** A fault of a whole section; one of a value in it is shown under its box. */
export const Fault = ({ path }: { readonly path: Path }): JSX.Element | null => {
  const { answers } = useAppState(useApp());
  const name = path.map(String).join('.');
  const fault = answers.faults.find((f) => f.path === name);
  return fault === undefined ? null : <p class="fault">{fault.words}</p>;
};

export const isBox = ({ ways }: WordNode): boolean =>
  ways.length === 1 && (ways[0]?.kind === 'text' || ways[0]?.kind === 'words');

export const Rename = ({ path }: { readonly path: Path }): JSX.Element => {
  const app = useApp();
  const id = useId();
  const name = String(path.at(-1));
  return (
    <div class="field">
      <label for={id}>Its name</label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        value={name}
        onChange={(event: TargetedEvent<HTMLInputElement>) => {
          const change = renameAt(app.state().history.text, path, event.currentTarget.value.trim());
          if (change === null) event.currentTarget.value = name;
          else app.change(change);
        }}
      />
    </div>
  );
};
