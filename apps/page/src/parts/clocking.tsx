import { minusSign } from '@fayplate/core';
import type { JSX, TargetedInputEvent } from 'preact';
import type { App } from '../app/app.js';
import { useApp, useAppState } from '../app/use.js';
import { typedAt } from '../edit/peek.js';
import type { PlateView } from '../work/shown.js';
import { Fold } from './field.js';

/** So many arcs are said in numbers too. */
const FEW = 4;

/** The second face turned against the first: typed, moved along, or dragged on the ring about side B. */
export const Clocking = ({ clocking }: { readonly clocking: PlateView['clocking'] }): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  const { at, safe } = clocking;
  return (
    <Fold title="Clocking: turn the second part" open>
      <div class="fields">
        <div class="field">
          <label for="clocking">Degrees clockwise</label>
          <input
            id="clocking"
            type="range"
            min={-180}
            max={180}
            step={0.5}
            value={at}
            aria-valuetext={`${at.toFixed(1)} degrees clockwise`}
            onInput={(event: TargetedInputEvent<HTMLInputElement>) => turnTo(app, Number(event.currentTarget.value))}
          />
        </div>
        <div class="field">
          <label for="clocking-typed">as typed</label>
          <input
            id="clocking-typed"
            type="text"
            autocomplete="off"
            value={typedAt(history.text, ['plate', 'clocking'])}
            placeholder="0 deg"
            onInput={(event: TargetedInputEvent<HTMLInputElement>) =>
              app.put(['plate', 'clocking'], event.currentTarget.value, 'plate.clocking')
            }
          />
        </div>
      </div>
      <p class="help">
        {safe.length === 0
          ? 'No angle puts every check right that turning can change.'
          : `Drag the dot on the ring about side B. On its thick arcs every check holds that turning can change${
              safe.length > FEW
                ? ''
                : ': ' +
                  safe.map(([from, to]) => `${minusSign(from.toFixed(1))}° to ${minusSign(to.toFixed(1))}°`).join(', ')
            }.`}
      </p>
    </Fold>
  );
};

export const turnTo = (app: App, degrees: number): void =>
  app.put(['plate', 'clocking'], `${Number(degrees.toFixed(1))} deg`, 'plate.clocking');
