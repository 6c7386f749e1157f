import type { Step } from '../edit/history.js';
import type { Disk } from './disk.js';

/** One open job as the browser keeps it: what a closed tab or a crash must bring back. */
export interface KeptJob {
  /** The tab that writes it: no other does, so that two tabs never overwrite each other. */
  readonly id: string;
  readonly text: string;
  /** Name of the file it was opened from or saved to; null: not yet a file. */
  readonly file: string | null;
  /** The text as it stands in that file. */
  readonly saved: string | null;
  /** That file itself, where the browser writes to it; left out by pages of before. */
  readonly disk?: Disk | null;
  /** CSV lists of readings that the job names: name → text. */
  readonly lists: Readonly<Record<string, string>>;
  /** When it was last changed, ms since 1970. */
  readonly at: number;
  /** Boxes ticked in the list of cuts. */
  readonly ticked: readonly string[];
  /** Steps that can be taken back and done again; left out by pages of before. */
  readonly past?: readonly Step[];
  readonly future?: readonly Step[];
}

export interface Store {
  /** Kept when the promise resolves: the browser has it on its disk. Rejects where it is full or refused. */
  readonly put: (job: KeptJob) => Promise<void>;
  readonly all: () => Promise<readonly KeptJob[]>;
  readonly remove: (id: string) => Promise<void>;
}

const settled = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.addEventListener('success', () => resolve(request.result));
    request.addEventListener('error', () => reject(request.error ?? new Error('the store refused')));
  });

const written = (transaction: IDBTransaction): Promise<void> =>
  new Promise((resolve, reject) => {
    transaction.addEventListener('complete', () => resolve());
    transaction.addEventListener('abort', () => reject(transaction.error ?? new Error('the store refused')));
  });

const opened = async (): Promise<IDBDatabase> => {
  const opening = indexedDB.open('fayplate', 1);
  opening.addEventListener('upgradeneeded', () => opening.result.createObjectStore('jobs', { keyPath: 'id' }));
  return await settled(opening);
};

const isCalled = (error: unknown, name: string): boolean => error instanceof DOMException && error.name === name;

/** The browser's own store; null where it gives a local file none (private windows, some browsers). */
export const openStore = async (): Promise<Store | null> => {
  try {
    let db = await opened();
    const once = async (work: (jobs: IDBObjectStore) => void): Promise<void> => {
      // 'strict': told only when it is on the disk. Committed at once, so that nothing waits for this tab to live on.
      const transaction = db.transaction('jobs', 'readwrite', { durability: 'strict' });
      work(transaction.objectStore('jobs'));
      transaction.commit();
      await written(transaction);
    };
    const change = async (work: (jobs: IDBObjectStore) => void): Promise<void> => {
      try {
        await once(work);
      } catch (error) {
        // Closed by the browser, as when its data are cleared: another takes its place.
        if (!isCalled(error, 'InvalidStateError')) throw error;
        db = await opened();
        await once(work);
      }
    };
    return {
      put: async (job) => {
        try {
          await change((jobs) => jobs.put(job));
        } catch (error) {
          // Not every browser keeps a file's handle: the text comes first.
          if (!isCalled(error, 'DataCloneError')) throw error;
          await change((jobs) => jobs.put({ ...job, disk: null }));
        }
      },
      all: async () => (await settled(db.transaction('jobs').objectStore('jobs').getAll())) as KeptJob[],
      remove: async (id) => await change((jobs) => jobs.delete(id)),
    };
  } catch {
    return null;
  }
};
