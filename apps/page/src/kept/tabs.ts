/** Which tabs with a job of this page are open; a tab that crashed is not. */
export interface Tabs {
  readonly id: string;
  /** Ids of other tabs that live. */
  readonly others: () => Promise<ReadonlySet<string>>;
  /** Told when another tab has opened or changed a job: its id, the job's name and file. */
  readonly onWord: (listen: (word: TabWord) => void) => void;
  readonly say: (job: string, file: string | null, answer: boolean) => void;
}

interface TabWord {
  readonly from: string;
  readonly job: string;
  readonly file: string | null;
  /** Said in answer to another tab's word: not answered again. */
  readonly answer: boolean;
}

const prefix = 'fayplate tab ';

/** This tab, with a lock that the browser lets go when the tab ends, however it ends. */
export const openTabs = (): Tabs => {
  const id = crypto.randomUUID();
  const hasLocks = 'locks' in navigator;
  if (hasLocks) void navigator.locks.request(prefix + id, () => new Promise(() => undefined)).catch(() => undefined);
  const channel = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('fayplate');
  return {
    id,
    others: async () => {
      if (!hasLocks) return new Set();
      const { held = [] } = await navigator.locks.query();
      return new Set(
        held
          .flatMap(({ name = '' }) => (name.startsWith(prefix) ? [name.slice(prefix.length)] : []))
          .filter((n) => n !== id),
      );
    },
    onWord: (listen) => channel?.addEventListener('message', ({ data }) => listen(data as TabWord)),
    say: (job, file, answer) => channel?.postMessage({ from: id, job, file, answer } satisfies TabWord),
  };
};
