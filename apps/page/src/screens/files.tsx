import type { JSX, TargetedEvent, TargetedInputEvent } from 'preact';
import { useState } from 'preact/hooks';
import { download } from '../app/save.js';
import { useApp, useAppState } from '../app/use.js';
import { typedAt, unitsOf } from '../edit/peek.js';
import { Fold } from '../parts/field.js';
import { MadeWords, MakeButton, typeOf } from '../parts/made.js';
import { Refused } from '../parts/standing.js';
import type { FilesWish } from '../work/protocol.js';
import type { MakeView } from '../work/shown.js';

/** What is measured by, and may be printed before there is a plate. */
const early: readonly FilesWish[] = ['readings', 'part'];
const sheets: readonly FilesWish[] = ['drill', 'gasket', 'depths', 'assembly', 'exploded', 'drawing', 'test-piece'];

/** Sheets to measure by, and templates to lay on the parts themselves. */
export const EarlySheets = (): JSX.Element => (
  <>
    <div class="row buttons">
      <MakeButton which="readings">Print measuring sheets</MakeButton>
      <MakeButton which="part">Print templates of the parts alone</MakeButton>
    </div>
    <MadeWords of={early} />
  </>
);

interface Typed {
  readonly label: string;
  readonly id: string;
  readonly hint: string;
  readonly value: string;
  readonly set: (value: string) => void;
}

const Typed = ({ label, id, hint, value, set }: Typed): JSX.Element => (
  <div class="field">
    <label for={id}>{label}</label>
    <input
      id={id}
      type="text"
      autocomplete="off"
      placeholder={hint}
      value={value}
      onInput={(event: TargetedInputEvent<HTMLInputElement>) => set(event.currentTarget.value)}
    />
  </div>
);

const given = (kerf: string, thick: string): { readonly kerf?: string; readonly thick?: string } => ({
  ...(kerf.trim() === '' ? {} : { kerf: kerf.trim() }),
  ...(thick.trim() === '' ? {} : { thick: thick.trim() }),
});

/** A thin piece to try on both parts before metal is cut. */
const TestPiece = ({ side }: { readonly side: string }): JSX.Element => {
  const [kerf, setKerf] = useState('');
  const [thick, setThick] = useState('');
  const unit = unitsOf(useAppState(useApp()).history.text);
  return (
    <fieldset>
      <legend>A thin piece to try on</legend>
      <div class="fields">
        <Typed label={`Width of the laser’s burn, ${unit}`} id="kerf" hint="none" value={kerf} set={setKerf} />
        <Typed label={`Thickness for a printer, ${unit}`} id="thick" hint="3 mm" value={thick} set={setThick} />
      </div>
      <div class="row buttons">
        <MakeButton which="test-piece" how={{ side, ...given(kerf, thick) }}>
          Save it as SVG for a laser and 3MF for a printer, .zip
        </MakeButton>
      </div>
      <MadeWords of={['test-piece']} />
    </fieldset>
  );
};

/** The files of the packet made last, each to save alone. */
const PacketFiles = (): JSX.Element | null => {
  const { files, history } = useAppState(useApp());
  if (files === null || files.which !== 'packet') return null;
  const old = files.text !== history.text;
  return (
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
  );
};

/** Everything that is made from the plate: the packet, and each sheet alone. */
export const Files = ({ view, ok }: { readonly view: MakeView; readonly ok: boolean }): JSX.Element => {
  const { history } = useAppState(useApp());
  const [full, setFull] = useState(false);
  const [svg, setSvg] = useState(false);
  const [side, setSide] = useState('B');
  const job = typedAt(history.text, ['job']).replace(/^["']|["']$/g, '');
  const name =
    job
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-|-$/g, '') || 'packet';
  const warn = ok ? '' : ' (not settled)';
  return (
    <section class="card" aria-label="Files">
      <p class={`verdict ${ok ? 'yes' : 'no'}`}>
        <strong>{view.answer}:</strong> {view.because}
      </p>
      {ok ? null : (
        <p class="help">Everything that is made now is marked as not settled. See Measure and Plate before you cut.</p>
      )}
      <div class="row buttons">
        <MakeButton which="packet" how={{ full }} zipped={name} main={ok}>
          Save the packet, one .zip{warn}
        </MakeButton>
        <MakeButton which="drill" how={{ side, svg }}>
          {svg ? 'Save the template as one SVG' : 'Print the template at true scale'}
          {warn}
        </MakeButton>
        <MakeButton which="assembly">Print how it goes together</MakeButton>
        <MakeButton which="exploded">Print the exploded view</MakeButton>
        <MakeButton which="drawing">Print a drawing for another shop</MakeButton>
        <MakeButton which="gasket" how={{ side, svg }}>
          {svg ? 'Save the gaskets as one SVG' : 'Print the gaskets'}
        </MakeButton>
        <MakeButton which="depths">Print strips for the drill stop</MakeButton>
      </div>
      <Refused screen="files" />
      <MadeWords of={sheets.filter((s) => s !== 'test-piece')} />
      <PacketFiles />
      <Fold title="How they are made">
        <div class="fields">
          <div class="field">
            <label for="made-side">Side of the plate that faces you</label>
            <select
              id="made-side"
              value={side}
              onChange={(event: TargetedEvent<HTMLSelectElement>) => setSide(event.currentTarget.value)}
            >
              <option value="B">side B</option>
              <option value="A">side A</option>
            </select>
          </div>
        </div>
        <label class="check">
          <input type="checkbox" checked={full} onChange={() => setFull(!full)} />
          <span>The packet with its appendix: odds, rejected layouts, every check with its source</span>
        </label>
        <label class="check">
          <input type="checkbox" checked={svg} onChange={() => setSvg(!svg)} />
          <span>Template and gaskets as one SVG at true scale, for a laser or a cutting plotter</span>
        </label>
      </Fold>
      <Fold title="To measure by, and to try">
        <EarlySheets />
        <TestPiece side={side} />
      </Fold>
    </section>
  );
};
