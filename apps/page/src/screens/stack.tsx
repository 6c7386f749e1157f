import type { JSX, TargetedInputEvent, TargetedSubmitEvent } from 'preact';
import { useState } from 'preact/hooks';
import { useApp, useAppState } from '../app/use.js';
import { keysAt, typedAt, unitsOf } from '../edit/peek.js';
import { Field, Fold, Remove } from '../parts/field.js';
import { Picture } from '../parts/picture.js';
import { ReportView } from '../parts/report.js';
import { StackSection } from '../parts/stack-section.js';
import { EveryWord } from '../parts/words/every-word.js';
import { Refused } from '../parts/standing.js';
import type { StackView } from '../work/shown.js';

/**
 * The window for the thickness as a band: what is searched, what holds by chance, what holds even at the worst, what is
 * chosen.
 */
const Window = ({ window }: { readonly window: StackView['window'] }): JSX.Element => {
  const { search, worst, chance, chosen, says } = window;
  const [from, to] = search;
  const x = (mm: number): number => 10 + (80 * (mm - from)) / Math.max(1e-9, to - from);
  const band = (w: readonly [number, number] | null, name: string, y: number, high: number): JSX.Element | null =>
    w === null ? null : <rect class={name} x={x(w[0])} y={y} width={Math.max(0.4, x(w[1]) - x(w[0]))} height={high} />;
  return (
    <figure class="window">
      <svg viewBox="0 0 100 16" role="img" aria-label={says.map(([what, w]) => `${what} ${w}`).join('; ')}>
        <rect class="search" x={10} y={5} width={80} height={6} />
        {band(chance, 'chance', 5, 6)}
        {band(worst, 'worst', 5, 6)}
        {chosen === null ? null : <line class="chosen" x1={x(chosen)} x2={x(chosen)} y1={2} y2={14} />}
      </svg>
      <figcaption>
        <ul class="key">
          {says.map(([what, w]) => (
            <li key={what} class={what.replaceAll(' ', '-')}>
              {what}: {w}
            </li>
          ))}
        </ul>
      </figcaption>
    </figure>
  );
};

/** A name and a value to add to a section of the stack. */
const AddEntry = ({
  what,
  hint,
  add,
}: {
  readonly what: string;
  readonly hint: string;
  readonly add: (name: string, value: string) => void;
}): JSX.Element => {
  const [name, setName] = useState('');
  const [value, setValue] = useState('');
  const id = what.replaceAll(' ', '-');
  return (
    <form
      class="fields"
      onSubmit={(event: TargetedSubmitEvent<HTMLFormElement>) => {
        event.preventDefault();
        if (name.trim() === '' || value.trim() === '') return;
        add(name.trim(), value.trim());
        setName('');
        setValue('');
      }}
    >
      <div class="field">
        <label for={`${id}-name`}>Another {what}: its name</label>
        <input
          id={`${id}-name`}
          type="text"
          autocomplete="off"
          value={name}
          onInput={(event: TargetedInputEvent<HTMLInputElement>) => setName(event.currentTarget.value)}
        />
      </div>
      <div class="field">
        <label for={`${id}-value`}>{what === 'link' ? 'its length and ±' : 'what it adds up'}</label>
        <input
          id={`${id}-value`}
          type="text"
          autocomplete="off"
          placeholder={hint}
          value={value}
          onInput={(event: TargetedInputEvent<HTMLInputElement>) => setValue(event.currentTarget.value)}
        />
      </div>
      <button type="submit">Add</button>
    </form>
  );
};

