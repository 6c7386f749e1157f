import { render } from 'preact';
import { openApp } from './app/app.js';
import { Frame } from './app/frame.js';
import { bringBack, leftOver, watchTabs } from './app/restore.js';
import { watchFiles } from './app/save.js';
import { AppContext } from './app/use.js';
import { openStore } from './kept/store.js';
import { openTabs } from './kept/tabs.js';
import { openClient } from './work/client.js';

/** What the page carries: text that the build or the command line has put into it. */
const carried = (id: string): string => document.getElementById(id)?.textContent ?? '';

const startWorker = (() => {
  const url = URL.createObjectURL(new Blob([carried('worker')], { type: 'text/javascript' }));
  return () => new Worker(url);
})();

/** The job that came with the page, as JSON so that nothing in it can end the element that holds it. */
const own = ((): string => {
  const text = carried('job').trim();
  return text === '' ? '' : (JSON.parse(text) as string);
})();

const start = async (): Promise<void> => {
  const client = openClient(startWorker);
  const tabs = openTabs();
  const app = openApp(own, { client, tabs });
  if (own === '') app.set({ newShown: true });
  // Asked before there is anything to look at: the worker works while the browser opens its store.
  app.ask();
  const store = await openStore();
  app.keepIn(store);
  if (store !== null) bringBack(app, store, await leftOver(store, tabs), own);
  const root = document.getElementById('page');
  if (root === null) throw new Error('the page has no root');
  root.replaceChildren();
  render(
    <AppContext.Provider value={app}>
      <Frame />
    </AppContext.Provider>,
    root,
  );
  watchFiles(app);
  watchTabs(app, tabs);
};

void start();
