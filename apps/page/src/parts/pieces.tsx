import type { JSX } from 'preact';
import { useApp, useAppState } from '../app/use.js';
import { pieceNames } from '../edit/peek.js';

/** Which of the two pieces of a plate is looked at; nothing where it is of one. */
export const Pieces = (): JSX.Element | null => {
  const app = useApp();
  const { history, piece } = useAppState(app);
  const names = pieceNames(history.text);
  if (names.length === 0) return null;
  return (
    <div class="row" role="group" aria-label="Which piece of the plate">
      {names.map((name, i) => (
        <button
          key={name}
          type="button"
          aria-pressed={i === piece}
          onClick={() => {
            app.set({ piece: i });
            app.ask();
          }}
        >
          Piece: {name}
        </button>
      ))}
    </div>
  );
};
