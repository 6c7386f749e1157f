import type { JSX } from 'preact';
import { useApp, useAppState } from '../app/use.js';
import { keysAt } from '../edit/peek.js';
import { Choice, Fold } from '../parts/field.js';
import { Picture } from '../parts/picture.js';
import { ReportView } from '../parts/report.js';
import { Pieces } from '../parts/pieces.js';
import { Refused } from '../parts/standing.js';
import { EarlySheets, Files } from './files.js';
import { More } from './more.js';
import type { CutRow, MakeView } from '../work/shown.js';
import { EveryWord } from '../parts/words/every-word.js';

const Cut = ({ cut, unit }: { readonly cut: CutRow; readonly unit: string }): JSX.Element => {
  const app = useApp();
  const { ticked } = useAppState(app);
  return (
    <li>
      <label class="cut">
        <input type="checkbox" checked={ticked.includes(cut.id)} onChange={() => app.tick(cut.id)} />
        <span class="which">
          {cut.n}. {cut.hole === cut.op ? cut.op : `${cut.hole}, ${cut.op}`}
        </span>
        <span class="value">
          X {cut.x} Y {cut.y} {unit}
        </span>
        <span>
          {cut.tool}, {cut.depth} {unit} deep{cut.speed === '' ? '' : `, ${cut.speed}`}
          {cut.note === '' ? '' : `. ${cut.note}`}
        </span>
      </label>
    </li>
  );
};

const Cuts = ({ view }: { readonly view: MakeView }): JSX.Element => {
  const { ticked } = useAppState(useApp());
  return (
    <>
      {view.settings.map((s, i) => (
        <section key={s.id} class="card" aria-label={`Cuts: ${s.title}`}>
          <h3>{s.title}</h3>
          <p>{s.says}</p>
          <p role="status">
            {s.cuts.filter((c) => ticked.includes(c.id)).length} of {s.cuts.length} cuts done
          </p>
          {view.pictures[i] === undefined ? null : <Picture drawn={view.pictures[i]} caption={false} />}
          <ol class="cuts">
            {s.cuts.map((c) => (
              <Cut key={c.id} cut={c} unit={view.unit} />
            ))}
          </ol>
        </section>
      ))}
    </>
  );
};

/** How the pieces lie to each other, before any is cut. */
const Apart = ({ view }: { readonly view: MakeView }): JSX.Element => (
  <section class="card" aria-label="Pulled apart">
    <Picture drawn={view.apart} />
  </section>
);

/** Make: the files, and the list of cuts to tick at the machine. */
export const Make = (): JSX.Element => {
  const { history, answers } = useAppState(useApp());
  if (keysAt(history.text, ['plate']).length === 0)
    return (
      <>
        <div class="card">
          <p>There is no plate to make yet. Begin it in Plate.</p>
          <EarlySheets />
          <Refused screen="files" />
        </div>
        <More />
      </>
    );
  const view = answers.make;
  return (
    <>
      <Pieces />
      <Refused screen="make" />
      <More />
      {view === null ? (
        <p class="waiting">{answers.refused.make === undefined ? 'Putting the cuts in order …' : ''}</p>
      ) : (
        <div class="work even">
          <div class="do">
            <Files view={view} ok={view.ok && answers.faults.length === 0} />
            <Fold title="Paper">
              <div class="fields">
                <Choice
                  label="Paper of the templates"
                  path={['print', 'paper']}
                  of={[
                    ['', 'A4 (not said)'],
                    ['A4', 'A4'],
                    ['A3', 'A3'],
                    ['Letter', 'Letter'],
                    ['Tabloid', 'Tabloid'],
                  ]}
                />
              </div>
            </Fold>
            <ReportView report={view.report.filter((b) => b.kind === 'caution')} />
            <Fold title="Every word of the machinist’s table">
              <ReportView report={view.report.filter((b) => b.kind !== 'caution')} />
            </Fold>
          </div>
          <div class="see">
            <Apart view={view} />
            <Cuts view={view} />
          </div>
        </div>
      )}
      <EveryWord title="Everything the job can say about the machine" path={['machine']} />
      <EveryWord
        title="Everything the job can say about work on the parts, printing and the drawing"
        only={['work', 'print', 'drawing']}
      />
    </>
  );
};
