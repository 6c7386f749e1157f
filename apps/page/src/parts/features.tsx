import type { ComponentChildren, JSX, TargetedEvent, TargetedInputEvent, TargetedSubmitEvent } from 'preact';
import { useState } from 'preact/hooks';
import { useApp, useAppState } from '../app/use.js';
import { type TypedFeature, featuresOf, freeName, typedAt } from '../edit/peek.js';
import { Choice, Field, Fold, Remove } from './field.js';

const kinds = ['hole', 'stud', 'dowel', 'bore', 'spigot', 'boss'] as const;

interface Size {
  readonly key: string;
  readonly says: string;
}

/** What else may be measured of a feature, besides where it lies and its diameter. */
const sizesOf = ({ kind, thread }: Pick<TypedFeature, 'kind' | 'thread'>): readonly Size[] => {
  if (kind === 'boss') return [{ key: 'height', says: 'Height' }];
  if (kind === 'stud' || kind === 'spigot') return [{ key: 'stands', says: 'Length out of the face' }];
  return kind === 'hole' && thread !== '' ? [{ key: 'deep', says: 'Depth of thread' }] : [];
};

/** One size given to every feature of a kind at once: studs are seldom bought one by one. */
const ForAll = ({
  face,
  features,
}: {
  readonly face: string;
  readonly features: readonly TypedFeature[];
}): JSX.Element | null => {
  const app = useApp();
  const several = kinds.filter((k) => features.filter((f) => f.kind === k).length > 1);
  const [chosen, setKind] = useState<string | null>(null);
  const [key, setKey] = useState('thread');
  const [value, setValue] = useState('');
  const kind = several.find((k) => k === chosen) ?? several[0];
  if (kind === undefined) return null;
  const sizes: readonly Size[] = [
    { key: 'thread', says: 'Thread' },
    { key: 'diameter', says: 'Diameter' },
    ...sizesOf({ kind, thread: 'any' }),
  ];
  const size = sizes.find((s) => s.key === key) ?? sizes[0];
  return (
    <form
      class="fields"
      aria-label="One size for all"
      onSubmit={(event: TargetedSubmitEvent<HTMLFormElement>) => {
        event.preventDefault();
        app.putAll(
          features
            .filter((f) => f.kind === kind)
            .map((f) => ({ path: ['faces', face, 'features', f.id, size?.key ?? 'thread'], value: value.trim() })),
        );
        setValue('');
      }}
    >
      <div class="field">
        <label for="all-kind">All of one kind</label>
        <select
          id="all-kind"
          value={kind}
          onChange={(event: TargetedEvent<HTMLSelectElement>) => setKind(event.currentTarget.value)}
        >
          {several.map((k) => (
            <option key={k} value={k}>
              every {k}
            </option>
          ))}
        </select>
      </div>
      <div class="field">
        <label for="all-key">have the same</label>
        <select
          id="all-key"
          value={size?.key}
          onChange={(event: TargetedEvent<HTMLSelectElement>) => setKey(event.currentTarget.value)}
        >
          {sizes.map((s) => (
            <option key={s.key} value={s.key}>
              {s.says.toLowerCase()}
            </option>
          ))}
        </select>
      </div>
      <div class="field">
        <label for="all-value">which is</label>
        <input
          id="all-value"
          type="text"
          autocomplete="off"
          value={value}
          placeholder={size?.key === 'thread' ? 'M10, 3/8-16 UNC' : '12.5 ± 0.05 mm'}
          onInput={(event: TargetedInputEvent<HTMLInputElement>) => setValue(event.currentTarget.value)}
        />
      </div>
      <button type="submit">Give it to all</button>
    </form>
  );
};

export const Features = ({
  face,
  children,
}: {
  readonly face: string;
  readonly children: ComponentChildren;
}): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  const [kind, setKind] = useState<string>('hole');
  const [clocks, setClocks] = useState('');
  const features = featuresOf(history.text, face);
  const standard = typedAt(history.text, ['faces', face, 'standard']) !== '';
  const add = (): void => {
    const wanted = clocks.split(/[\s,]+/).filter((c) => c !== '');
    const middle = kind === 'bore' || kind === 'spigot';
    if (middle && wanted.length === 0) {
      const name = features.some((f) => f.id === kind) ? freeName(history.text, face) : kind;
      const first = typedAt(history.text, ['faces', face, 'centre']) === '';
      app.putAll([
        { path: ['faces', face, 'features', name], value: { kind } },
        ...(first ? [{ path: ['faces', face, 'centre'], value: name }] : []),
      ]);
    }
    let n = 0;
    const names = new Set(features.map((f) => f.id));
    const letter = /^[A-Za-z]+/.exec(freeName(history.text, face))?.[0] ?? 'F';
    app.putAll(
      wanted.map((clock) => {
        do n += 1;
        while (names.has(`${letter}${n}`));
        return { path: ['faces', face, 'features', `${letter}${n}`], value: { kind, clock } };
      }),
    );
    setClocks('');
  };
  return (
    <Fold title={`Features: ${features.length}`} open={features.length === 0 && !standard}>
      <form
        class="fields"
        onSubmit={(event: TargetedSubmitEvent<HTMLFormElement>) => {
          event.preventDefault();
          add();
        }}
      >
        <div class="field">
          <label for="new-kind">Add a</label>
          <select
            id="new-kind"
            value={kind}
            onChange={(event: TargetedEvent<HTMLSelectElement>) => setKind(event.currentTarget.value)}
          >
            {kinds.map((k) => (
              <option key={k} value={k}>
                {k}
              </option>
            ))}
          </select>
        </div>
        <div class="field">
          <label for="new-clocks">at these places of the clock</label>
          <input
            id="new-clocks"
            type="text"
            value={clocks}
            placeholder="12 2 4:30"
            autocomplete="off"
            onInput={(event: TargetedInputEvent<HTMLInputElement>) => setClocks(event.currentTarget.value)}
          />
        </div>
        <button type="submit">Add</button>
      </form>
      {children}
      <ForAll face={face} features={features} />
      {features.map((f) => (
        <fieldset key={f.id} class="feature">
          <legend>
            {f.id}, {f.kind}
          </legend>
          <div class="fields">
            <Choice
              label={`Kind of ${f.id}`}
              path={['faces', face, 'features', f.id, 'kind']}
              of={kinds.map((k) => [k, k])}
            />
            <Field label={`Clock of ${f.id}`} path={['faces', face, 'features', f.id, 'clock']} hint="12" />
            <Field
              label={`Diameter of ${f.id}`}
              path={['faces', face, 'features', f.id, 'diameter']}
              hint="not read yet"
            />
            <Field label={`Thread of ${f.id}`} path={['faces', face, 'features', f.id, 'thread']} hint="none" />
            {sizesOf(f).map(({ key, says }) => (
              <Field
                key={key}
                label={`${says} of ${f.id}`}
                path={['faces', face, 'features', f.id, key]}
                hint="not measured"
              />
            ))}
            <Remove what={f.id} path={['faces', face, 'features', f.id]} />
          </div>
        </fieldset>
      ))}
    </Fold>
  );
};
