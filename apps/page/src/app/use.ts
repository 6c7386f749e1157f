import { createContext } from 'preact';
import { useContext, useLayoutEffect, useState } from 'preact/hooks';
import type { App } from './app.js';
import type { State } from './state.js';

export const AppContext = createContext<App | null>(null);

export const useApp = (): App => {
  const app = useContext(AppContext);
  if (app === null) throw new Error('a part of the page stands outside it');
  return app;
};

/** The state, drawn again at every change. */
export const useAppState = (app: App): State => {
  const [state, setState] = useState(app.state());
  // Before the next answer can come: what changed between drawing and listening would be missed, and nothing else would
  // show it.
  useLayoutEffect(() => {
    const heard = (): void => setState(app.state());
    heard();
    return app.listen(heard);
  }, [app]);
  return state;
};
