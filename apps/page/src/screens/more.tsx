import type { JSX, TargetedEvent } from 'preact';
import { download } from '../app/save.js';
import { useApp, useAppState } from '../app/use.js';
import { keysAt, listAt, typedAt } from '../edit/peek.js';
import { Fold } from '../parts/field.js';
import { ReportView } from '../parts/report.js';
import type { AnswerWish, FilesWish } from '../work/protocol.js';

const answers: readonly FilesWish[] = ['buy', 'trial', 'compare', 'prove'] satisfies readonly AnswerWish[];

/** The rest of the day: before buying, midway, the trial assembly, and what has changed since. */
export const More = (): JSX.Element => {
  const app = useApp();
  const { files, history } = useAppState(app);
  const sold = keysAt(history.text, ['faces']).some((face) => typedAt(history.text, ['faces', face, 'seller']) !== '');
  const midway = listAt(history.text, ['drilled', 'so far']).some((h) => h !== '');
  const tried = keysAt(history.text, ['trial']).length > 0;
  const compared = async (event: TargetedEvent<HTMLInputElement>): Promise<void> => {
    const file = event.currentTarget.files?.[0];
    if (file !== undefined) app.makeFiles('compare', () => undefined, await file.text());
  };
  const told = files !== null && answers.includes(files.which) ? files : null;
  return (
    <Fold title="Before buying, midway, and what has changed">
      <div class="row">
        {sold ? (
          <button type="button" onClick={() => app.makeFiles('buy', () => undefined)}>
            Can a plate exist?
          </button>
        ) : null}
        {midway ? (
          <button
            type="button"
            onClick={() =>
              app.makeFiles('prove', ({ zip }) => {
                if (zip !== null) download('rest.zip', zip, 'application/zip');
              })
            }
          >
            Save what is left to drill, one .zip
          </button>
        ) : null}
        {tried ? (
          <button type="button" onClick={() => app.makeFiles('trial', () => undefined)}>
            Final shims from the trial assembly
          </button>
        ) : null}
        <label class="field">
          Compare with the job file as it was
          <input type="file" accept=".yaml,.yml,.txt" onChange={(event) => void compared(event)} />
        </label>
      </div>
      {told === null ? null : told.text === history.text ? (
        <ReportView report={told.report} />
      ) : (
        <p class="fault">The job has changed since this was worked out. Ask again.</p>
      )}
    </Fold>
  );
};
