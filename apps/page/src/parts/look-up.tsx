import type { JSX, TargetedEvent, TargetedInputEvent, TargetedSubmitEvent } from 'preact';
import { useState } from 'preact/hooks';
import { madeTo } from '../app/app.js';
import { useApp, useAppState } from '../app/use.js';
import { faceNames } from '../edit/peek.js';
import { readingLines } from '../edit/readings.js';
import { Fold } from './field.js';
import { Picture } from './picture.js';
import { ReportView } from './report.js';

/** What can be looked up, its word on the page, and what may be written. */
const kinds = [
  ['face', 'a standard face', 'FF165, 56C, SAE B, 165 mm 4 holes'],
  ['thread', 'a thread', '3/8-16 UNC, G1/8, 9.4 mm 1.6 mm, 26 tpi 1/4'],
  ['clearance', 'a clearance hole', 'M10, 3/8'],
  ['tap drill', 'a tap drill', 'M10, 1/4 BSF'],
  ['drill', 'a drill', '10.3 mm, F, 13/32'],
  ['hardware', 'heads, nuts and washers', 'M10, 3/8'],
  ['dowel', 'a dowel', '8 mm, 1/4'],
  ['fit', 'a fit', '130 j6, 25 H7/g6'],
  ['material', 'a material', '6061'],
  ['paper', 'a paper size', 'A4'],
  ['words', 'a word of the job file', 'plate.fasten, or nothing for all'],
] as const;

/**
 * The handbook: standard faces, threads by name or by two measurements, drills, holes and the words of the job file.
 */
export const LookUp = (): JSX.Element => {
  const app = useApp();
  const { looked, history } = useAppState(app);
  const [kind, setKind] = useState<string>('face');
  const [what, setWhat] = useState('');
  const names = faceNames(history.text);
  const unread = names.filter((face) => readingLines(history.text, face).length === 0);
  const take = (face: string, standard: string): void => app.putAll(madeTo(face, standard));
  const hint = kinds.find(([k]) => k === kind)?.[2] ?? '';
  return (
    <Fold title="Look it up">
      <form
        class="fields"
        aria-label="Look it up"
        onSubmit={(event: TargetedSubmitEvent<HTMLFormElement>) => {
          event.preventDefault();
          app.lookUp(kind, what.trim());
        }}
      >
        <div class="field">
          <label for="look-kind">Look up</label>
          <select
            id="look-kind"
            value={kind}
            onChange={(event: TargetedEvent<HTMLSelectElement>) => setKind(event.currentTarget.value)}
          >
            {kinds.map(([k, word]) => (
              <option key={k} value={k}>
                {word}
              </option>
            ))}
          </select>
        </div>
        <div class="field wide">
          <label for="look-what">Its name or its sizes</label>
          <input
            id="look-what"
            type="text"
            value={what}
            autocomplete="off"
            autocapitalize="off"
            spellcheck={false}
            aria-describedby="look-hint"
            onInput={(event: TargetedInputEvent<HTMLInputElement>) => setWhat(event.currentTarget.value)}
          />
          <p id="look-hint" class="help">
            Such as {hint}
          </p>
        </div>
        <button type="submit">Look it up</button>
      </form>
      <div role="status" class="looked">
        {looked === null ? null : looked.refused === null ? (
          <ReportView report={looked.report} />
        ) : (
          <p class="fault">{looked.refused}</p>
        )}
      </div>
      {looked === null || looked.face === null ? null : (
        <>
          <Picture drawn={looked.face.picture} high={50} />
          <div class="row">
            {unread.map((face) => (
              <button key={face} type="button" onClick={() => take(face, looked.face?.name ?? '')}>
                {face} is made to {looked.face?.name}
              </button>
            ))}
          </div>
          {unread.length === names.length ? null : (
            <p class="help">
              {`${names.filter((n) => !unread.includes(n)).join(' and ')} ` +
                `${names.length - unread.length === 1 ? 'has' : 'have'} readings: Understand says whether they are ` +
                'those of a standard face.'}
            </p>
          )}
        </>
      )}
    </Fold>
  );
};
