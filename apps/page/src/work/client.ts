import type { Ask, Part, Places, Wish, Word } from './protocol.js';

/**
 * Work that runs on when something newer is asked for is given this long to end by itself, ms: less where a spare
 * stands ready.
 */
const GRACE = { ready: 30, none: 150 } as const;
/** A spare is started when nothing has been asked for this long, ms: the page itself comes first. */
const LATER = 600;
/** No search of ours runs longer, ms: what does is ended with a word. */
const BUDGET = 120_000;

interface Question {
  readonly text: string;
  readonly lists: Readonly<Record<string, string>>;
  readonly what: Wish;
  readonly near: Places;
}

interface Listener {
  readonly part: (part: Part) => void;
  readonly progress: (what: string, share: number) => void;
  /** Ended: 'done', because something newer was asked for, by the person, at its budget, or by a fault of ours. */
  readonly end: (why: 'done' | 'newer' | 'stopped' | 'budget' | 'broke', words: string) => void;
}

export interface Client {
  /** Asks; whatever ran before is older and ends. */
  readonly ask: (question: Question, listener: Listener) => void;
  readonly stop: () => void;
}

interface Running {
  readonly ask: Ask;
  readonly listener: Listener;
  readonly timer: ReturnType<typeof setTimeout>;
}

/**
 * The page's one worker, and a spare that is ready when the first has to be ended: a thread cannot be told to stop,
 * only be ended, and the next answer must not wait until a new one has started.
 */
export const openClient = (start: () => Worker): Client => {
  let id = 0;
  let running: Running | null = null;
  let waiting: { readonly ask: Ask; readonly listener: Listener } | null = null;
  let grace: ReturnType<typeof setTimeout> | null = null;
  let spare: Worker | null = null;
  let isReady = false;
  let later: ReturnType<typeof setTimeout> | undefined;

  const hire = (): Worker => {
    const worker = start();
    worker.addEventListener('message', ({ data }: MessageEvent<Word>) => {
      if ('ready' in data) isReady ||= worker === spare;
      else hear(worker, data);
    });
    worker.addEventListener('error', (event) => {
      if (worker === hired) end('broke', event.message);
    });
    return worker;
  };
  let hired = hire();

  const replace = (): void => {
    hired.terminate();
    hired = spare ?? hire();
    spare = null;
    isReady = false;
  };
  const rest = (): void => {
    clearTimeout(later);
    later = setTimeout(() => (spare ??= hire()), LATER);
  };
  const next = (): void => {
    if (grace !== null) clearTimeout(grace);
    grace = null;
    if (waiting === null) {
      rest();
      return;
    }
    const { ask, listener } = waiting;
    waiting = null;
    send(ask, listener);
  };
  const end = (why: Parameters<Listener['end']>[0], words = ''): void => {
    if (running === null) return;
    clearTimeout(running.timer);
    const { listener, ask } = running;
    running = null;
    // Files leave much behind in their worker: another goes on without it.
    if (why !== 'done' || ask.what.screen === 'files') replace();
    listener.end(why, words);
    next();
  };
  const send = (ask: Ask, listener: Listener): void => {
    running = { ask, listener, timer: setTimeout(() => end('budget'), BUDGET) };
    hired.postMessage(ask);
  };
  const hear = (worker: Worker, word: Exclude<Word, { readonly ready: true }>): void => {
    if (worker !== hired || running === null || word.id !== running.ask.id) return;
    const { listener } = running;
    if ('part' in word) {
      if (waiting === null) listener.part(word.part);
    } else if ('progress' in word) listener.progress(word.progress.what, word.progress.share);
    else if ('done' in word) end('done');
    else if ('broke' in word) end('broke', word.broke);
  };
  return {
    ask: (question, listener) => {
      id += 1;
      clearTimeout(later);
      const ask = { id, ...question };
      if (running === null) {
        send(ask, listener);
        return;
      }
      waiting = { ask, listener };
      // The worker looks between its steps whether there is something newer; in a long step it cannot.
      hired.postMessage({ id: ask.id, newer: true });
      spare ??= hire();
      grace ??= setTimeout(
        () => {
          grace = null;
          end('newer');
        },
        isReady ? GRACE.ready : GRACE.none,
      );
    },
    stop: () => {
      waiting = null;
      end('stopped');
    },
  };
};
