import type { Change } from '../edit/change.js';
import { between } from '../edit/change.js';
import { type Step, begun, did, redone, stepsOf, undone } from '../edit/history.js';
import { faceNames, pieceNames, typedAt } from '../edit/peek.js';
import { type Written } from '../edit/write.js';
import { type Path, removeAt, setAt } from '../edit/set.js';
import type { KeptJob, Store } from '../kept/store.js';
import type { Tabs } from '../kept/tabs.js';
import type { Client } from '../work/client.js';
import type { FilesWish, HowMade, Part, Places, Screen, StarterWish, Wish } from '../work/protocol.js';
import { received } from './receive.js';
import { type Notice, type State, answerOf, noAnswers, startState } from './state.js';

/** Files as they come from the worker. */
type Made = Extract<Part, { readonly kind: 'files' }>;

/** The page's one state and everything that can be done to it. */
export interface App {
  readonly state: () => State;
  readonly listen: (heard: () => void) => () => void;
  readonly set: (changes: Partial<State>) => void;
  /** Changes the job's text; `typed` names the box, so that its keys make one step to take back. */
  readonly change: (change: Change | null, typed?: string | null) => void;
  /** Sets a value of the job, or takes it out where it is ''. */
  readonly put: (path: Path, value: Written, typed?: string | null) => void;
  readonly putAll: (edits: readonly { readonly path: Path; readonly value: Written }[]) => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly show: (screen: Screen) => void;
  readonly chooseFace: (face: string) => void;
  /** Another job in place of this one. */
  readonly load: (
    job: Partial<Pick<State, 'file' | 'saved' | 'disk' | 'lists' | 'ticked'>> & {
      readonly text: string;
      readonly past?: readonly Step[];
      readonly future?: readonly Step[];
    },
  ) => void;
  /** The browser's own store, as soon as it is open; null: it gives this page none. */
  readonly keepIn: (store: Store | null) => void;
  readonly ask: () => void;
  readonly stop: () => void;
  readonly makeFiles: (which: FilesWish, then: (made: Made) => void, how?: HowMade) => void;
  /** A new job; `standards`: parts that are made to a published standard, which then needs no features. */
  readonly begin: (starter: StarterWish, standards: Readonly<Record<string, string>>) => void;
  /** Looks one thing up in the handbook. */
  readonly lookUp: (kind: string, what: string) => void;
  readonly notice: (notice: Notice) => void;
  readonly dismiss: (id: string) => void;
  readonly tick: (id: string) => void;
  /** Keeps what has changed beside the text. */
  readonly keepNow: () => void;
  readonly goTo: (at: number) => void;
  /** The schema of a job file, for completion; asked for once, when nothing else is worked out. */
  readonly askSchema: () => void;
}

interface Surroundings {
  readonly client: Client;
  readonly tabs: Tabs;
}

const ends: Readonly<Record<'stopped' | 'budget' | 'broke', string>> = {
  stopped: 'Stopped. Change anything, or choose “Work it out”, to go on.',
  budget: 'This took longer than two minutes and was ended. The job may be larger than the page can work out.',
  broke: 'Something went wrong inside Fayplate; the job itself is kept. Please save it and report this:',
};

/** What no answer of today's job says any more. */
const forText = (state: State): Partial<State> => ({ ended: null, files: state.files });

/** Where the features of the face in hand were drawn last. */
const nearOf = ({ face, history, answers }: State): Places =>
  Object.fromEntries(
    (answerOf(answers.faces, face ?? faceNames(history.text)[0] ?? '')?.marks ?? []).map((m) => [m.id, [m.x, m.y]]),
  );

/** The edits by which a face is taken from a published standard: its features are the standard's then. */
export const madeTo = (face: string, standard: string): readonly { readonly path: Path; readonly value: Written }[] => [
  { path: ['faces', face, 'standard'], value: standard },
  ...['features', 'centre', 'up'].map((key) => ({ path: ['faces', face, key], value: '' })),
];

