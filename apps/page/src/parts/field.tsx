import type { ComponentChildren, JSX, TargetedEvent, TargetedInputEvent } from 'preact';
import { useEffect, useId, useState } from 'preact/hooks';
import { useApp, useAppState } from '../app/use.js';
import { typedAt } from '../edit/peek.js';
import { type Path, removeAt } from '../edit/set.js';
import type { Told } from '../work/shown.js';

/** The fault that belongs to a place of the file or to what lies in it. */
const faultAt = (faults: readonly Told[], path: Path): Told | undefined => {
  const name = path.map(String).join('.');
  return faults.find((f) => f.path === name || f.path.startsWith(`${name}.`));
};

interface FieldProps {
  readonly label: string;
  readonly path: Path;
  /** Shown while the box is empty: what stands if nothing is said. */
  readonly hint?: string;
  readonly help?: string;
  readonly wide?: boolean;
  /** Offered while typing. */
  readonly offers?: readonly string[];
  /** How what is typed goes into the file, where it is not simply set. */
  readonly put?: (value: string) => void;
}

/** One value of the job in a box: every key goes into the file, and a fault is shown under the box. */
export const Field = ({ label, path, hint, help, wide = false, offers = [], put }: FieldProps): JSX.Element => {
  const app = useApp();
  const { history, answers } = useAppState(app);
  const id = useId();
  const fault = faultAt(answers.faults, path);
  const warning = fault ?? faultAt(answers.warnings, path);
  return (
    <div class={`field${wide ? ' wide' : ''}`}>
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        value={typedAt(history.text, path)}
        placeholder={hint}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        list={offers.length === 0 ? undefined : `${id}-offers`}
        aria-invalid={fault !== undefined}
        aria-describedby={warning === undefined && (help ?? '') === '' ? undefined : `${id}-words`}
        onInput={(event: TargetedInputEvent<HTMLInputElement>) => {
          const { value } = event.currentTarget;
          if (put === undefined) app.put(path, value, path.join('.'));
          else put(value);
        }}
      />
      {offers.length === 0 ? null : (
        <datalist id={`${id}-offers`}>
          {offers.map((o) => (
            <option key={o} value={o} />
          ))}
        </datalist>
      )}
      {warning === undefined && (help ?? '') === '' ? null : (
        <p id={`${id}-words`} class={fault === undefined ? 'help' : 'fault'}>
          {warning?.words ?? help}
        </p>
      )}
    </div>
  );
};

interface ChoiceProps {
  readonly label: string;
  readonly path: Path;
  /** Value → the word for it; '' stands for nothing said. */
  readonly of: readonly (readonly [string, string])[];
  readonly help?: string;
  readonly onChoose?: (value: string) => void;
  readonly value?: string;
}

/** One value of the job out of a few. */
export const Choice = ({ label, path, of, help, onChoose, value }: ChoiceProps): JSX.Element => {
  const app = useApp();
  const { history, answers } = useAppState(app);
  const id = useId();
  const now = value ?? typedAt(history.text, path);
  const fault = faultAt(answers.faults, path);
  const options = of.some(([v]) => v === now) ? of : [...of, [now, now] as const];
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={now}
        aria-describedby={fault === undefined && (help ?? '') === '' ? undefined : `${id}-words`}
        onChange={(event: TargetedEvent<HTMLSelectElement>) => {
          const chosen = event.currentTarget.value;
          if (onChoose === undefined) app.put(path, chosen);
          else onChoose(chosen);
        }}
      >
        {options.map(([v, word]) => (
          <option key={v} value={v}>
            {word}
          </option>
        ))}
      </select>
      {fault === undefined && (help ?? '') === '' ? null : (
        <p id={`${id}-words`} class={fault === undefined ? 'help' : 'fault'}>
          {fault?.words ?? help}
        </p>
      )}
    </div>
  );
};

/**
 * Fields that belong together, behind a word; made when they are first looked at. `open` opens it; only the person
 * closes it.
 */
export const Fold = ({
  title,
  open = false,
  children,
}: {
  readonly title: string;
  readonly open?: boolean;
  readonly children: ComponentChildren;
}): JSX.Element => {
  const [shown, setShown] = useState(open);
  useEffect(() => {
    if (open) setShown(true);
  }, [open]);
  return (
    <details
      class="fold"
      open={shown}
      onToggle={(event: TargetedEvent<HTMLDetailsElement>) => setShown(event.currentTarget.open)}
    >
      <summary>{title}</summary>
      <div class="inside">{shown ? children : null}</div>
    </details>
  );
};

/** Takes an entry out of the job. */
export const Remove = ({ what, path }: { readonly what: string; readonly path: Path }): JSX.Element => {
  const app = useApp();
  return (
    <button
      type="button"
      class="remove"
      aria-label={`Remove ${what}`}
      onClick={() => app.change(removeAt(app.state().history.text, path))}
    >
      Remove
    </button>
  );
};
