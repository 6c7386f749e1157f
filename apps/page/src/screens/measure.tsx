import type { ComponentChildren, JSX, TargetedEvent, TargetedInputEvent, TargetedSubmitEvent } from 'preact';
import { useState } from 'preact/hooks';
import { answerOf } from '../app/state.js';
import { useApp, useAppState } from '../app/use.js';
import { type TypedFeature, faceNames, featuresOf, freeName, keysAt, typedAt } from '../edit/peek.js';
import { Choice, Field, Fold, Remove } from '../parts/field.js';
import { InDoubt } from '../parts/in-doubt.js';
import { Readings } from '../parts/readings.js';
import { ReportView } from '../parts/report.js';
import { FaceTabs, Refused } from '../parts/standing.js';
import { EarlySheets } from './files.js';
import { EveryWord } from '../parts/words/every-word.js';

const kinds = ['hole', 'stud', 'dowel', 'bore', 'spigot', 'boss'] as const;

/** A direction as a place on the clock, to ten minutes: 12 is up, clockwise. */
const clockOf = (x: number, y: number): string => {
  const minutes = Math.round((((Math.atan2(x, y) / (2 * Math.PI)) * 720 + 720) % 720) / 10) * 10;
  const [hour, rest] = [Math.floor(minutes / 60) % 12, minutes % 60];
  const name = String(hour === 0 ? 12 : hour);
  return rest === 0 ? name : `${name}:${String(rest).padStart(2, '0')}`;
};

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

const Features = ({ face, children }: { readonly face: string; readonly children: ComponentChildren }): JSX.Element => {
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

const FaceWords = ({ face }: { readonly face: string }): JSX.Element => {
  const app = useApp();
  const { history, answers } = useAppState(app);
  // A face that is made to a standard has features that the text does not name.
  const given =
    typedAt(history.text, ['faces', face, 'standard']) === '' ? [] : (answerOf(answers.faces, face)?.centres ?? []);
  const ids = [...new Set([...featuresOf(history.text, face), ...given].map((f) => f.id))];
  const offered: readonly (readonly [string, string])[] = [['', 'not said'], ...ids.map((id) => [id, id] as const)];
  return (
    <Fold title="How you look at it">
      <div class="fields">
        <Choice
          label="You see the face"
          path={['faces', face, 'viewed']}
          of={[
            ['', 'from outside (not said)'],
            ['from outside', 'from outside'],
            ['from behind', 'from behind, through the part'],
          ]}
        />
        <Choice label="Its centre, 0, 0" path={['faces', face, 'centre']} of={offered} />
        <Choice label="Straight up, at 12" path={['faces', face, 'up']} of={offered} />
        <Field
          label="Made to the standard"
          path={['faces', face, 'standard']}
          hint="not said"
          help="Such as IEC FF165 or 56C: then the face needs no features, and readings test it."
          wide
        />
        <Field label="Thickness of the flange" path={['faces', face, 'flange']} hint="not said" />
      </div>
    </Fold>
  );
};

const Centres = ({ face }: { readonly face: string }): JSX.Element | null => {
  const { answers, history } = useAppState(useApp());
  const view = answerOf(answers.faces, face);
  if (view === undefined) return null;
  const unit = typedAt(history.text, ['units']) === 'in' ? 'in' : 'mm';
  return (
    <>
      <table class="plain">
        <caption>Centres, {unit}; ± holds 95 times in 100</caption>
        <thead>
          <tr>
            <th scope="col">Feature</th>
            <th scope="col" class="number">
              X
            </th>
            <th scope="col" class="number">
              Y
            </th>
            <th scope="col" class="number">
              ±
            </th>
          </tr>
        </thead>
        <tbody>
          {view.centres.map((c) => (
            <tr key={c.id} data-feature={c.id}>
              <th scope="row">{c.id}</th>
              {c.band === '' ? (
                <td colSpan={3}>not fixed yet</td>
              ) : (
                <>
                  <td class="number">{c.x}</td>
                  <td class="number">{c.y}</td>
                  <td class="number">{c.band}</td>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </table>
      <Fold title="All that the readings say">
        <ReportView report={view.report} />
      </Fold>
    </>
  );
};

/** Measure: two faces as one looks at them, one reading at a time. */
export const Measure = (): JSX.Element => {
  const app = useApp();
  const { history, face: wanted, answers, turns } = useAppState(app);
  const names = faceNames(history.text);
  const face = wanted !== null && names.includes(wanted) ? wanted : (names[0] ?? null);
  const [placing, setPlacing] = useState<string | null>(null);
  if (face === null)
    return (
      <div class="card">
        <p>This job has no part yet.</p>
        <button type="button" class="main" onClick={() => app.set({ newShown: true })}>
          Begin a new job
        </button>
      </div>
    );
  const view = answerOf(answers.faces, face);
  const ids = keysAt(history.text, ['faces', face, 'features']);
  const standard = typedAt(history.text, ['faces', face, 'standard']) !== '';
  const turn = Object.hasOwn(turns, face) ? (turns[face] ?? 0) : 0;
  const turnTo = (degrees: number): void => {
    app.set({ turns: { ...turns, [face]: degrees } });
    app.ask();
  };
  const place = (dx: number, dy: number): void => {
    if (placing === null) return;
    // The clock is the part's own, whichever way the drawing is turned.
    const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
    const [x, y] = [c * dx - s * dy, s * dx + c * dy];
    app.put(['faces', face, 'features', freeName(history.text, face)], { kind: placing, clock: clockOf(x, y) });
  };
  return (
    <>
      <FaceTabs names={names} face={face} />
      <Refused screen="measure" />
      {view === undefined ? (
        <p class="waiting">Drawing {face} …</p>
      ) : (
        <Readings
          key={face}
          face={face}
          drawn={view.picture}
          marks={standard ? view.marks : view.marks.filter((m) => ids.includes(m.id))}
          plan={answerOf(answers.plans, face) ?? []}
          enough={view.enough}
          improving={answerOf(answers.improving, face) ?? []}
          says={(head) => head}
          suspects={view.suspects}
          onPoint={placing === null ? undefined : place}
          turn={{ at: turn, to: turnTo }}
          doubt={(hold) => <InDoubt view={view} hold={hold} />}
        >
          <Centres face={face} />
        </Readings>
      )}
      <div class="folds">
        <Features face={face}>
          <div class="row">
            <label class="inline" for="placing">
              Put by pointing
            </label>
            <select
              id="placing"
              value={placing ?? ''}
              onChange={(event: TargetedEvent<HTMLSelectElement>) =>
                setPlacing(event.currentTarget.value === '' ? null : event.currentTarget.value)
              }
            >
              <option value="">off: pointing picks features</option>
              <option value="hole">a hole wherever I point</option>
              <option value="stud">a stud wherever I point</option>
              <option value="dowel">a dowel wherever I point</option>
            </select>
          </div>
        </Features>
        <FaceWords face={face} />
        <Fold title="Sheets to measure by">
          <EarlySheets />
          <Refused screen="files" />
        </Fold>
        <EveryWord
          key={face}
          title={`Everything the job can say of ${face}`}
          path={['faces', face]}
          without={['readings']}
        />
      </div>
    </>
  );
};
