import type { ComponentChildren, JSX } from 'preact';
import { download } from '../app/save.js';
import { useApp, useAppState } from '../app/use.js';
import type { FilesWish, HowMade, MadeFile } from '../work/protocol.js';
import { ReportView } from './report.js';

const types: Readonly<Record<string, string>> = {
  pdf: 'application/pdf',
  html: 'text/html',
  svg: 'image/svg+xml',
  json: 'application/json',
  csv: 'text/csv',
  '3mf': 'model/3mf',
};
export const typeOf = (name: string): string => types[/\.(\w+)$/.exec(name)?.[1] ?? ''] ?? 'application/octet-stream';

/**
 * Opens a PDF in a tab of its own, where the browser prints it; a browser that will not, and any other file, is a
 * download.
 */
const hand = (file: MadeFile | undefined): void => {
  if (file === undefined) return;
  const type = typeOf(file.name);
  if (type === types['pdf']) {
    const url = URL.createObjectURL(new Blob([file.bytes as BlobPart], { type }));
    if (window.open(url, '_blank') !== null) return;
  }
  download(file.name, file.bytes, type);
};

/** A button that makes files from the job and hands them over: one is opened or saved, several are one .zip. */
export const MakeButton = ({
  which,
  how,
  zipped = which,
  main = false,
  children,
}: {
  readonly which: FilesWish;
  readonly how?: HowMade;
  /** What the .zip is called. */
  readonly zipped?: string;
  readonly main?: boolean;
  readonly children: ComponentChildren;
}): JSX.Element => {
  const app = useApp();
  return (
    <button
      type="button"
      class={main ? 'main' : ''}
      onClick={() =>
        app.makeFiles(
          which,
          ({ files, zip }) => (zip === null ? hand(files[0]) : download(`${zipped}.zip`, zip, 'application/zip')),
          how,
        )
      }
    >
      {children}
    </button>
  );
};

/**
 * What was said of the files made last, where they are of these kinds; that they are old, where the job has changed
 * since.
 */
export const MadeWords = ({ of }: { readonly of: readonly FilesWish[] }): JSX.Element | null => {
  const { files, history } = useAppState(useApp());
  if (files === null || !of.includes(files.which)) return null;
  if (files.text !== history.text)
    return <p class="fault">The job has changed since this was worked out. Ask again.</p>;
  return (
    <div role="status">
      {files.warnings.map((w) => (
        <p key={w} class="help">
          {w}
        </p>
      ))}
      <ReportView report={files.report.filter((b) => b.kind !== 'verdict' && b.kind !== 'heading')} />
    </div>
  );
};
