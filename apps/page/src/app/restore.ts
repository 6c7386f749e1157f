import { typedAt } from '../edit/peek.js';
import type { KeptJob, Store } from '../kept/store.js';
import type { Tabs } from '../kept/tabs.js';
import type { App } from './app.js';

const nameOf = (text: string): string => typedAt(text, ['job']).replace(/^["']|["']$/g, '') || 'a job without a name';

/** When it was, as a person says it. */
const whenOf = (at: number): string => new Date(at).toLocaleString();

/** The job that a closed or crashed tab left, the last changed first; what other tabs have open is theirs. */
export const leftOver = async (store: Store, tabs: Tabs): Promise<readonly KeptJob[]> => {
  const [all, others] = await Promise.all([store.all(), tabs.others()]);
  return all.filter((k) => !others.has(k.id)).sort((a, b) => b.at - a.at);
};

/** Brings a kept job back; the page's own and other kept ones stay within reach. */
export const bringBack = (app: App, store: Store, left: readonly KeptJob[], own: string): void => {
  const [last, ...older] = left;
  if (last === undefined) return;
  const untouched = last.text === own && last.ticked.length === 0 && (last.past ?? []).length === 0;
  if (untouched) {
    void store.remove(last.id);
    return;
  }
  app.load(last);
  // Kept under this tab's name from now on.
  void store.remove(last.id);
  app.notice({
    id: 'back',
    words: `${nameOf(last.text)} is as you left it, ${whenOf(last.at)}.`,
    actions: [
      { says: `Open ${nameOf(own)}, which came with the page`, act: () => app.load({ text: own }) },
      ...older.slice(0, 4).map((k) => ({
        says: `Open ${nameOf(k.text)}, left ${whenOf(k.at)}`,
        act: () => {
          void store.remove(k.id);
          app.load(k);
        },
      })),
    ],
  });
};

/** Tells of another tab on the same job. Each tab keeps its own, so neither overwrites the other. */
export const watchTabs = (app: App, tabs: Tabs): void => {
  const here = (): { readonly job: string; readonly file: string | null } => {
    const { history, file } = app.state();
    return { job: typedAt(history.text, ['job']), file };
  };
  tabs.onWord(({ job, file, answer }) => {
    const mine = here();
    if (job !== mine.job || file !== mine.file) return;
    if (!answer) tabs.say(mine.job, mine.file, true);
    app.notice({
      id: 'tabs',
      words:
        `${nameOf(app.state().history.text)} is open in another tab as well. Each tab keeps its own: what you type ` +
        'in one does not reach the other. Go on in one of them.',
      actions: [],
    });
  });
  tabs.say(here().job, here().file, false);
};