export const openApp = (text: string, { client, tabs }: Surroundings): App => {
  let state = startState(text);
  let store: Store | null = null;
  const listeners = new Set<() => void>();
  const set = (changes: Partial<State>): void => {
    state = { ...state, ...changes };
    for (const heard of listeners) heard();
  };
  const wishNow = (): Wish => ({
    screen: state.screen,
    face: state.face ?? faceNames(state.history.text)[0] ?? null,
    times: state.times,
    piece: pieceNames(state.history.text)[state.piece] ?? null,
    turns: state.turns,
  });
  const question = (what: Wish, part: (p: Part) => void, done: () => void): void => {
    set({ working: { what: 'the job', share: null } });
    client.ask(
      { text: state.history.text, lists: state.lists, what, near: nearOf(state) },
      {
        part,
        progress: (name, share) => set({ working: { what: name, share } }),
        end: (why, words) => {
          if (why === 'newer') return;
          set({
            working: null,
            ...(why === 'done' ? {} : { ended: `${ends[why]}${words === '' ? '' : ` ${words}`}` }),
          });
          if (why === 'done') done();
        },
      },
    );
  };
  const ask = (): void =>
    question(
      wishNow(),
      (part) => set(received(state, part)),
      () => undefined,
    );

  let waiting = 0;
  const put = async (job: KeptJob): Promise<void> => {
    try {
      await store?.put(job);
      waiting -= 1;
      if (waiting === 0) set({ keeping: 'kept' });
    } catch {
      waiting -= 1;
      set({ keeping: 'full' });
    }
  };
  const keep = (): void => {
    if (store === null) return;
    waiting += 1;
    set({ keeping: 'keeping' });
    const { file, saved, disk, lists, ticked, history } = state;
    const { text } = history;
    void put({ id: tabs.id, text, ...stepsOf(history), file, saved, disk, lists, ticked, at: Date.now() });
  };
  const said = (): void => tabs.say(typedAt(state.history.text, ['job']), state.file, false);
  const textChanged = (history: State['history']): void => {
    state = { ...state, history, ...forText(state) };
    keep();
    ask();
  };
  const app: App = {
    state: () => state,
    listen: (heard) => {
      listeners.add(heard);
      return () => listeners.delete(heard);
    },
    set,
    keepIn: (opened) => {
      store = opened;
      set({ keeping: opened === null ? 'none' : 'kept' });
    },
    change: (change, typed = null) => {
      if (change !== null) textChanged(did(state.history, change, typed));
    },
    put: (path, value, typed = null) => {
      const { text } = state.history;
      app.change(value === '' ? removeAt(text, path) : setAt(text, path, value), typed);
    },
    putAll: (edits) => {
      let { text } = state.history;
      for (const { path, value } of edits) {
        const change = value === '' ? removeAt(text, path) : setAt(text, path, value);
        if (change !== null) text = text.slice(0, change.from) + change.insert + text.slice(change.to);
      }
      app.change(between(state.history.text, text));
    },
    undo: () => {
      if (state.history.past.length > 0) textChanged(undone(state.history));
    },
    redo: () => {
      if (state.history.future.length > 0) textChanged(redone(state.history));
    },
    show: (screen) => {
      set({ screen, ended: null });
      ask();
    },
    chooseFace: (face) => {
      set({ face });
      ask();
    },
    load: ({ text: next, past = [], future = [], file = null, saved = null, disk = null, lists = {}, ticked = [] }) => {
      set({
        history: { ...begun(next), past, future },
        file,
        saved,
        disk,
        lists,
        ticked,
        face: null,
        answers: noAnswers,
        files: null,
        ended: null,
        newShown: false,
      });
      said();
      keep();
      ask();
    },
    ask,
    stop: () => client.stop(),
    makeFiles: (which, then, how = {}) => {
      let made: Made | null = null;
      question(
        {
          screen: 'files',
          which,
          piece: pieceNames(state.history.text)[state.piece] ?? null,
          how,
        },
        (part) => {
          set(received(state, part));
          if (part.kind === 'files') made = part;
        },
        () => {
          if (made !== null) then(made);
        },
      );
    },
    begin: (starter, standards) =>
      question(
        { screen: 'new', starter },
        (part) => {
          set(received(state, part));
          if (part.kind !== 'begun') return;
          app.load({ text: part.text });
          for (const [face, standard] of Object.entries(standards)) app.putAll(madeTo(face, standard));
        },
        () => undefined,
      ),
    lookUp: (kind, what) => {
      // A question ends the one before it: what the page was working out is asked again.
      const ended = state.working !== null;
      question(
        { screen: 'look', kind, what },
        (part) => set(received(state, part)),
        () => {
          if (ended) ask();
        },
      );
    },
    notice: (notice) => set({ notices: [...state.notices.filter((n) => n.id !== notice.id), notice] }),
    dismiss: (id) => set({ notices: state.notices.filter((n) => n.id !== id) }),
    tick: (id) => {
      const { ticked } = state;
      set({ ticked: ticked.includes(id) ? ticked.filter((t) => t !== id) : [...ticked, id] });
      keep();
    },
    askSchema: () => {
      if (state.schema === null && state.working === null)
        question(
          { screen: 'schema' },
          (part) => set(received(state, part)),
          () => undefined,
        );
    },
    keepNow: keep,
    goTo: (at) => set({ textShown: true, goTo: { at, n: (state.goTo?.n ?? 0) + 1 } }),
  };
  return app;
};