const Links = (): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  const { text } = history;
  const links = keysAt(text, ['stack', 'links']);
  const isSought = (name: string): boolean => typedAt(text, ['stack', 'links', name, 'find']) !== '';
  return (
    <section class="card" aria-label="Links along the shaft">
      <h3>Links along the shaft</h3>
      {links.map((name) => (
        <div key={name} class="entry">
          {isSought(name) ? (
            <>
              <Field label={`${name}: find between`} path={['stack', 'links', name, 'find']} hint="12 .. 30 mm" />
              <Field label={`${name}: ± it can be made to`} path={['stack', 'links', name, 'made']} hint="exact" />
            </>
          ) : (
            <Field label={name} path={['stack', 'links', name]} hint="61.2 ± 0.2 mm" />
          )}
          <Remove what={name} path={['stack', 'links', name]} />
        </div>
      ))}
      <AddEntry what="link" hint="61.2 ± 0.2 mm" add={(name, value) => app.put(['stack', 'links', name], value)} />
    </section>
  );
};

const Limits = (): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  return (
    <section class="card" aria-label="What must hold">
      <h3>What must hold</h3>
      {keysAt(history.text, ['stack', 'limits']).map((name) => (
        <fieldset key={name} class="feature">
          <legend>{name}</legend>
          <div class="fields">
            <Field
              label={`${name} adds up`}
              wide
              path={['stack', 'limits', name, 'sum']}
              hint="reach - plate - gasket"
            />
            <Field label={`${name}: at least`} path={['stack', 'limits', name, 'least']} hint="no least" />
            <Field label={`${name}: at most`} path={['stack', 'limits', name, 'most']} hint="no most" />
            <Remove what={name} path={['stack', 'limits', name]} />
          </div>
        </fieldset>
      ))}
      <AddEntry
        what="limit"
        hint="reach - plate - gasket"
        add={(name, value) =>
          app.put(['stack', 'limits', name], { sum: value, least: unitsOf(history.text) === 'in' ? '0.04' : '1' })
        }
      />
    </section>
  );
};

const StackWords = (): JSX.Element => (
  <>
    <EveryWord title="Everything the job can say about the stack" path={['stack']} />
    <EveryWord title="Everything the job can say about the old plate" path={['old']} />
  </>
);

/** Stack: what lies along the shaft, and how thick the plate may be. */
export const Stack = (): JSX.Element => {
  const app = useApp();
  const { history, answers } = useAppState(app);
  const inches = unitsOf(history.text) === 'in';
  if (keysAt(history.text, ['stack']).length === 0)
    return (
      <>
        <div class="card">
          <p>
            A stack says how long everything along the shaft is, each with its ±, and what must hold: how far the
            coupling grips, how much room its tip keeps. It gives the window for the plate’s thickness. A plate whose
            thickness you choose yourself needs none.
          </p>
          <button
            type="button"
            class="main"
            onClick={() =>
              app.putAll([
                {
                  path: ['stack'],
                  value: {
                    links: {
                      reach: inches ? '2.40 ± 0.01' : '61 ± 0.2',
                      floor: inches ? '1.75 ± 0.01' : '44 ± 0.2',
                      plate: { find: inches ? '0.5 .. 1.25' : '12 .. 30' },
                    },
                    limits: {
                      'tip gap': {
                        sum: 'floor + plate - reach',
                        least: inches ? '0.04' : '1',
                        most: inches ? '0.12' : '3',
                      },
                    },
                  },
                },
              ])
            }
          >
            Begin a stack
          </button>
        </div>
        <StackWords />
      </>
    );
  return (
    <>
      <Refused screen="stack" />
      <div class="work">
        <div class="see">
          {answers.stack === null ? (
            <p class="waiting">Adding up the stack …</p>
          ) : (
            <>
              <StackSection section={answers.stack.section} />
              <Window window={answers.stack.window} />
              <Fold title="The chain of every limit">
                {answers.stack.pictures.map((p) => (
                  <Picture key={p.name} drawn={p} />
                ))}
              </Fold>
            </>
          )}
        </div>
        <div class="do">
          {answers.stack === null ? null : (
            <ReportView report={answers.stack.report.filter((b) => b.kind === 'verdict')} />
          )}
          <Links />
          <Limits />
          {answers.stack === null ? null : (
            <Fold title="The window, the limits and what each ± costs">
              <ReportView report={answers.stack.report.filter((b) => b.kind !== 'verdict')} />
            </Fold>
          )}
        </div>
      </div>
      <StackWords />
    </>
  );
};
