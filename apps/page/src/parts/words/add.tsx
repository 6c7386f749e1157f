import type { JSX, TargetedInputEvent, TargetedSubmitEvent } from 'preact';
import { useId, useState } from 'preact/hooks';

/** A box and a button that adds what was typed. */
export const Add = ({
  label,
  hint,
  offers,
  add,
}: {
  readonly label: string;
  readonly hint?: string;
  readonly offers: readonly string[];
  readonly add: (typed: string) => void;
}): JSX.Element => {
  const [typed, setTyped] = useState('');
  const id = useId();
  return (
    <form
      class="row add"
      onSubmit={(event: TargetedSubmitEvent<HTMLFormElement>) => {
        event.preventDefault();
        if (typed.trim() === '') return;
        add(typed.trim());
        setTyped('');
      }}
    >
      <div class="field">
        <label for={id}>{label}</label>
        <input
          id={id}
          type="text"
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          placeholder={hint}
          value={typed}
          list={offers.length === 0 ? undefined : `${id}-offers`}
          onInput={(event: TargetedInputEvent<HTMLInputElement>) => setTyped(event.currentTarget.value)}
        />
        {offers.length === 0 ? null : (
          <datalist id={`${id}-offers`}>
            {offers.map((o) => (
              <option key={o} value={o} />
            ))}
          </datalist>
        )}
      </div>
      <button type="submit">Add</button>
    </form>
  );
};
