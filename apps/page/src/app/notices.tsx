import type { JSX } from 'preact';
import { openFile } from './save.js';
import { useApp, useAppState } from './use.js';

/** What is being worked out and how to stop it; how it ended; what else a person must know. */
export const Notices = (): JSX.Element => {
  const app = useApp();
  const { working, ended, notices, answers } = useAppState(app);
  return (
    <div class="notices">
      <div class={`working${working === null ? ' idle' : ''}`} aria-hidden={working === null}>
        {working === null ? null : (
          <>
            <span>
              Working out {working.what}
              {working.share === null ? ' …' : `: ${Math.round(100 * working.share)} %`}
            </span>
            <button type="button" onClick={app.stop}>
              Stop
            </button>
          </>
        )}
      </div>
      <div role="status">
        {ended === null ? null : (
          <div class="card faulty">
            <p>{ended}</p>
            <button type="button" onClick={app.ask}>
              Work it out
            </button>
          </div>
        )}
        {answers.missing.length === 0 ? null : (
          <div class="card">
            <p>The job takes readings from {answers.missing.join(', ')}, which the page has not been given.</p>
            <button type="button" onClick={() => void openFile(app)}>
              Open the list
            </button>
          </div>
        )}
        {notices.map((n) => (
          <div key={n.id} class="card">
            <p>{n.words}</p>
            <div class="row">
              {n.actions.map((a) => (
                <button
                  key={a.says}
                  type="button"
                  onClick={() => {
                    app.dismiss(n.id);
                    a.act();
                  }}
                >
                  {a.says}
                </button>
              ))}
              <button type="button" onClick={() => app.dismiss(n.id)}>
                Close
              </button>
            </div>
          </div>
        ))}
      </div>
    </div>
  );
};
