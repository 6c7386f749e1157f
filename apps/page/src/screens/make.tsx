import type { JSX } from 'preact';
import { useApp, useAppState } from '../app/use.js';
import { download } from '../app/save.js';
import { keysAt, typedAt } from '../edit/peek.js';
import { Choice, Fold } from '../parts/field.js';
import { Picture } from '../parts/picture.js';
import { ReportView } from '../parts/report.js';
import { Pieces } from '../parts/pieces.js';
import { Refused } from '../parts/standing.js';
import { More } from './more.js';
import type { CutRow, FilesWish, MadeFile, MakeView } from '../work/protocol.js';
import { EveryWord } from '../parts/words/every-word.js';

const types: Readonly<Record<string, string>> = {
  pdf: 'application/pdf',
  html: 'text/html',
  svg: 'image/svg+xml',
  json: 'application/json',
  csv: 'text/csv',
  '3mf': 'model/3mf',
};
const typeOf = (name: string): string => types[/\.(\w+)$/.exec(name)?.[1] ?? ''] ?? 'application/octet-stream';

/** Opens a PDF in a tab of its own, where the browser prints it; a browser that will not is given it as a file. */
const openPdf = (file: MadeFile | undefined): void => {
  if (file === undefined) return;
  const url = URL.createObjectURL(new Blob([file.bytes as BlobPart], { type: 'application/pdf' }));
  if (window.open(url, '_blank') === null) download(file.name, file.bytes, 'application/pdf');
};

/** What is printed beside the templates, and what the button says. */
const sheets: readonly (readonly [FilesWish, string])[] = [
  ['readings', 'Print measuring sheets'],
  ['part', 'Templates of the parts alone, .zip'],
  ['gasket', 'Print the gaskets'],
  ['exploded', 'Print the exploded view'],
  ['depths', 'Print strips for the drill stop'],
  ['test-piece', 'A thin piece to try on: SVG for a laser and 3MF for a printer, .zip'],
];

const Files = ({ view, ok }: { readonly view: MakeView; readonly ok: boolean }): JSX.Element => {
  const { answer, because } = view;
  const app = useApp();
  const { files, history } = useAppState(app);
  const job = typedAt(history.text, ['job']).replace(/^["']|["']$/g, '');
  const name =
    job
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-|-$/g, '') || 'packet';
  const old = files !== null && files.text !== history.text;
  const warn = ok ? '' : ' (not settled)';
  return (
    <section class="card" aria-label="Files">
      <p class={`verdict ${ok ? 'yes' : 'no'}`}>
        <strong>{answer}:</strong> {because}
      </p>
      {ok ? null : (
        <p class="help">Everything that is made now is marked as not settled. See Measure and Plate before you cut.</p>
      )}
      <div class="row">
        <button
          type="button"
          class={ok ? 'main' : ''}
          onClick={() =>
            app.makeFiles('packet', ({ zip }) => {
              if (zip !== null) download(`${name}.zip`, zip, 'application/zip');
            })
          }
        >
          Save the packet, one .zip{warn}
        </button>
        <button type="button" onClick={() => app.makeFiles('drill', ({ files }) => openPdf(files[0]))}>
          Print the template at true scale{warn}
        </button>
        <button type="button" onClick={() => app.makeFiles('assembly', ({ files }) => openPdf(files[0]))}>
          Print how it goes together{warn}
        </button>
        <button type="button" onClick={() => app.makeFiles('drawing', ({ files }) => openPdf(files[0]))}>
          Print a drawing for another shop{warn}
        </button>
      </div>
      <Fold title="To measure by, and to try">
        <div class="row">
          {sheets.map(([which, says]) => (
            <button
              key={which}
              type="button"
              onClick={() =>
                app.makeFiles(which, ({ files, zip }) =>
                  zip === null ? openPdf(files[0]) : download(`${which}.zip`, zip, 'application/zip'),
                )
              }
            >
              {says}
              {which === 'readings' ? '' : warn}
            </button>
          ))}
        </div>
      </Fold>
      <Refused screen="files" />
      {files === null || files.which !== 'packet' ? null : (
        <>
          {old ? <p class="fault">The job has changed since these were made. Make the packet again.</p> : null}
          {files.warnings.map((w) => (
            <p key={w} class="help">
              {w}
            </p>
          ))}
          <ul class="files">
            {files.files.map((f) => (
              <li key={f.name}>
                <button type="button" disabled={old} onClick={() => download(f.name, f.bytes, typeOf(f.name))}>
                  {f.name}
                </button>{' '}
                {f.says}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
};

const Cut = ({ cut, unit }: { readonly cut: CutRow; readonly unit: string }): JSX.Element => {
  const app = useApp();
  const { ticked } = useAppState(app);
  return (
    <li>
      <label class="cut">
        <input type="checkbox" checked={ticked.includes(cut.id)} onChange={() => app.tick(cut.id)} />
        <span class="which">
          {cut.n}. {cut.hole}, {cut.op}
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
        <section key={s.side} class="card" aria-label={`Cuts with side ${s.side} up`}>
          <h3>Side {s.side} up</h3>
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
    return <p class="card">There is no plate to make yet. Begin it in Plate.</p>;
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
      <EveryWord title="Everything the job can say of the machine" path={['machine']} />
      <EveryWord
        title="Everything the job can say of work on the parts, printing and the drawing"
        only={['work', 'print', 'drawing']}
      />
    </>
  );
};
