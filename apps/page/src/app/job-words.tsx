import type { JSX } from 'preact';
import { instrumentsOf } from '../edit/peek.js';
import { Choice, Field, Fold, Remove } from '../parts/field.js';
import { useApp, useAppState } from './use.js';

export const JobWords = (): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  return (
    <Fold title="The job and its instruments">
      <div class="fields">
        <Field label="Name of the job" path={['job']} wide />
        <Choice
          label="A number without a unit is in"
          path={['units']}
          of={[
            ['in', 'inches'],
            ['mm', 'millimetres'],
          ]}
        />
      </div>
      {instrumentsOf(history.text).map(({ name }) => (
        <div key={name} class="entry">
          <Field label={`± of one reading: ${name}`} path={['instruments', name]} />
          <Remove what={name} path={['instruments', name]} />
        </div>
      ))}
      <div class="row">
        {(
          [
            ['rule', '± 0.5 mm'],
            ['micrometer', '± 0.01 mm'],
            ['protractor', '± 0.5 deg'],
            ['square', '± 0.2 deg'],
          ] as const
        )
          .filter(([name]) => !instrumentsOf(history.text).some((i) => i.name === name))
          .map(([name, band]) => (
            <button key={name} type="button" onClick={() => app.put(['instruments', name], band)}>
              Add a {name}
            </button>
          ))}
      </div>
    </Fold>
  );
};
