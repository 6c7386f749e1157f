import type { JSX, TargetedEvent } from 'preact';
import { useState } from 'preact/hooks';
import { answerOf } from '../app/state.js';
import { useApp, useAppState } from '../app/use.js';
import { faceNames, featuresOf, freeName, keysAt, typedAt } from '../edit/peek.js';
import { Features } from '../parts/features.js';
import { Choice, Field, Fold } from '../parts/field.js';
import { InDoubt } from '../parts/in-doubt.js';
import { Readings } from '../parts/readings.js';
import { ReportView } from '../parts/report.js';
import { FaceTabs, Refused } from '../parts/standing.js';
import { EveryWord } from '../parts/words/every-word.js';
import { EarlySheets } from './files.js';

/** A direction as a place on the clock, to ten minutes: 12 is up, clockwise. */
const clockOf = (x: number, y: number): string => {
  const minutes = Math.round((((Math.atan2(x, y) / (2 * Math.PI)) * 720 + 720) % 720) / 10) * 10;
  const [hour, rest] = [Math.floor(minutes / 60) % 12, minutes % 60];
  const name = String(hour === 0 ? 12 : hour);
  return rest === 0 ? name : `${name}:${String(rest).padStart(2, '0')}`;
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
          title={`Everything the job can say about ${face}`}
          path={['faces', face]}
          without={['readings']}
        />
      </div>
    </>
  );
};
