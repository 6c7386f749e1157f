import { typedAt } from '../edit/peek.js';
import { type Disk, type Handle, mayWrite, seenNow } from '../kept/disk.js';
import type { App } from './app.js';

interface Pickers {
  readonly showOpenFilePicker?: (options: object) => Promise<readonly Handle[]>;
  readonly showSaveFilePicker?: (options: object) => Promise<Handle>;
}
const pickers = window as unknown as Pickers;
const types = [{ description: 'Job file', accept: { 'application/yaml': ['.yaml', '.yml'] } }];

const isCancelled = (error: unknown): boolean => error instanceof DOMException && error.name === 'AbortError';

/** Hands a file to the browser's own downloads. */
export const download = (name: string, bytes: Uint8Array | string, type = 'application/octet-stream'): void => {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([bytes as BlobPart], { type }));
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
};

const nameOf = (app: App): string => {
  const { file, history } = app.state();
  const job = typedAt(history.text, ['job']).replace(/^["']|["']$/g, '');
  return (
    file ??
    `${
      job
        .toLowerCase()
        .replace(/[^\p{L}\p{N}]+/gu, '-')
        .replace(/^-|-$/g, '') || 'job'
    }.yaml`
  );
};

const saved = (app: App, file: string, text: string, disk: Disk | null = null): void => {
  app.set({ file, saved: text, disk });
  app.dismiss('changed');
  app.dismiss('refused');
  app.keepNow();
};

const writeTo = async (app: App, handle: Handle): Promise<void> => {
  const { text } = app.state().history;
  const writable = await handle.createWritable();
  await writable.write(text);
  await writable.close();
  saved(app, handle.name, text, await seenNow(handle));
};

/** Saves under a name that the person chooses, or as a download where the browser writes no files itself. */
export const saveAs = async (app: App): Promise<void> => {
  const { text } = app.state().history;
  if (pickers.showSaveFilePicker === undefined) {
    download(nameOf(app), text, 'application/yaml');
    saved(app, nameOf(app), text);
    return;
  }
  try {
    await writeTo(app, await pickers.showSaveFilePicker({ suggestedName: nameOf(app), types }));
  } catch (error) {
    if (!isCancelled(error)) {
      download(nameOf(app), text, 'application/yaml');
      saved(app, nameOf(app), text);
    }
  }
};

const takeFile = async (app: App, file: File, disk: Disk | null = null): Promise<void> => {
  const text = await file.text();
  if (/\.csv$/i.test(file.name)) {
    app.set({ lists: { ...app.state().lists, [file.name]: text } });
    app.ask();
    return;
  }
  app.load({ text, file: file.name, saved: text, lists: app.state().lists, disk });
};

/** Says that the file has been changed by another program since it was read, and leaves the choice. */
const sayChanged = (app: App, file: File, handle: Handle): void =>
  app.notice({
    id: 'changed',
    words: `${file.name} was changed on the disk after it was opened here. Nothing is overwritten.`,
    actions: [
      {
        says: 'Open the file as it is now',
        act: () => void takeFile(app, file, { handle, seen: file.lastModified }).then(() => app.dismiss('changed')),
      },
      { says: 'Save mine under another name', act: () => void saveAs(app) },
      { says: 'Overwrite it with mine', act: () => void writeOpen(app, handle) },
    ],
  });

/** Whether the file on the disk is still the one that was read; says so where not. */
const isAsSeen = async (app: App): Promise<boolean> => {
  const { disk, saved: known } = app.state();
  if (disk === null) return true;
  try {
    const file = await disk.handle.getFile();
    if (file.lastModified === disk.seen) return true;
    if ((await file.text()) === known) {
      app.set({ disk: { ...disk, seen: file.lastModified } });
      return true;
    }
    sayChanged(app, file, disk.handle);
    return false;
  } catch {
    return true;
  }
};

/** Says that the file could not be written: the disk, the browser or the person refuses. */
const sayRefused = (app: App, { name }: Handle): void =>
  app.notice({
    id: 'refused',
    words: `${name} could not be written. The job is still kept here: save it under another name.`,
    actions: [{ says: 'Save under another name', act: () => void saveAs(app) }],
  });

const writeOpen = async (app: App, handle: Handle): Promise<void> => {
  try {
    await writeTo(app, handle);
  } catch {
    sayRefused(app, handle);
  }
};

/** Saves to the file that the job came from, which outlives the tab; under a new name where there is none. */
export const save = async (app: App): Promise<void> => {
  const { disk } = app.state();
  if (disk === null) return await saveAs(app);
  if (!(await mayWrite(disk.handle))) sayRefused(app, disk.handle);
  else if (await isAsSeen(app)) await writeOpen(app, disk.handle);
};

/** Opens a job file, or a list of readings that the job names. */
export const openFile = async (app: App): Promise<void> => {
  if (pickers.showOpenFilePicker === undefined) {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.yaml,.yml,.csv,text/plain';
    input.addEventListener('change', () => {
      const [file] = input.files ?? [];
      if (file !== undefined) void takeFile(app, file);
    });
    input.click();
    return;
  }
  try {
    const [handle] = await pickers.showOpenFilePicker({
      types: [...types, { description: 'List of readings', accept: { 'text/csv': ['.csv'] } }],
    });
    if (handle === undefined) return;
    const file = await handle.getFile();
    await takeFile(app, file, { handle, seen: file.lastModified });
  } catch (error) {
    if (!isCancelled(error)) throw error;
  }
};

/** Takes files that are dropped on the page, and looks at the file on the disk whenever the person comes back. */
export const watchFiles = (app: App): void => {
  window.addEventListener('focus', () => void isAsSeen(app));
  document.addEventListener('dragover', (event) => event.preventDefault());
  document.addEventListener('drop', (event) => {
    event.preventDefault();
    for (const file of event.dataTransfer?.files ?? []) void takeFile(app, file);
  });
};
