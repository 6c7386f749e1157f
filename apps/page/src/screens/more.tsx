import type { JSX, TargetedEvent, TargetedInputEvent } from 'preact';
import { useState } from 'preact/hooks';
import { useApp, useAppState } from '../app/use.js';
import { keysAt, listAt, typedAt } from '../edit/peek.js';
import { Fold } from '../parts/field.js';
import { MadeWords, MakeButton } from '../parts/made.js';
import { ReportView } from '../parts/report.js';
import type { AnswerWish, FilesWish } from '../work/protocol.js';

const answers: readonly FilesWish[] = ['buy', 'trial', 'compare', 'prove'] satisfies readonly AnswerWish[];

/** The rest of the day: before buying, midway, the trial assembly, and what has changed since. */
export const More = (): JSX.Element => {
  const app = useApp();
  const { files, history } = useAppState(app);
  const [way, setWay] = useState('');
  const sold = keysAt(history.text, ['faces']).some((face) => typedAt(history.text, ['faces', face, 'seller']) !== '');
  const midway = listAt(history.text, ['drilled', 'so far']).some((h) => h !== '');
  const tried = keysAt(history.text, ['trial']).length > 0;
  const compared = async (event: TargetedEvent<HTMLInputElement>): Promise<void> => {
    const file = event.currentTarget.files?.[0];
    if (file !== undefined) app.makeFiles('compare', () => undefined, { earlier: await file.text() });
  };
  const told = files !== null && answers.includes(files.which) ? files : null;
  return (
    <Fold title="Before buying, midway, and what has changed">
      <div class="row buttons">
        {sold ? (
          <>
            <button type="button" onClick={() => app.makeFiles('buy', () => undefined)}>
              Can a plate exist?
            </button>
            <MakeButton which="buy-sheet">Print what to ask the seller for</MakeButton>
          </>
        ) : null}
        {midway ? (
          <>
            <div class="field">
              <label for="way">Which of the ways that Prove lists</label>
              <input
                id="way"
                type="text"
                inputMode="numeric"
                autocomplete="off"
                placeholder="1"
                value={way}
                onInput={(event: TargetedInputEvent<HTMLInputElement>) => setWay(event.currentTarget.value)}
              />
            </div>
            <MakeButton which="prove" how={/^\d{1,3}$/.test(way.trim()) ? { way: Number(way) } : {}} zipped="rest">
              Save what is left to drill, one .zip
            </MakeButton>
          </>
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
      <MadeWords of={['buy-sheet']} />
      {told === null ? null : told.text === history.text ? (
        <ReportView report={told.report} />
      ) : (
        <p class="fault">The job has changed since this was worked out. Ask again.</p>
      )}
    </Fold>
  );
};
